"""What is taken out for its age is nothing that anybody decided on, and is on record."""

from __future__ import annotations

from typing import Any

import pytest
from click.testing import CliRunner
from saltledger.commands.cli import main
from saltledger.review.chain import Actor
from saltledger.review.overrides import Overrule, targets
from saltledger.store import deliveries, event_feed, journal, pruning, recipes, schema
from saltledger.store.database import Database
from saltledger.store.saving import Workbench
from saltledger.store.verifying import Today, verify
from sqlalchemy import delete, update

from .conftest import CMS, INES, calculate, recipe

LATER = "9999-01-01T00:00:00.000000Z"
BY = Actor("local")


def take_out(database: Database, before: str = LATER) -> int:
    with database.read() as connection:
        old = pruning.old_versions(connection, before)
    return sum(pruning.take_out_versions(database, old, before, BY))


def numbers(database: Database, key: str = "soup") -> list[int]:
    with database.read() as connection:
        return [each.number for each in recipes.history(connection, key)]


def altered(database: Database) -> list[str]:
    today = Today(lambda _, request: calculate(request), "data-1", "factors-1")
    with database.read() as connection:
        return verify(connection, today).altered


@pytest.fixture
def soup(bench: Workbench) -> Workbench:
    """Six versions: the first was sent back, the second overruled, which made the third."""
    first = bench.save("soup", recipe("stock", "salt"), CMS).version
    bench.decide(first.save_id, "sent_back", INES, "weigh the salt")
    second = bench.save("soup", recipe("stock", "salt", "leek"), CMS).version
    target = targets(second.request)["/ingredients/1"]
    bench.overrule(second.save_id, [Overrule(target, "grams", 20.0, "weighed", "Ines", by=INES.by)])
    for title in ("one", "two", "three"):
        bench.save("soup", recipe("stock", "salt", title), CMS)
    return bench


def test_what_was_decided_on_and_the_last_two_stay(soup: Workbench) -> None:
    assert take_out(soup.database) == 2
    assert numbers(soup.database) == [6, 5, 2, 1]
    assert altered(soup.database) == []
    assert soup.save("soup", recipe("stock"), CMS).version.number == 7
    assert take_out(soup.database) == 1
    assert altered(soup.database) == []


def test_what_is_younger_stays(soup: Workbench) -> None:
    assert take_out(soup.database, "2026-01-01T00:00:00.000000Z") == 0
    assert numbers(soup.database) == [6, 5, 4, 3, 2, 1]


def test_versions_that_others_are_made_of_stay(database: Database) -> None:
    def made_of(request: dict[str, Any], *, pins: Any = ()) -> dict[str, Any]:
        parts = [{"key": "stock", "save_id": stock.save_id, "recipes": []}] if "dish" in str(request) else []
        return {**calculate(request), "recipes": parts}

    bench = Workbench(database, made_of, "factors-1")
    stock = bench.save("stock", recipe("bones"), CMS).version
    bench.save("dish", recipe("rice", {"recipe": "stock", "grams": 100}, title="dish"), CMS)
    for more in ("salt", "pepper", "bay"):
        bench.save("stock", recipe("bones", more), CMS)
    assert take_out(database) == 1
    assert numbers(database, "stock") == [4, 3, 1]


def test_a_record_of_taking_out_hides_no_version_that_was_decided_on(soup: Workbench) -> None:
    with soup.database.write() as connection:
        first = recipes.version(connection, "soup", 1)
        assert first is not None
        connection.execute(delete(schema.sign_offs))
        connection.execute(delete(schema.versions).where(schema.versions.c.save_id == first.save_id))
        journal.add(connection, "pruning", {"before": LATER, "save_ids": [first.save_id], "by": BY.document})
    assert any(f"({first.save_id}) is on record and was taken out" in each for each in altered(soup.database))


def test_events_go_but_the_newest_and_what_a_receiver_waits_for(soup: Workbench) -> None:
    database = soup.database
    with database.read() as connection:
        everything = event_feed.after(connection, 0, 100)
        assert pruning.old_events(connection, LATER) == (len(everything) - 1, everything[-2].id)
        assert pruning.old_events(connection, everything[2].created_at) == (2, everything[1].id)
    with database.write() as connection:
        deliveries.claim(connection, "https://cms.example/in", deliveries.FIRST_PAUSE)
        reached = {"delivered": everything[3].id}
        connection.execute(update(schema.deliveries).values(reached))
        assert pruning.old_events(connection, LATER) == (4, everything[3].id)
        deliveries.refused(connection, "https://cms.example/in", everything[1])
        found = pruning.old_events(connection, LATER)
        assert found == (1, everything[0].id)
    assert sum(pruning.take_out_events(database, found[1])) == 1
    with database.read() as connection:
        assert event_feed.ends(connection) == (everything[1].id, everything[-1].id)


def test_the_command_says_what_would_go_until_it_is_told_to(
    url: str, soup: Workbench, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("SALTLEDGER_DATABASE_URL", url)
    monkeypatch.setattr("saltledger.commands.prune._moment", lambda days: LATER)

    def said(*words: str) -> str:
        done = CliRunner().invoke(main, ["prune", *words])
        assert done.exit_code == 0, done.output
        return done.output

    asked = ("--versions-older-than", "365", "--events-older-than", "365")
    would = said(*asked)
    assert would.startswith("Would take out 2 versions and ")
    assert numbers(soup.database) == [6, 5, 4, 3, 2, 1]
    events = would.split(" and ")[1].split()[0]
    assert said(*asked, "--yes") == f"Took out 2 versions.\nTook out {events} events.\n"
    assert said(*asked).startswith("Would take out 0 versions and 0 events")
    assert CliRunner().invoke(main, ["prune"]).exit_code == 2
