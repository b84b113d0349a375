"""Saving, versions, lists: the same on every database."""

from __future__ import annotations

import threading
from dataclasses import replace
from typing import Any

import pytest
from saltledger.core.errors import InvalidRequest, NotFound
from saltledger.review.chain import Actor
from saltledger.store import event_feed, listing, recipes
from saltledger.store.database import Database
from saltledger.store.expectations import Condition, PreconditionFailed, PreconditionRequired
from saltledger.store.records import Place, Wanted
from saltledger.store.saving import Workbench

from .conftest import CMS, INES, calculate, recipe


def current(database: Database, key: str) -> Any:
    with database.read() as connection:
        return recipes.current(connection, key)


def listed(database: Database, wanted: Wanted, after: Place | None = None, limit: int = 10) -> list[str]:
    with database.read() as connection:
        return [each.key for each in listing.page(connection, wanted, after, limit)]


def test_a_first_save_makes_version_one(bench: Workbench) -> None:
    saved = bench.save("soup", recipe(), CMS)
    assert (saved.is_new, saved.changed, saved.version.number) == (True, True, 1)
    assert saved.version.answer["sodium"]["per_serving_mg"]["likely"] == 25
    assert saved.version == current(bench.database, "soup")
    assert saved.version.status == "open"


def test_the_same_content_again_changes_nothing(bench: Workbench) -> None:
    first = bench.save("soup", recipe(servings=4), CMS)
    again = bench.save("soup", dict(reversed(recipe(servings=4.0).items())), CMS)
    assert (again.is_new, again.changed) == (False, False)
    assert again.version == first.version


def test_other_content_makes_the_next_version_and_keeps_the_first(bench: Workbench) -> None:
    first = bench.save("soup", recipe(), CMS).version
    second = bench.save("soup", recipe("1 l stock", "salt"), CMS).version
    assert (second.number, second.sodium_mg) == (2, 50)
    assert second.etag != first.etag
    with bench.database.read() as connection:
        assert recipes.version(connection, "soup", 1) == first
        assert [each.number for each in recipes.history(connection, "soup")] == [2, 1]
        assert recipes.version(connection, "soup", 3) is None


def test_what_cannot_be_calculated_is_not_saved(bench: Workbench) -> None:
    with pytest.raises(InvalidRequest, match="no food 'gone'"):
        bench.save("soup", recipe({"line": "salt", "food": "gone"}), CMS)
    assert current(bench.database, "soup") is None


def test_a_condition_that_names_an_old_version_is_refused(bench: Workbench) -> None:
    first = bench.save("soup", recipe(), CMS).version
    bench.save("soup", recipe("fish"), Actor("local", label="anna"))
    with pytest.raises(PreconditionFailed, match="Version 2 of 'soup', by anna") as refused:
        bench.save("soup", recipe("meat"), CMS, Condition(match=frozenset({first.etag})))
    assert refused.value.current == current(bench.database, "soup")


def test_a_condition_that_names_the_current_version_is_met(bench: Workbench) -> None:
    first = bench.save("soup", recipe(), CMS).version
    condition = Condition(match=frozenset({"something-else", first.etag}), required=True)
    assert bench.save("soup", recipe("fish"), CMS, condition).version.number == 2
    assert bench.save("soup", recipe("meat"), CMS, Condition(match=frozenset({"*"}))).version.number == 3


def test_a_save_sent_twice_is_acknowledged_twice(bench: Workbench) -> None:
    """The answer to the first was lost on the way; its If-Match is out of date through itself."""
    first = bench.save("soup", recipe(), CMS).version
    condition = Condition(match=frozenset({first.etag}))
    second = bench.save("soup", recipe("fish"), CMS, condition)
    assert bench.save("soup", recipe("fish"), CMS, condition) == replace(second, changed=False)


