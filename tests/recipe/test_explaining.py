"""Explanations: every amount is told to the line that brought it, and the parts add up to the figure."""

from __future__ import annotations

import json
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from saltledger.foods.dataset import bundled
from saltledger.foods.nutrients import NUTRIENTS
from saltledger.recipe.calculation import calculate, cook
from saltledger.recipe.explaining import MAIN, TAP, explanation, traced
from saltledger.recipe.pool_rows import NUTRIENT_ROWS
from saltledger.recipe.request import PLACES, RecipeRequest

from .dishes import CARROTS, SALT, SALT_COD, WATER, WINE, answered, brined, item, part, recipe, step
from .kitchens import recipes

ALL = tuple(nutrient.tag for nutrient in NUTRIENTS)


def chains(document: dict[str, Any], *tags: str) -> dict[str, Any]:
    request = RecipeRequest.from_document(document)
    found = calculate(request, bundled(), explained=tags or MAIN)["explanation"]["nutrients"]
    assert isinstance(found, dict)
    return found


def pot_roast() -> dict[str, Any]:
    """A brined loin, simmered with carrots in a pot whose liquid is half eaten."""
    document = brined()
    document["components"] += [
        part("roots", item(CARROTS, 400)),
        part("pot", item(WATER, 1500), item(SALT, 5), eaten_fraction=0.5),
    ]
    document["steps"].append(step("simmer", ["loin", "roots"], "pot", duration_h=1))
    return document


@given(recipes())
@settings(max_examples=40, deadline=None)
def test_the_parts_add_up_to_what_is_in_every_place(document: dict[str, Any]) -> None:
    outcome = cook(RecipeRequest.from_document(document), bundled(), follow=True)
    trace = traced(outcome, ALL)
    for place in PLACES:
        pool = outcome.state.pools.amounts[place][NUTRIENT_ROWS, 0]
        np.testing.assert_allclose(trace.ended[place].sum(axis=0), pool, rtol=1e-6, atol=1e-6)
        assert (trace.ended[place] >= -1e-9).all()


@given(recipes())
@settings(max_examples=20, deadline=None)
def test_the_eaten_parts_in_the_answer_add_up_to_its_figure(document: dict[str, Any]) -> None:
    request = RecipeRequest.from_document(document)
    answer = calculate(request, bundled(), explained=MAIN)
    for tag, chain in answer["explanation"]["nutrients"].items():
        parts = sum(each["eaten_per_serving"] or 0.0 for each in chain["inputs"])
        assert parts == pytest.approx(chain["per_serving"] or 0.0, rel=1e-6, abs=1e-6)
        told = answer["per_serving"]["nutrients"].get(tag)
        if told:
            assert told["amount"] == pytest.approx(chain["per_serving"], rel=1e-5, abs=1e-9)


def test_movements_add_up_to_what_is_eaten() -> None:
    for chain in chains(pot_roast()).values():
        came = sum(each["amount"] for each in chain["movements"] if each["target"] == "eaten")
        assert came == pytest.approx(chain["eaten"], rel=1e-6)


def test_sodium_moves_as_the_ledger_says() -> None:
    document = pot_roast()
    ledger = {(m["from"], m["to"], m["step"]): m["mg"] for m in answered(document)["sodium"]["ledger"]}
    told = {
        (m["source"], m["target"], m["step"]): m["amount"] for m in chains(document, "NA")["NA"]["movements"]
    }
    assert told == pytest.approx({way: mg for way, mg in ledger.items() if mg > 0}, rel=1e-5)


def test_salt_of_a_brine_is_told_to_its_line() -> None:
    inputs = {each["line"]: each for each in chains(brined(), "NA")["NA"]["inputs"]}
    salt, pork = inputs["Salt, table"], next(each for name, each in inputs.items() if "Pork" in name)
    assert salt["ended"]["poured_away"] > salt["ended"]["eaten"] > pork["ended"]["eaten"] > 0
    assert salt["ended"]["eaten"] + salt["ended"]["poured_away"] == pytest.approx(salt["listed"])
    assert salt["pointer"] == "/components/1/ingredients/1"


def test_what_a_line_says_is_not_eaten_is_told_to_that_line_alone() -> None:
    document = recipe([part("plate", item(SALT, 10, eaten_fraction=0.2), item(CARROTS, 100))], [])
    salt, carrots = chains(document, "NA")["NA"]["inputs"]
    assert salt["ended"]["eaten"] == pytest.approx(0.2 * salt["listed"])
    assert carrots["ended"] == {"eaten": pytest.approx(carrots["listed"])}


def test_fresh_water_is_a_source_of_water() -> None:
    document = recipe(
        [part("cod", item(SALT_COD, 500)), part("tub", item(WATER, 3000))],
        [step("soak", "cod", "tub", duration_h=24, thickness_cm=2, water_changes=2)],
    )
    chain = chains(document, "WATER")["WATER"]
    tap = chain["inputs"][-1]
    assert (tap["component"], tap["food_code"]) == (TAP, None)
    assert tap["listed"] > 3000
    assert sum(each["eaten"] for each in chain["inputs"]) == pytest.approx(chain["eaten"])


def test_alcohol_that_goes_into_the_air_is_told() -> None:
    document = recipe([part("stew", item(WINE, 200))], [step("simmer", "stew", duration_h=1)])
    chain = chains(document, "ALC")["ALC"]
    assert chain["inputs"][0]["ended"]["lost_to_heat"] > chain["eaten"]
    assert any("is lost to heat" in sentence for sentence in chain["sentences"])


def test_sentences_name_lines_steps_and_places() -> None:
    sentences = chains(pot_roast(), "NA")["NA"]["sentences"]
    assert any(each.startswith("“Salt, table” (brine): 120 g of Salt, table") for each in sentences)
    assert any(each.startswith("In step 1, ") and "“brine” to “loin”" in each for each in sentences)
    assert any(each.startswith("When the dish is served, ") and "to the plate" in each for each in sentences)


def test_a_nutrient_of_which_nothing_is_known_is_not_known() -> None:
    document = recipe([part("jar", {"food": "mix", "grams": 10.0})], [])
    document["custom_foods"] = [{"code": "mix", "name": "Mix", "per_100g": {"NA": 100}}]
    chain = chains(document, "K")["K"]
    assert (chain["eaten"], chain["per_serving"]) == (None, None)


def test_a_calculation_is_the_same_whether_explained_or_not() -> None:
    request = RecipeRequest.from_document(pot_roast())
    explained = calculate(request, bundled(), explained=("NA",))
    assert set(explained.pop("explanation")["nutrients"]) == {"NA"}
    assert json.dumps(explained) == json.dumps(calculate(request, bundled()))


def test_without_a_trail_there_is_nothing_to_explain() -> None:
    with pytest.raises(ValueError, match="follow=True"):
        explanation(cook(RecipeRequest.from_document(brined()), bundled()))
