"""Decisions that others overtake: a version that moved while one was working is never written over."""

from __future__ import annotations

import threading
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest
from saltledger.core.errors import StoreUnavailable
from saltledger.review.overrides import Overrule, targets
from saltledger.store import event_feed, override_records, recipes
from saltledger.store.expectations import Condition, PreconditionFailed
from saltledger.store.records import Version
from saltledger.store.saving import ATTEMPTS, Workbench

from .conftest import CMS, INES, calculate, recipe

Act = Callable[[Workbench, Version], Any]


def overrule_of(version: Version) -> Overrule:
    return Overrule(targets(version.request)["/ingredients/0"], "grams", 20, "weighed", "Ines", by=INES.by)


def history(bench: Workbench) -> list[Version]:
    with bench.database.read() as connection:
        seen = [each.number for each in recipes.history(connection, "soup")]
        return [recipes.version(connection, "soup", number) for number in seen]


def overtaken(bench: Workbench, times: int = 1) -> Workbench:
    """A bench on which somebody else saves while it calculates, so many times."""
    saved: list[int] = []

    def slow(request: dict[str, Any], *, pins: Any = ()) -> dict[str, Any]:
        answer = calculate(request, pins=pins)
        if len(saved) < times:
            saved.append(1)
            bench.save("soup", recipe("somebody else's", f"line {len(saved)}"), CMS)
        return answer

    return replace(bench, calculate=slow)


def test_a_save_without_conditions_begins_again_and_comes_last(bench: Workbench) -> None:
    bench.save("soup", recipe(), CMS)
    saved = overtaken(bench).save("soup", recipe("mine"), CMS)
    assert [each.request["ingredients"][0] for each in history(bench)] == [
        "mine",
        "somebody else's",
        "1 l stock",
    ]
    assert saved.version.number == 3


def test_a_save_that_names_what_it_saw_is_refused_once_that_has_moved(bench: Workbench) -> None:
    first = bench.save("soup", recipe(), CMS).version
    with pytest.raises(PreconditionFailed):
        overtaken(bench).save("soup", recipe("mine"), CMS, Condition(match=frozenset({first.etag})))
    assert [each.number for each in history(bench)] == [2, 1]


def test_the_first_save_of_a_key_is_not_made_twice(bench: Workbench) -> None:
    with pytest.raises(PreconditionFailed):
        overtaken(bench).save("soup", recipe("mine"), CMS, Condition(absent=True))
    assert [each.request["ingredients"][0] for each in history(bench)] == ["somebody else's"]


def test_an_overrule_of_a_version_that_moved_is_neither_kept_nor_applied(bench: Workbench) -> None:
    first = bench.save("soup", recipe(), CMS).version
    with pytest.raises(PreconditionFailed):
        overtaken(bench).overrule(first.save_id, [overrule_of(first)])
    with bench.database.read() as connection:
        assert override_records.standing(connection, "soup") == []
        told = [each.kind for each in event_feed.after(connection, 0, 10)]
    assert told == ["recipe.saved", "recipe.saved", "recipe.figure_changed"]
    assert [each.cause for each in history(bench)] == ["saved", "saved"]


def test_an_overrule_of_a_version_that_moved_stays_where_it_was_to_be_withdrawn(bench: Workbench) -> None:
    first = bench.save("soup", recipe(), CMS).version
    second = bench.overrule(first.save_id, [overrule_of(first)])
    (standing,) = second.overrules
    with pytest.raises(PreconditionFailed):
        overtaken(bench).withdraw(second.save_id, standing["id"], INES)
    with bench.database.read() as connection:
        assert [each.id for each in override_records.standing(connection, "soup")] == [standing["id"]]
    assert [each.number for each in history(bench)] == [3, 2, 1]


def test_a_recalculation_of_what_moved_begins_again_on_what_is_there(bench: Workbench) -> None:
    bench.save("soup", recipe(), CMS)
    doubled = replace(overtaken(bench), factors_sha256="factors-2")

    def twice(request: dict[str, Any], *, pins: Any = ()) -> dict[str, Any]:
        answer = doubled.calculate(request, pins=pins)
        likely = 2 * answer["sodium"]["per_serving_mg"]["likely"]
        return answer | {"sodium": {"per_serving_mg": {"low": likely, "likely": likely, "high": likely}}}

    found = replace(doubled, calculate=twice).recalculate("soup", 0.05)
    newest = history(bench)[0]
    assert (newest.number, newest.cause) == (3, "recalculated")
    assert newest.request["ingredients"][0] == "somebody else's"
    assert (found.before_mg, found.after_mg) == (50, 100)


def test_what_follows_an_overrule_elsewhere_begins_again_on_what_is_there(bench: Workbench) -> None:
    bench.save("soup", recipe(), CMS)
    other = bench.save("stew", recipe(), CMS).version
    bench.overrule(other.save_id, [replace(overrule_of(other), reach="line")])
    assert overtaken(bench).follow("soup", INES) is None  # what is there now has no such line
    assert [each.request["ingredients"][0] for each in history(bench)] == ["somebody else's", "1 l stock"]


def test_a_verdict_on_a_version_that_moved_is_refused(bench: Workbench) -> None:
    first = bench.save("soup", recipe(), CMS).version
    bench.save("soup", recipe("newer"), CMS)
    with pytest.raises(PreconditionFailed):
        bench.decide(first.save_id, "signed", INES, "")
    assert [each.status for each in history(bench)] == ["open", "open"]


def test_who_is_overtaken_every_time_is_told_to_come_back(bench: Workbench) -> None:
    bench.save("soup", recipe(), CMS)
    with pytest.raises(StoreUnavailable, match="others keep changing"):
        overtaken(bench, times=ATTEMPTS + 5).save("soup", recipe("mine"), CMS)
    assert "mine" not in [each.request["ingredients"][0] for each in history(bench)]


def at_once(*acts: Callable[[], Any]) -> list[Any]:
    outcomes: list[Any] = [None] * len(acts)
    start = threading.Barrier(len(acts))

    def run(number: int) -> None:
        start.wait()
        try:
            outcomes[number] = acts[number]()
        except Exception as fault:  # kept, to be looked at
            outcomes[number] = fault

    threads = [threading.Thread(target=run, args=(number,)) for number in range(len(acts))]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return outcomes


def test_overrules_a_withdrawal_and_a_recalculation_at_once_leave_one_line_of_versions(
    bench: Workbench,
) -> None:
    """Whoever wins, each version follows the one before, and what stands is what the newest version says."""
    first = bench.save("soup", recipe("1 l stock", "salt"), CMS).version
    seen = bench.overrule(first.save_id, [overrule_of(first)])
    (standing,) = seen.overrules
    other = Overrule(targets(seen.request)["/ingredients/1"], "grams", 7, "weighed", "Ines", by=INES.by)
    outcomes = at_once(
        lambda: bench.overrule(seen.save_id, [other]),
        lambda: bench.withdraw(seen.save_id, standing["id"], INES),
        lambda: bench.recalculate("soup", -1.0),
        lambda: bench.decide(seen.save_id, "signed", INES, ""),
    )
    faults = [each for each in outcomes if isinstance(each, Exception)]
    assert all(isinstance(each, PreconditionFailed | StoreUnavailable) for each in faults)
    versions = history(bench)
    numbers = [each.number for each in versions]
    assert numbers == list(range(len(numbers), 0, -1))
    assert len(faults) + len(numbers) >= 4
    with bench.database.read() as connection:
        kept = sorted(each.id for each in override_records.standing(connection, "soup"))
    assert kept == sorted(each["id"] for each in versions[0].overrules if each["pointer"] is not None)