def test_conditions_on_what_is_not_there(bench: Workbench) -> None:
    with pytest.raises(PreconditionFailed, match="Nothing is saved under 'soup'"):
        bench.save("soup", recipe(), CMS, Condition(match=frozenset({"*"})))
    bench.save("soup", recipe(), CMS, Condition(absent=True, required=True))
    with pytest.raises(PreconditionFailed):
        bench.save("soup", recipe(), CMS, Condition(absent=True))
    with pytest.raises(PreconditionRequired, match="If-Match"):
        bench.save("soup", recipe("fish"), CMS, Condition(required=True))


def test_of_many_saves_at_once_that_expect_the_same_version_one_wins(bench: Workbench) -> None:
    first = bench.save("soup", recipe(), CMS).version
    condition = Condition(match=frozenset({first.etag}))
    outcomes = _at_once(8, lambda i: bench.save("soup", recipe(f"line {i}"), CMS, condition))
    won = [each for each in outcomes if not isinstance(each, Exception)]
    assert len(won) == 1
    assert all(isinstance(each, PreconditionFailed) for each in outcomes if each not in won)
    assert current(bench.database, "soup") == won[0].version


def test_of_many_saves_at_once_without_conditions_none_is_lost(bench: Workbench) -> None:
    outcomes = _at_once(6, lambda i: bench.save("soup", recipe(f"line {i}"), CMS))
    assert not [each for each in outcomes if isinstance(each, Exception)]
    with bench.database.read() as connection:
        history = recipes.history(connection, "soup")
        kept = {
            recipes.version(connection, "soup", each.number).request["ingredients"][0] for each in history
        }
        told = [each.payload["version"] for each in event_feed.after(connection, 0, 100)]
    assert [each.number for each in history] == [6, 5, 4, 3, 2, 1]
    assert kept == {f"line {i}" for i in range(6)}
    assert told == [1, 2, 3, 4, 5, 6]


def test_events_are_numbered_as_they_become_visible(bench: Workbench) -> None:
    """A reader that asks after the last number it saw misses nothing, whatever commits meanwhile."""
    seen: list[int] = []
    stop = threading.Event()

    def follow() -> None:
        while not stop.is_set() or (len(seen) < 20 and stop.wait(0.05) is not None):
            with bench.database.read() as connection:
                seen.extend(each.id for each in event_feed.after(connection, seen[-1] if seen else 0, 5))

    reader = threading.Thread(target=follow)
    reader.start()
    _at_once(4, lambda i: [bench.save(f"soup {i}", recipe(f"line {j}"), CMS) for j in range(5)])
    stop.set()
    reader.join(30)
    with bench.database.read() as connection:
        assert seen == [each.id for each in event_feed.after(connection, 0, 100)]
        assert len(seen) == 20
        assert event_feed.latest_id(connection) == seen[-1]


