"""Where sodium came from and went, followed by hand and for arbitrary ledgers."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from saltledger.review.tracing import lines, trace

from .kitchens import answer, ingredient, loin, movement


def test_a_brined_and_poached_loin() -> None:
    traced = trace(loin())
    went = {
        (origin, place): traced.mg[i, j]
        for i, origin in enumerate(traced.origins)
        for j, place in enumerate(traced.places)
    }
    # Of the loin's 2400 mg, 600 went into the pot, half of it is drunk: 2100 of 2400 eaten.
    assert went["brine", "eaten"] == pytest.approx(2000 * 2100 / 2400)
    assert went["loin", "eaten"] == pytest.approx(400 * 2100 / 2400)
    assert went["brine", "poured_away"] == pytest.approx(8000 + 2000 * 300 / 2400)
    assert went["loin", "poured_away"] == pytest.approx(400 * 300 / 2400)
    assert traced.eaten_share("brine") == pytest.approx(0.175)
    assert traced.eaten_share("pot") == 0
    assert traced.eaten_share("sauce") is None


def test_each_line_has_its_part_of_a_serving() -> None:
    found = {line.line: line for line in lines(loin())}
    assert found["salt"].listed_mg == 2500
    assert found["salt"].eaten_mg == pytest.approx(437.5)
    assert sum(line.eaten_mg for line in found.values()) == pytest.approx(2100 / 4)


def test_a_line_of_which_a_part_is_not_eaten() -> None:
    """What the caller said is not eaten of one line leaves before anything mixes."""
    ingredients = [
        ingredient("recipe", "salt for the rim", 1000, "02047", eaten_fraction=0.1),
        ingredient("recipe", "stock", 500, "06000"),
    ]
    ledger = [movement("recipe", "not_eaten", None, 900), movement("recipe", "eaten", None, 600)]
    first, second = lines(answer(ingredients, ledger, servings=1))
    assert (first.eaten_mg, second.eaten_mg) == (pytest.approx(100), pytest.approx(500))


def test_an_unmapped_line_brings_nothing() -> None:
    ingredients = [ingredient("recipe", "moonshade leaf", None), ingredient("recipe", "salt", 800, "02047")]
    found = lines(answer(ingredients, [movement("recipe", "eaten", None, 800)]))
    assert [(line.food_code, line.eaten_mg) for line in found] == [(None, 0), ("02047", 200)]


def test_a_recipe_without_sodium() -> None:
    traced = trace(answer([ingredient("recipe", "water", 0, "14411")], []))
    assert traced.mg.size == 0
    assert traced.eaten_share("recipe") == 0


@st.composite
def kitchens(draw: Any) -> dict[str, Any]:
    """Any recipe's answer: a few components, any movements between them, then all of it served or not."""
    names = ["a", "b", "c"]
    held = {name: draw(st.floats(0, 1e5)) for name in names}
    ingredients = [ingredient(name, f"line {name}", held[name], "1") for name in names]
    ledger = []
    for step in range(draw(st.integers(0, 5))):
        source, target = draw(st.permutations(names))[:2]
        mg = held[source] * draw(st.floats(0, 1))
        held[source] -= mg
        held[target] += mg
        ledger.append(movement(source, target, step, mg))
    for name in names:
        eaten = held[name] * draw(st.floats(0, 1))
        ledger.append(movement(name, "eaten", None, eaten))
        ledger.append(movement(name, "poured_away", None, held[name] - eaten))
    return answer(ingredients, ledger)


@settings(max_examples=100, deadline=None)
@given(kitchens())
def test_nothing_is_lost_on_the_way(kitchen: dict[str, Any]) -> None:
    traced = trace(kitchen)
    brought = sum(each["sodium_mg"] for each in kitchen["ingredients"])
    assert traced.mg.sum() == pytest.approx(brought, rel=1e-6, abs=1e-6)
    assert (traced.mg >= 0).all()
    eaten = sum(each["mg"] for each in kitchen["sodium"]["ledger"] if each["to"] == "eaten")
    assert sum(line.eaten_mg for line in lines(kitchen)) * 4 == pytest.approx(eaten, rel=1e-6, abs=1e-3)
    assert set(traced.places) <= {"eaten", "poured_away", "a", "b", "c"}
    assert np.isfinite(traced.mg).all()
