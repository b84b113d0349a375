"""Portions by weight in place of servings: what a portion holds is so much of 100 g, range and all."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from saltledger.calculator import answer_recipe
from saltledger.core.errors import InvalidRequest
from saltledger.foods.dataset import bundled
from saltledger.gate.reading import load
from saltledger.gate.recipe_schema import RecipeSchema
from saltledger.recipe.target_search import target_answer

LOIN: dict[str, Any] = {
    "title": "Loin",
    "components": [
        {"id": "loin", "ingredients": ["1.4 kg boneless pork loin"]},
        {"id": "brine", "ingredients": ["3 l water", "150 g table salt"]},
    ],
    "steps": [
        {"kind": "brine", "food": "loin", "bath": "brine", "duration_h": 24},
        {"kind": "roast", "food": "loin", "temperature_c": 160, "duration_h": 1.2},
    ],
}
WRITTEN: dict[str, Any] = {
    "title": "Potatoes",
    "ingredients": ["1 kg potatoes", "1 pinch moonshade", "salt to taste"],
    "method": ["Boil the potatoes for 20 minutes. Drain."],
}
NOTHING = {"components": [{"id": "pot", "ingredients": ["1 l water"], "eaten_fraction": 0}]}


def worked_out(document: dict[str, Any], **more: Any) -> dict[str, Any]:
    return answer_recipe(load(RecipeSchema(), {**document, **more}))


@settings(max_examples=8)
@given(st.floats(20, 900))
def test_a_portion_is_so_much_of_a_hundred_grams(portion_g: float) -> None:
    found = worked_out(LOIN, portion_g=portion_g)
    assert found["per_serving"]["weight_g"] == pytest.approx(portion_g)
    assert found["portion_g"] == pytest.approx(portion_g)
    hundred = found["per_100g"]["nutrients"]
    for tag, each in found["per_serving"]["nutrients"].items():
        for end in ("amount", "low", "high"):
            assert each[end] == pytest.approx(hundred[tag][end] * portion_g / 100, rel=1e-6, abs=1e-9), tag


def test_as_many_portions_as_the_dish_weighs_are_as_many_servings() -> None:
    by_weight = worked_out(LOIN, portion_g=150)
    stated = worked_out(LOIN, servings=by_weight["servings"])
    assert stated["per_serving"]["weight_g"] == pytest.approx(150)
    likely = [each["sodium"]["per_serving_mg"]["likely"] for each in (by_weight, stated)]
    assert likely[0] == pytest.approx(likely[1])
    assert "portion_g" not in stated


def test_what_is_not_counted_is_judged_by_the_portions_that_come_out() -> None:
    by_weight = worked_out(WRITTEN, portion_g=200)
    stated = worked_out(WRITTEN, servings=by_weight["servings"])
    assert by_weight["sodium"]["complete"] is False
    lines = [[gap["line"] for gap in each["sodium"]["uncounted"]] for each in (by_weight, stated)]
    assert lines[0] == lines[1]
    codes = [notice["code"] for notice in by_weight["notices"]]
    assert "servings-not-stated" not in codes


@pytest.mark.parametrize(
    ("document", "pointer"),
    [
        ({**LOIN, "portion_g": 150, "servings": 8}, "/portion_g"),
        ({**WRITTEN, "portion_g": 150, "servings": "4 to 6"}, "/portion_g"),
        (LOIN, "/servings"),
        ({**LOIN, "portion_g": 0}, "/portion_g"),
        (
            {"portion_g": 9, "components": [{"id": "a", "ingredients": ["1 l water"], "eaten_fraction": 0}]},
            "/portion_g",
        ),
    ],
)
def test_what_cannot_be_is_refused_by_its_field(document: dict[str, Any], pointer: str) -> None:
    with pytest.raises(InvalidRequest) as refused:
        worked_out(document)
    assert [fault.pointer for fault in refused.value.faults] == [pointer]


def test_the_weight_of_a_portion_can_be_asked_for() -> None:
    recipe = load(RecipeSchema(), {**LOIN, "portion_g": 150})
    found = target_answer(
        {"recipe": recipe, "target": {"sodium_mg_per_serving": 480}, "vary": "/portion_g"}, bundled()
    )
    assert (found["reachable"], found["unit"]) == (True, "g")
    again = worked_out(LOIN, portion_g=found["value"])
    assert again["sodium"]["per_serving_mg"]["likely"] == pytest.approx(480, rel=1e-3)
    high = worked_out(LOIN, portion_g=found["value_at_high"])
    assert high["sodium"]["per_serving_mg"]["high"] == pytest.approx(480, rel=1e-3)


def test_servings_cannot_be_varied_where_portions_are_weighed() -> None:
    asked = {"recipe": load(RecipeSchema(), {**LOIN, "portion_g": 150}), "vary": "/servings"}
    with pytest.raises(InvalidRequest, match="/portion_g of this recipe"):
        target_answer({**asked, "target": {"sodium_mg_per_serving": 480}}, bundled())