def _at_once(number: int, act: Any) -> list[Any]:
    outcomes: list[Any] = [None] * number
    start = threading.Barrier(number)

    def run(i: int) -> None:
        start.wait()
        try:
            outcomes[i] = act(i)
        except Exception as fault:  # kept, to be looked at
            outcomes[i] = fault

    threads = [threading.Thread(target=run, args=(i,)) for i in range(number)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return outcomes


def test_the_lists_are_filtered_and_paged(bench: Workbench) -> None:
    for key, lines in {"a": 1, "b": 5, "c": 3, "d": 5}.items():
        bench.save(key, recipe(*["salt"] * lines), CMS)
    bench.decide(current(bench.database, "b").save_id, "signed", INES, "")
    database = bench.database
    assert listed(database, Wanted()) == ["a", "b", "c", "d"]
    assert listed(database, Wanted(status="open")) == ["a", "c", "d"]
    assert listed(database, Wanted(status="signed")) == ["b"]
    assert listed(database, Wanted(above_mg=75)) == ["b", "d"]
    assert listed(database, Wanted(), after=Place("b"), limit=1) == ["c"]
    by_sodium = Wanted(order="sodium")
    assert listed(database, by_sodium) == ["b", "d", "c", "a"]
    assert listed(database, by_sodium, after=Place("b", (125,))) == ["d", "c", "a"]
    assert listed(database, by_sodium, after=Place("c", (75,))) == ["a"]
    with database.read() as connection:
        assert listing.count_by_status(connection) == {"open": 3, "signed": 1}
        assert listing.keys_after(connection, "", 9, archived=True) == ["a", "b", "c", "d"]


def test_titles_that_databases_cannot_hold_are_listed_all_the_same(bench: Workbench) -> None:
    saved = bench.save("soup", recipe(title="Soup \0 \ud800 of the day 🐟"), CMS).version
    with bench.database.read() as connection:
        assert recipes.history(connection, "soup")[0].title == "Soup \ufffd ? of the day 🐟"
        assert recipes.current(connection, "soup").request == saved.request


def test_a_verdict_belongs_to_one_version(bench: Workbench) -> None:
    first = bench.save("soup", recipe(), CMS).version
    bench.decide(first.save_id, "sent_back", INES, "weigh the salt")
    assert current(bench.database, "soup").status == "sent_back"
    second = bench.save("soup", recipe("fish"), CMS).version
    assert second.status == "open"
    with pytest.raises(PreconditionFailed):
        bench.decide(first.save_id, "signed", INES, "")
    bench.decide(second.save_id, "signed", INES, "fine")
    with pytest.raises(NotFound):
        bench.decide("save_none", "signed", INES, "")
    with bench.database.read() as connection:
        assert recipes.latest_signed(connection, "soup", 3).number == 2
        assert recipes.latest_signed(connection, "soup", 2) is None
        assert [each.note for each in recipes.sign_offs_of(connection, second.save_id)] == ["fine"]
        told = [(each.kind, each.payload.get("note")) for each in event_feed.after(connection, 0, 10)]
    assert told == [
        ("recipe.saved", None),
        ("recipe.sent_back", "weigh the salt"),
        ("recipe.saved", None),
        ("recipe.signed", "fine"),
    ]


def test_versions_are_found_by_their_ids(bench: Workbench) -> None:
    bench.save("soup", recipe(), CMS)
    saved = bench.save("broth", recipe(), CMS).version
    with bench.database.read() as connection:
        assert recipes.by_save_id(connection, saved.save_id) == saved
        assert recipes.by_calculation_id(connection, saved.answer["id"]) == saved
        assert recipes.by_save_id(connection, "save_none") is None


def test_a_recalculation_marks_what_moved_by_more_than_a_share(bench: Workbench) -> None:
    for key in ("still", "little", "much"):
        saved = bench.save(key, recipe(title=key), CMS).version
        bench.decide(saved.save_id, "signed", INES, "")
    factor = {"still": 1.0, "little": 1.04, "much": 1.06}

    def with_new_data(request: dict[str, Any], **_: Any) -> dict[str, Any]:
        answer = calculate(request)
        likely = answer["sodium"]["per_serving_mg"]["likely"] * factor[request["title"]]
        answer["sodium"]["per_serving_mg"]["likely"] = likely
        return answer | {"dataset": {"sha256": "data-2"}}

    newer = Workbench(bench.database, with_new_data, "factors-2")
    assert newer.recalculate("much", 0.05, keep=False).moved
    assert current(bench.database, "much").number == 1
    assert [newer.recalculate(key, 0.05).moved for key in factor] == [False, False, True]
    assert current(bench.database, "little").status == "signed"
    marked = current(bench.database, "much")
    assert (marked.status, marked.cause, marked.number) == ("open", "recalculated", 2)
    assert (marked.dataset_sha256, marked.factors_sha256) == ("data-2", "factors-2")
    assert not newer.recalculate("much", 0.05).moved


def test_a_recalculation_that_fails_says_so_and_changes_nothing(bench: Workbench) -> None:
    bench.save("soup", recipe(), CMS)

    def broken(request: dict[str, Any], **_: Any) -> dict[str, Any]:
        raise NotFound("food", "02047")

    found = Workbench(bench.database, broken, "factors-2").recalculate("soup", 0.05)
    assert (found.after_mg, found.moved, found.fault) == (None, False, "There is no food '02047'.")
    assert current(bench.database, "soup").number == 1
