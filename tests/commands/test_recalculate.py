"""`saltledger recalculate`: what moved is kept, once, and a run that was stopped is gone on with."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result
from saltledger.commands.cli import main
from saltledger.core.errors import SaltledgerError
from saltledger.jobs import workbenches
from saltledger.jobs.recalculation import NAME
from saltledger.review.chain import Actor
from saltledger.store import event_feed, recipes
from saltledger.store.database import Database
from saltledger.store.schema import long_runs
from saltledger.store.schema import recipes as table
from sqlalchemy import select, update

Run = Callable[..., Result]
SOUP: dict[str, Any] = {"title": "Soup", "servings": 4, "ingredients": ["1 litre water", "6 g table salt"]}


@pytest.fixture
def database(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Database]:
    url = f"sqlite:///{tmp_path}/store.sqlite3"
    monkeypatch.setenv("SALTLEDGER_DATABASE_URL", url)
    opened = Database(url)
    yield opened
    opened.close()


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, ["recalculate", *arguments])


def save(database: Database, **titles: str) -> None:
    bench = workbenches.make_workbench(database)
    for key, title in titles.items():
        bench.save(key, {**SOUP, "title": title}, Actor("local"))


def newer_factors(monkeypatch: pytest.MonkeyPatch, stop_at: str = "") -> None:
    """Titles that say "Moved" give a fifth more; "Broken" cannot be worked out; `stop_at` ends the run."""
    plain = workbenches.answer_recipe

    def answer(document: dict[str, Any], foods: object) -> dict[str, Any]:
        if stop_at and document["title"] == stop_at:
            raise KeyboardInterrupt
        if document["title"] == "Broken":
            raise SaltledgerError("no such food any more")
        made = json.loads(json.dumps(plain(document)))
        if document["title"] == "Moved":
            made["sodium"]["per_serving_mg"]["likely"] *= 1.2
        return made

    monkeypatch.setattr(workbenches, "answer_recipe", answer)


def causes(database: Database, *keys: str) -> dict[str, str]:
    with database.read() as connection:
        found = {key: recipes.current(connection, key) for key in keys}
    return {key: version.cause for key, version in found.items() if version is not None}


def events(database: Database, kind: str) -> list[str]:
    with database.read() as connection:
        return [each.payload["key"] for each in event_feed.after(connection, 0, 10_000, kinds=[kind])]


@pytest.mark.parametrize("workers", ["1", "2"])
def test_recipes_that_moved_are_marked(
    database: Database, monkeypatch: pytest.MonkeyPatch, workers: str
) -> None:
    save(database, still="Still", moved="Moved", broken="Broken", **{f"z{n:03}": "Still" for n in range(40)})
    newer_factors(monkeypatch)
    tried = run("--dry-run", "--workers", workers)
    assert "1 would be marked" in tried.stderr
    done = run("--moved-by", "0.1", "--workers", workers)
    assert done.exit_code == 1
    assert done.stdout.startswith("moved: ")
    assert "broken: cannot be worked out: no such food any more" in done.stderr
    assert "43 recipes, 1 marked for review, 1 could not be worked out." in done.stderr
    assert causes(database, "still", "moved", "broken") == {
        "still": "saved",
        "moved": "recalculated",
        "broken": "saved",
    }
    assert events(database, "recipe.recalculated") == ["moved"]
    assert run("--moved-by", "0.3", "--workers", workers).stdout == ""


def test_a_run_that_was_stopped_is_gone_on_with_and_gives_no_event_twice(
    database: Database, monkeypatch: pytest.MonkeyPatch
) -> None:
    save(database, **{f"k{n:03}": "Moved" for n in range(70)}, k070="Stop", k071="Moved")
    with monkeypatch.context() as patched:
        newer_factors(patched, stop_at="Stop")
        assert run("--workers", "1").exit_code != 0
    newer_factors(monkeypatch)
    again = run("--workers", "1")
    assert "Going on after 64 recipes of an earlier run." in again.stderr
    assert "72 recipes" in again.stderr
    assert sorted(events(database, "recipe.recalculated")) == [*(f"k{n:03}" for n in range(70)), "k071"]
    with database.read() as connection:
        assert connection.execute(select(long_runs.c.name)).all() == []


def test_a_stopped_run_with_another_share_is_not_gone_on_with(
    database: Database, monkeypatch: pytest.MonkeyPatch
) -> None:
    save(database, **{f"k{n:03}": "Still" for n in range(40)}, k070="Stop")
    with monkeypatch.context() as patched:
        newer_factors(patched, stop_at="Stop")
        run("--workers", "1")
    with database.read() as connection:
        assert connection.scalars(select(long_runs.c.name)).all() == [NAME]
    newer_factors(monkeypatch)
    assert "Going on" not in run("--workers", "1", "--moved-by", "0.2").stderr


def test_ingredients_come_first_and_those_above_follow(
    database: Database, monkeypatch: pytest.MonkeyPatch
) -> None:
    bench = workbenches.make_workbench(database)
    save(database, stock="Moved", other="Still")
    tray = {"title": "Tray", "servings": 2, "ingredients": [{"recipe": "stock", "servings": 2}]}
    bench.save("a-tray", tray, Actor("local"))
    above = {"title": "Board", "servings": 2, "ingredients": [{"recipe": "a-tray", "servings": 1}]}
    bench.save("a-board", above, Actor("local"))
    order = []
    plain = workbenches.answer_recipe

    def noted(document: dict[str, Any], foods: object) -> dict[str, Any]:
        order.append(document["title"])
        return plain(document, foods)  # type: ignore[arg-type]

    monkeypatch.setattr(workbenches, "answer_recipe", noted)
    with database.write() as connection:
        connection.execute(update(table).values(stale=True))
    assert "4 recipes, 0 marked" in run("--workers", "1").stderr
    assert order == ["Still", "Moved", "Tray", "Board"]
    with database.read() as connection:
        assert not any(connection.scalars(select(table.c.stale)))
