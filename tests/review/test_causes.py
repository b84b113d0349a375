"""Causes of a change: each is given what it moves, and together they are the whole change."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from saltledger.core.errors import Fault, InvalidRequest
from saltledger.review.causes import Side, causes
from saltledger.review.overrides import targets

FOODS = {"salt": 400.0, "stock": 10.0, "peas": 0.1}
"""mg of sodium in a gram."""


def calculate(recipe: dict[str, Any]) -> dict[str, Any]:
    """A kitchen of one pot: all is eaten, a step of factor f keeps the share f; a line is `grams food`."""
    rows, mg = [], 0.0
    lists = [("recipe", recipe.get("ingredients", ()))]
    lists += [(each["id"], each["ingredients"]) for each in recipe.get("components", ())]
    for component, ingredients in lists:
        for each in ingredients:
            stated = {"line": each} if isinstance(each, str) else each
            grams, food = stated["line"].split()
            if food == "gone":
                raise InvalidRequest([Fault("", "no such food")])
            code = stated.get("food", food)
            mine = FOODS[code] * float(stated.get("grams", grams))
            mg += mine
            rows.append(
                {
                    "component": component,
                    "line": stated["line"],
                    "food": {"code": code, "name": code},
                    "sodium_mg": mine,
                    "eaten_mg": mine,
                }
            )
    for step in recipe.get("steps", ()):
        mg *= step["factor"]
    origins = [{"component": "recipe", "place": "eaten", "mg": mg}]
    sodium = {"per_serving_mg": {"likely": mg / recipe["servings"]}, "origins": origins, "ledger": []}
    return {"servings": recipe["servings"], "ingredients": rows, "sodium": sodium}


def side(recipe: dict[str, Any], *overrules: tuple[str, str, Any]) -> Side:
    laid = {**recipe, "ingredients": list(recipe["ingredients"])}
    told = []
    for pointer, name, value in overrules:
        assert pointer in targets(recipe)
        index = int(pointer.rpartition("/")[2])
        laid["ingredients"][index] = {"line": laid["ingredients"][index], name: value}
        told.append({"pointer": pointer, "field": name, "value": value, "reason": "", "reviewer": "Ines"})
    return Side(recipe, told, calculate(laid))


def soup(*lines: str, servings: float = 2, factor: float = 1.0) -> dict[str, Any]:
    return {"servings": servings, "ingredients": list(lines), "steps": [{"kind": "boil", "factor": factor}]}


def found(older: Side, newer: Side) -> list[tuple[str, float]]:
    told = causes(older, newer, calculate, same_data=True)
    ends = [each.answer["sodium"]["per_serving_mg"]["likely"] for each in (older, newer)]
    assert sum(each.moved_mg for each in told) == pytest.approx(ends[1] - ends[0], abs=1e-9)
    return [(each.kind, round(each.moved_mg, 6)) for each in told]


def test_an_overrule_of_a_mapping_is_no_step() -> None:
    recipe = soup("2 salt", "100 peas", factor=0.5)
    assert found(side(recipe), side(recipe, ("/ingredients/0", "food", "stock"))) == [("override", -195.0)]


def test_each_cause_gets_its_own() -> None:
    older = side(soup("2 salt", "100 peas"))
    newer = side(soup("4 salt", "100 peas", "10 stock", servings=4, factor=0.5))
    assert found(older, newer) == [("line", 400.0), ("line", 50.0), ("step", -427.5), ("servings", -213.75)]


def test_order_spaces_and_titles_are_no_causes() -> None:
    older = side({**soup("2 salt", "100 peas"), "title": "Soup"})
    assert found(older, side({**soup("100 Peas".lower(), "2  salt"), "title": "Broth"})) == []


def test_what_cannot_be_worked_out_by_itself_counts_with_the_next() -> None:
    older, newer = side(soup("2 salt")), side(soup("3 salt", servings=4))
    gone = Side(soup("2 salt", "1 gone"), (), older.answer)
    assert found(gone, newer)[-1][0] == "servings"


def test_other_data_is_a_cause_by_itself() -> None:
    older, newer = side(soup("2 salt")), side(soup("3 salt"))
    was = {**older.answer, "sodium": {**older.answer["sodium"], "per_serving_mg": {"likely": 390.0}}}
    told = causes(Side(older.request, (), was), newer, calculate, same_data=False)
    assert [(each.kind, each.moved_mg) for each in told] == [("data", 10.0), ("line", 200.0)]


LINES = st.lists(
    st.tuples(st.integers(1, 9), st.sampled_from(sorted(FOODS))).map(lambda each: f"{each[0]} {each[1]}"),
    min_size=1,
    max_size=6,
)


SOUPS = st.builds(
    lambda lines, factor, servings: soup(*lines, factor=factor, servings=servings),
    LINES,
    st.floats(0.1, 1),
    st.integers(1, 8),
)


@settings(max_examples=60)
@given(SOUPS, SOUPS)
def test_causes_always_add_up(before: Any, after: Any) -> None:
    found(side(before), side(after))
