"""Whose sodium is eaten and whose poured away: the whole trail's word for it, and nothing lost."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from saltledger.foods.dataset import bundled
from saltledger.recipe.calculation import calculate, cook
from saltledger.recipe.explaining import traced
from saltledger.recipe.request import RecipeRequest
from saltledger.recipe.sodium_origins import sodium_origins, sugar_eaten_g

from .kitchens import recipes


@settings(max_examples=40)
@given(recipes())
def test_as_the_trail_of_every_movement_has_it(document: dict[str, Any]) -> None:
    outcome = cook(RecipeRequest.from_document(document), bundled(), follow=True)
    found, trail = sodium_origins(outcome), traced(outcome, ["NA"])
    scale = 1e-9 + sum(sum(mg) for mg in found.ended.values())
    for place, marked in trail.ended.items():
        assert found.ended[place] == pytest.approx(marked[:-1, 0], rel=1e-6, abs=1e-6 * scale), place

    trail = traced(outcome, ["SUGAR"]).ended["eaten"][:-1, 0]
    assert sugar_eaten_g(outcome) == pytest.approx(trail, rel=1e-6, abs=1e-6)


def test_an_answer_tells_it_by_line_and_by_component() -> None:
    document = {
        "servings": 4,
        "components": [
            {"id": "loin", "ingredients": ["1 kg pork loin"]},
            {"id": "brine", "ingredients": ["2 l water", "100 g salt"]},
        ],
        "steps": [{"kind": "brine", "food": "loin", "bath": "brine", "duration_h": 24, "thickness_cm": 5}],
    }
    answer = calculate(RecipeRequest.from_document(document), bundled())
    eaten = answer["sodium"]["fates"]["eaten_mg"]
    by_line = [each["eaten_mg"] for each in answer["ingredients"]]
    by_component = {(each["component"], each["place"]): each["mg"] for each in answer["sodium"]["origins"]}
    assert sum(by_line) == pytest.approx(eaten, rel=1e-6)
    assert by_component["brine", "eaten"] + by_component["loin", "eaten"] == pytest.approx(eaten, rel=1e-6)
    assert by_component["brine", "eaten"] == pytest.approx(by_line[1] + by_line[2], rel=1e-6)
    assert np.isclose(by_line[2], 0.99 * by_component["brine", "eaten"], rtol=0.02)


def test_what_a_line_says_is_not_eaten_leaves_before_anything_mixes() -> None:
    document = {
        "servings": 1,
        "ingredients": [{"line": "10 g salt", "eaten_fraction": 0.1}, "5 g salt", "200 g water"],
    }
    answer = calculate(RecipeRequest.from_document(document), bundled())
    first, second, _ = (each["eaten_mg"] for each in answer["ingredients"])
    assert first == pytest.approx(second / 5, rel=1e-6)
