"""Which line moved the sodium of a serving, and that the parts add up to the whole."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from saltledger.review.difference import Difference, difference

from .kitchens import answer, ingredient, kitchens, loin, movement


def flat(*ingredients: Any, servings: float = 4) -> dict[str, Any]:
    whole = sum(each["sodium_mg"] or 0 for each in ingredients)
    return answer(list(ingredients), [movement("recipe", "eaten", None, whole)], servings)


def line(text: str, sodium_mg: float, code: str) -> dict[str, Any]:
    return ingredient("recipe", text, sodium_mg, code)


def between(before: Any, after: Any, steps: Any = ((), ())) -> Difference:
    found = difference(before, after, steps)
    parts = sum(each.moved_mg for each in found.lines) + found.steps_moved_mg + found.servings_moved_mg
    assert parts == pytest.approx(found.moved_mg, abs=1e-6)
    return found


def changes(found: Difference) -> dict[str, tuple[str, float]]:
    return {each.after or each.before or "": (each.change, round(each.moved_mg, 3)) for each in found.lines}


def test_a_line_whose_amount_changed_is_one_line() -> None:
    before = flat(line("1 tsp salt", 2000, "02047"), line("stock", 400, "06000"))
    after = flat(line("2 tsp salt", 4000, "02047"), line("Stock.", 400, "06000"))
    found = between(before, after)
    assert changes(found) == {"2 tsp salt": ("changed", 500), "Stock.": ("same", 0)}
    assert (found.steps_moved_mg, found.servings_moved_mg) == (pytest.approx(0), 0)
    assert found.lines[0].before == "1 tsp salt"


def test_lines_come_go_and_move() -> None:
    before = flat(line("olives", 800, "09193"), line("salt", 2000, "02047"))
    after = answer(
        [line("capers", 400, "02054"), ingredient("sauce", "salt", 2000, "02047")],
        [movement("recipe", "eaten", None, 400), movement("sauce", "poured_away", None, 2000)],
    )
    found = between(before, after)
    assert changes(found) == {"capers": ("added", 100), "salt": ("moved", -500), "olives": ("removed", -200)}


def test_another_mapping_of_the_same_line_is_its_change() -> None:
    before = flat(line("salt", 2000, "02047"))
    found = between(before, flat(line("salt", 1500, "99001")))
    assert changes(found) == {"salt": ("changed", -125)}
    assert (found.lines[0].food_before, found.lines[0].food_after) == ("food 02047", "food 99001")


def test_servings_are_told_apart_from_lines() -> None:
    before = flat(line("1 tsp salt", 2000, "02047"), servings=4)
    found = between(before, flat(line("2 tsp salt", 4000, "02047"), servings=8))
    assert changes(found) == {"2 tsp salt": ("changed", 500)}
    assert found.servings_moved_mg == pytest.approx(-500)
    assert (found.servings_before, found.servings_after) == (4, 8)


def test_a_line_is_the_same_whatever_the_servings() -> None:
    before = flat(line("1 tsp salt", 2000, "02047"), servings=4)
    found = between(before, flat(line("1 tsp salt", 2000, "02047"), servings=8))
    assert changes(found) == {"1 tsp salt": ("same", 0)}


def test_a_longer_brine_is_the_work_of_the_step() -> None:
    steps = ([{"kind": "brine", "duration_h": 24}, {"kind": "simmer"}], [{"kind": "brine", "duration_h": 48}])
    found = between(loin(into_loin=2000), loin(into_loin=4000), steps)
    assert {each.change for each in found.lines} == {"same"}
    assert found.steps_moved_mg == pytest.approx(found.moved_mg)
    assert found.steps_changed == (0, 1)


def test_more_salt_in_a_brine_that_is_poured_away_moves_little() -> None:
    found = between(loin(), loin(salt_mg=20_000, into_loin=4_000))
    by_line = {each.after: each.moved_mg for each in found.lines}
    assert by_line["salt"] == pytest.approx(10_000 / 4 * 0.175)


def test_lines_that_are_alike_are_matched_one_to_one() -> None:
    before = flat(line("salt", 1000, "02047"), line("salt", 1000, "02047"))
    found = between(before, flat(line("salt", 1000, "02047")))
    assert [(each.change, each.moved_mg) for each in found.lines] == [("same", 0), ("removed", -250)]


def test_salt_where_there_was_none() -> None:
    found = between(
        flat(line("water", 0, "14411")), flat(line("water", 0, "14411"), line("salt", 400, "02047"))
    )
    assert changes(found)["salt"] == ("added", 100)


@settings(max_examples=60, deadline=None)
@given(kitchens(), kitchens(), st.sampled_from([0.5, 4, 60]))
def test_the_parts_always_add_up(before: Any, after: Any, servings: float) -> None:
    after = {**after, "servings": servings}
    eaten = sum(each["mg"] for each in after["sodium"]["ledger"] if each["to"] == "eaten")
    after["sodium"] = {**after["sodium"], "per_serving_mg": {"likely": eaten / servings}}
    found = between(before, after)
    # What is left to the steps is theirs, not an error of the adding up.
    if before["sodium"]["ledger"] == after["sodium"]["ledger"] and servings == 4:
        assert found.steps_moved_mg == pytest.approx(0, abs=1e-3)
    assert len(found.lines) == 3
