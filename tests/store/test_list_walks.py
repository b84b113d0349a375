"""Lists: read along their index, never sorted; counts that are right whatever writes recipes."""

from __future__ import annotations

from contextlib import suppress
from typing import Any

import pytest
from saltledger.review.chain import Actor
from saltledger.review.urgency import Urgency
from saltledger.store import lifecycle, list_walks, listing, recipes
from saltledger.store.database import Database
from saltledger.store.records import Wanted
from saltledger.store.saving import Workbench
from saltledger.store.schema import recipes as table
from sqlalchemy import Connection, event, func, insert, select, text, update

from .conftest import CMS, INES, recipe

ORDERS = ("key", "title", "sodium", "urgency", "doubtful", "changed")


@pytest.fixture
def many(database: Database) -> Database:
    """Rows of recipes alone, as lists see them: a few with each mark."""
    rows = [
        {
            "key": f"k{number:04}",
            "current": 1,
            "created_at": "",
            "status": ("open", "signed")[number % 2],
            "by_title": f"t{number % 97}",
            "sodium_mg": float(number % 89),
            "urgency": number % 7,
            "doubtful_mg": float(number % 3),
            "changed_at": f"2026-11-{number % 20:02}",
            "stops": int(number == 40),
            "complete": number != 44,
            "stale": number == 46,
        }
        for number in range(2500)
    ]
    with database.write() as connection:
        connection.execute(insert(table), rows)
        connection.execute(text("ANALYZE"))
    return database


def plan_of(connection: Connection, wanted: Wanted) -> list[str]:
    """How the recipes of a list's first page are found, in the database's words."""
    asked: list[Any] = []

    def note(_conn: Any, _cursor: Any, statement: str, parameters: Any, *_: Any) -> None:
        if "versions" in statement:
            asked.append((statement, parameters))

    event.listen(connection, "before_cursor_execute", note)
    listing.page(connection, wanted, None, 50)
    statement, parameters = asked[0]
    explain = "EXPLAIN QUERY PLAN" if connection.dialect.name == "sqlite" else "EXPLAIN"
    rows = connection.exec_driver_sql(f"{explain} {statement}", parameters).all()
    event.remove(connection, "before_cursor_execute", note)
    return [str(row[-1]).strip() for row in rows]


@pytest.mark.parametrize("order", ORDERS)
@pytest.mark.parametrize("status", [None, "signed"])
def test_no_list_is_sorted(many: Database, order: Any, status: Any) -> None:
    with many.read() as connection:
        plan = plan_of(connection, Wanted(order=order, status=status))
        index = list_walks.index_of(connection, Wanted(order=order, status=status))
        on_sqlite = connection.dialect.name == "sqlite"
    if on_sqlite:
        found = plan[: next(at for at, line in enumerate(plan) if line.startswith("SCAN"))]
        assert any(f"{index}" in line for line in found)
        assert not any("TEMP B-TREE" in line for line in found)
    else:
        limit = next(at for at, line in enumerate(plan) if "Limit" in line)
        assert "Index" in plan[limit + 1]


@pytest.mark.parametrize(
    ("asked", "index"),
    [
        ({"stops": True}, "ix_recipes_with_stops"),
        ({"complete": False}, "ix_recipes_incomplete"),
        ({"stale": True}, "ix_recipes_stale"),
        ({"doubtful": True}, "ix_recipes_by_urgency"),
    ],
)
def test_a_rare_mark_is_looked_up_and_a_common_one_is_not(
    many: Database, asked: dict[str, Any], index: str
) -> None:
    with many.read() as connection:
        assert list_walks.index_of(connection, Wanted(order="urgency", **asked)) == index


def test_counts_follow_whatever_is_done_to_recipes(bench: Workbench) -> None:
    for key in ("a", "b", "c", "d"):
        bench.save(key, recipe(title=key), CMS)
    with bench.database.read() as connection:
        current = recipes.current(connection, "a")
    assert current is not None
    bench.decide(current.save_id, "signed", INES, "")
    lifecycle.archive(bench.database, "b", Actor("local"))
    lifecycle.delete(bench.database, "c", Actor("local"))
    with bench.database.read() as connection:
        assert listing.count_by_status(connection) == {"open": 1, "signed": 1} == _counted(connection)
        assert (listing.count(connection), listing.count(connection, archived=True)) == (2, 3)
    with bench.database.write() as connection:
        connection.execute(update(table).values(state="active", status="sent_back"))
        assert listing.count_by_status(connection) == {"sent_back": 4} == _counted(connection)
    with suppress(_Undone), bench.database.write() as connection:
        connection.execute(update(table).values(status="open"))
        raise _Undone
    with bench.database.read() as connection:
        assert listing.count_by_status(connection) == {"sent_back": 4}


class _Undone(Exception):
    """A transaction that is taken back."""


def _counted(connection: Connection) -> dict[str, int]:
    query = select(table.c.status, func.count()).where(table.c.state == "active").group_by(table.c.status)
    return {status: count for status, count in connection.execute(query)}  # noqa: C416


@pytest.mark.parametrize(
    ("wanted", "barely"),
    [
        (Wanted(status="open", stops=True), Urgency(1, 0, False, 0.0, False, False)),
        (Wanted(status="open", complete=False), Urgency(0, 0, True, 0.0, False, False)),
        (Wanted(status="open", changed_since_signing=True), Urgency(0, 0, False, 0.0, True, False)),
        (Wanted(status="open"), Urgency(0, 0, False, 0.0, False, False)),
        (Wanted(status="signed", stops=True), Urgency(0, 0, False, 0.0, False, False)),
    ],
)
def test_nothing_that_is_wanted_lies_below_where_reading_ends(wanted: Wanted, barely: Urgency) -> None:
    assert list_walks.least_urgency(wanted) <= barely.rank
