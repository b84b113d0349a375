"""What is kept of the second source: foods that never change, words asked for once, recipes that wait."""

from __future__ import annotations

from datetime import timedelta

import pytest
from saltledger.foods.remote.kept import KeptFood
from saltledger.foods.remote.translation import kept_food
from saltledger.store import second_foods
from saltledger.store.database import Database
from saltledger.store.saving import Workbench
from saltledger.store.second_foods import LookUp

from ..foods.remote.shapes import food
from .conftest import CMS, recipe

LEASE = timedelta(minutes=5)


def dulse(sodium: float = 2500.0) -> KeptFood:
    return kept_food(food(sodium=sodium), "2026-11-25")


def test_a_newer_release_takes_the_place_of_an_older_one_which_stays_to_be_found(database: Database) -> None:
    old, new = dulse(2500), dulse(2600)
    with database.write() as connection:
        assert second_foods.keep(connection, [old], "matched") == ["fdc:2700001"]
        assert second_foods.keep(connection, [new], "offered") == ["fdc:2700001"]
    with database.read() as connection:
        (kept,) = second_foods.standing(connection)
        assert (kept.food, kept.role) == (new, "matched")
        assert second_foods.with_sha256(connection, [old.sha256]) == [old]


def test_keeping_what_is_kept_changes_nothing(database: Database) -> None:
    with database.write() as connection:
        second_foods.keep(connection, [dulse()], "matched")
        mark = second_foods.mark_of(connection)
        assert second_foods.keep(connection, [dulse()], "offered") == []
        assert second_foods.mark_of(connection) == mark


def test_a_food_that_is_chosen_is_matched_from_then_on(database: Database) -> None:
    with database.write() as connection:
        second_foods.keep(connection, [dulse()], "offered")
        mark = second_foods.mark_of(connection)
        assert second_foods.keep(connection, [dulse()], "matched") == ["fdc:2700001"]
        assert [each.role for each in second_foods.standing(connection)] == ["matched"]
        assert second_foods.mark_of(connection) != mark


def test_a_food_that_is_dropped_is_kept_no_longer(database: Database) -> None:
    with database.write() as connection:
        second_foods.keep(connection, [dulse()], "matched")
        mark = second_foods.mark_of(connection)
        assert second_foods.drop(connection, "fdc:2700001")
        assert not second_foods.drop(connection, "fdc:2700001")
        assert second_foods.standing(connection) == []
        assert second_foods.mark_of(connection) != mark


def test_words_are_given_to_one_asker_at_a_time(database: Database) -> None:
    with database.write() as connection:
        second_foods.ask(connection, ["dulse paste", "dulse paste", "samphire"])
        second_foods.ask(connection, ["samphire"])
        first, second = (second_foods.claim(connection, lease=LEASE) for _ in range(2))
        assert {first.words, second.words} == {"dulse paste", "samphire"}
        assert second_foods.claim(connection, lease=LEASE) is None
        assert not second_foods.any_due(connection)


def test_a_lease_that_ran_out_gives_the_words_to_the_next(database: Database) -> None:
    with database.write() as connection:
        second_foods.ask(connection, ["dulse paste"])
        second_foods.claim(connection, lease=timedelta(seconds=-1))
        assert second_foods.claim(connection, lease=LEASE).words == "dulse paste"


@pytest.mark.parametrize(("state", "tries"), [("found", 0), ("nothing", 0), ("failed", 1)])
def test_what_came_of_words_is_written_down(database: Database, state, tries) -> None:
    with database.write() as connection:
        second_foods.ask(connection, ["dulse paste"])
        due = second_foods.claim(connection, lease=LEASE)
        second_foods.settle(connection, LookUp(due.words, state, ("fdc:1",), due.tries))
        assert second_foods.asked(connection)["dulse paste"] == LookUp(
            "dulse paste", state, ("fdc:1",), tries
        )
        assert second_foods.asked(connection, ["kelp"]) == {}
        assert not second_foods.any_due(connection)


def test_a_recipe_waits_for_words_of_its_newest_version(database: Database, bench: Workbench) -> None:
    bench.save("pie", recipe(), CMS)
    with database.write() as connection:
        second_foods.await_words(connection, "pie", ["kelp"])
        second_foods.await_words(connection, "pie", ["dulse paste", "samphire"])
        assert set(second_foods.waited_for_unasked(connection)) == {"dulse paste", "samphire"}
        second_foods.ask(connection, ["dulse paste"])
        assert second_foods.waited_for_unasked(connection) == ["samphire"]
        assert second_foods.keys_waiting(connection) == []
        second_foods.settle(connection, LookUp("dulse paste", "found", (), 0))
        assert second_foods.keys_waiting(connection) == [("pie", "dulse paste")]
        assert second_foods.stop_waiting(connection, "pie", "dulse paste")
        assert not second_foods.stop_waiting(connection, "pie", "dulse paste")
