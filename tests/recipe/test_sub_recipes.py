"""Recipes that are ingredients: their figures, ranges, causes, gaps, allergens and ledgers carry through."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from saltledger.core.errors import InvalidRequest
from saltledger.foods.dataset import bundled
from saltledger.nutrition.retention import is_done
from saltledger.recipe.calculation import calculate, cook
from saltledger.recipe.pool_rows import SODIUM
from saltledger.recipe.request import RecipeRequest
from saltledger.recipe.sub_recipes import SavedRecipe, cookbook

STOCK: dict[str, Any] = {
    "title": "Quay stock",
    "servings": 10,
    "components": [
        {"id": "legs", "ingredients": ["2 kg chicken legs"]},
        {"id": "brine", "ingredients": ["2 l water", "100 g salt"]},
        {"id": "pot", "ingredients": ["3 l water", "2 celery stalks", "20 g salt"], "eaten_fraction": 1},
    ],
    "steps": [
        {"kind": "brine", "food": "legs", "bath": "brine", "duration_h": 6, "temperature_c": 3},
        {"kind": "simmer", "food": "legs", "bath": "pot", "duration_h": 2},
    ],
}
MASH = {"title": "Mash", "servings": 4, "ingredients": ["1 kg potatoes", "100 g butter", "salt to taste"]}
SAVED: dict[str, Mapping[str, Any]] = {"stock": STOCK, "mash": MASH}


def find(key: str) -> SavedRecipe | None:
    if key not in SAVED:
        return None
    return SavedRecipe(key, 3, f"save_{key}", str(SAVED[key].get("title", "")), SAVED[key])


def answer(*ingredients: Any, servings: float = 10, **more: Any) -> dict[str, Any]:
    document = {"title": "Dish", "servings": servings, "ingredients": list(ingredients), **more}
    with cookbook(find):
        return calculate(RecipeRequest.from_document(document), bundled())


def alone(document: Mapping[str, Any]) -> dict[str, Any]:
    return calculate(RecipeRequest.from_document(document), bundled())


def same(one: Mapping[str, Any], other: Mapping[str, Any]) -> bool:
    return all(
        other[key] == pytest.approx(value, rel=1e-9) if isinstance(value, float) else other[key] == value
        for key, value in one.items()
    )


@pytest.mark.parametrize("key", sorted(SAVED))
def test_all_of_a_recipe_is_that_recipe(key: str) -> None:
    own, whole = alone(SAVED[key]), answer({"recipe": key, "fraction": 1}, servings=SAVED[key]["servings"])
    for name in ("per_serving", "per_100g"):
        for tag, nutrient in own[name]["nutrients"].items():
            assert same(nutrient, whole[name]["nutrients"][tag]), tag
    for name in ("per_serving_mg", "complete", "counted_per_serving_mg"):
        assert own["sodium"][name] == whole["sodium"][name]
    named = [each["assumption"] for each in own["sodium"]["carried_by"]]
    assert [each["assumption"] for each in whole["sodium"]["carried_by"]] == [
        f"recipe:{key}/{name}" for name in named
    ]
    assert [each["allergen"] for each in whole["allergens"]["allergens"]] == [
        each["allergen"] for each in own["allergens"]["allergens"]
    ]


@given(st.lists(st.floats(0.05, 2), min_size=1, max_size=4))
def test_portions_add_up_and_move_together(shares: list[float]) -> None:
    parts = answer(*({"recipe": "stock", "fraction": share} for share in shares))
    whole = answer({"recipe": "stock", "fraction": sum(shares)})
    assert same(whole["sodium"]["per_serving_mg"], parts["sodium"]["per_serving_mg"])


def test_servings_and_grams_say_the_same() -> None:
    by_servings = answer({"recipe": "stock", "servings": 5})
    grams = alone(STOCK)["per_serving"]["weight_g"] * 5
    by_weight = answer({"recipe": "stock", "grams": grams})
    likely = [each["sodium"]["per_serving_mg"]["likely"] for each in (by_servings, by_weight)]
    assert likely[0] == pytest.approx(likely[1], rel=1e-9)
    # What a fixed weight holds does not vary with how much the recipe makes.
    assert by_weight["ingredients"][0]["grams_low"] == by_weight["ingredients"][0]["grams_high"]


def test_a_shared_assumption_moves_both_together() -> None:
    line = {"line": "1 tsp salt"}
    SAVED["seasoned"] = {"servings": 1, "ingredients": [line, "500 g potatoes"]}
    try:
        beside = answer({"recipe": "seasoned", "fraction": 1}, line, servings=1)
    finally:
        del SAVED["seasoned"]
    twice = answer(line, "500 g potatoes", line, servings=1)
    assert same(twice["sodium"]["per_serving_mg"], beside["sodium"]["per_serving_mg"])


def test_what_was_not_counted_there_is_not_counted_here() -> None:
    found = answer({"recipe": "mash", "servings": 2}, "1 egg", servings=2)["sodium"]
    own = alone(MASH)["sodium"]
    assert found["complete"] is False
    (gap,), (own_gap,) = found["uncounted"], own["uncounted"]
    assert (gap["pointer"], gap["line"]) == ("/ingredients/0", "Mash: salt to taste")
    assert gap["high_mg"] == pytest.approx(own_gap["high_mg"] / 2)
    assert all(claim["met"] is None for claim in found["claims"])


def test_allergens_are_those_of_its_lines() -> None:
    found = {
        each["allergen"]: each for each in answer({"recipe": "stock", "grams": 100})["allergens"]["allergens"]
    }
    assert [reason["line"] for reason in found["celery"]["because"]] == ["2 celery stalks"]


def test_the_ledger_goes_down_into_the_part() -> None:
    SAVED["soup"] = {
        "title": "Soup",
        "servings": 4,
        "ingredients": [{"recipe": "stock", "fraction": 0.5}, "1 leek"],
    }
    try:
        (used,) = answer({"recipe": "soup", "servings": 1})["recipes"]
    finally:
        del SAVED["soup"]
    (stock,) = used["recipes"]
    assert (used["key"], used["fraction"], stock["key"], stock["fraction"]) == ("soup", 0.25, "stock", 0.125)
    assert used["save_id"] == "save_soup"
    whole = alone(STOCK)["sodium"]
    for one, other in zip(whole["ledger"], stock["ledger"], strict=True):
        assert other["mg"] == pytest.approx(one["mg"] / 8)
    brought = sum(stock["fates"][name] for name in ("eaten_mg", "discarded_mg"))
    assert brought == pytest.approx(sum(whole["fates"][name] for name in ("eaten_mg", "discarded_mg")) / 8)
    assert stock["sodium"]["mg"] == pytest.approx(stock["fates"]["eaten_mg"])


def test_nothing_is_made_or_lost_where_a_portion_is_cooked_on() -> None:
    document = {
        "servings": 4,
        "components": [
            {"id": "pot", "ingredients": [{"recipe": "stock", "grams": 1500, "eaten_fraction": 0.8}]},
            {"id": "roots", "ingredients": ["600 g potatoes"]},
        ],
        "steps": [{"kind": "boil", "food": "roots", "bath": "pot", "duration_h": 0.4}],
    }
    with cookbook(find):
        outcome = cook(RecipeRequest.from_document(document), bundled())
    held = sum(pool[SODIUM] for pool in outcome.state.pools.amounts.values())
    assert held == pytest.approx(outcome.state.pools.brought[SODIUM], rel=1e-9)


def test_a_portion_of_a_cooked_recipe_counts_as_cooked() -> None:
    found = answer({"recipe": "stock", "servings": 4})["ingredients"][0]["food"]
    assert found == {"code": "recipe:stock", "name": "Quay stock, cooked"}
    assert is_done(found["name"], "0500")
    assert answer({"recipe": "mash", "servings": 4})["ingredients"][0]["food"]["name"] == "Mash"


def test_what_should_be_looked_at_there_is_told_here() -> None:
    SAVED["odd"] = {"title": "Odd", "servings": 1, "ingredients": ["500 g table salt"]}
    try:
        notices = answer({"recipe": "odd", "fraction": 1}, servings=1)["notices"]
    finally:
        del SAVED["odd"]
    told = [
        each for each in notices if each["severity"] == "stop" and each["message"].startswith("In the recipe")
    ]
    assert {each["pointer"] for each in told} == {"/ingredients/0"}


def refused(*ingredients: Any) -> dict[str, str]:
    with pytest.raises(InvalidRequest) as caught:
        answer(*ingredients)
    return {fault.pointer: fault.message for fault in caught.value.faults}


def test_cycles_are_refused_with_their_path() -> None:
    SAVED["a"] = {"servings": 1, "ingredients": ["1 egg", {"recipe": "b", "servings": 1}]}
    SAVED["b"] = {"servings": 1, "ingredients": [{"recipe": "a", "servings": 1}]}
    try:
        found = refused("1 leek", {"recipe": "a", "servings": 1})
    finally:
        del SAVED["a"], SAVED["b"]
    assert "a → b → a" in found["/ingredients/1/recipe"]


def test_what_cannot_be_used_is_refused_by_name() -> None:
    assert "no saved recipe 'nothing'" in refused({"recipe": "nothing", "grams": 1})["/ingredients/0/recipe"]
    assert "one of grams, servings, fraction" in refused({"recipe": "stock"})["/ingredients/0"]
    SAVED["broken"] = {"servings": 1, "ingredients": [{"food": "no-such-food", "grams": 1}]}
    try:
        assert "cannot be worked out" in refused({"recipe": "broken", "grams": 1})["/ingredients/0/recipe"]
    finally:
        del SAVED["broken"]


def test_the_id_changes_with_what_it_is_made_of() -> None:
    first = answer({"recipe": "stock", "grams": 100})["id"]
    SAVED["stock"] = {**STOCK, "servings": 11}
    try:
        assert answer({"recipe": "stock", "grams": 100})["id"] != first
    finally:
        SAVED["stock"] = STOCK
    assert answer({"recipe": "stock", "grams": 100})["id"] == first
