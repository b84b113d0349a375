"""Cross-checks of a recipe: every fault is found at once, at its place, with its remedy."""

from __future__ import annotations

from typing import Any

import pytest
from saltledger.core.errors import InvalidRequest
from saltledger.recipe.request import RecipeRequest


def recipe(**changes: Any) -> dict[str, Any]:
    return {
        "servings": 4,
        "components": [
            {"id": "loin", "ingredients": ["1 kg pork loin"]},
            {"id": "brine", "ingredients": ["2 l water", "100 g salt"]},
        ],
        "steps": [{"kind": "brine", "food": "loin", "bath": "brine"}],
    } | changes


def faults(document: dict[str, Any]) -> dict[str, str]:
    with pytest.raises(InvalidRequest) as refused:
        RecipeRequest.from_document(document)
    return {fault.pointer: fault.message for fault in refused.value.faults}


def step(**changes: Any) -> list[dict[str, Any]]:
    return [{"kind": "brine", "food": "loin", "bath": "brine"} | changes]


@pytest.mark.parametrize(
    ("changes", "pointer", "words"),
    [
        ({"components": [], "steps": []}, "", "no ingredients"),
        (
            {"steps": step(food="ham")},
            "/steps/0/food",
            "There is no component 'ham'; the recipe has: brine, loin.",
        ),
        ({"steps": step(food=["loin", "ham"])}, "/steps/0/food", "There is no component 'ham'"),
        ({"steps": step(bath="sea")}, "/steps/0/bath", "There is no component 'sea'"),
        ({"steps": step(bath="loin")}, "/steps/0/bath", "cannot be its own bath"),
        (
            {"steps": step(bath=None)},
            "/steps/0/bath",
            "needs bath: the id of the component that is the liquid",
        ),
        ({"steps": step(food=[])}, "/steps/0/food", "needs food"),
        ({"steps": step(food=["loin", "loin"])}, "/steps/0/food", "named twice"),
        ({"steps": step(kind="trim", bath=None)}, "/steps/0", "needs one of discarded_g, weight_after_g"),
        (
            {"steps": step(kind="soak", absorption_factor=0.2)},
            "/steps/0/absorption_factor",
            "sodium_after_mg_per_100g",
        ),
    ],
)
def test_a_fault_names_its_place_and_remedy(changes: dict[str, Any], pointer: str, words: str) -> None:
    assert words in faults(recipe(**changes))[pointer]


@pytest.mark.parametrize(("name", "words"), [("brine", "used twice"), ("eaten", "is kept for a place")])
def test_ids_are_unique_and_not_places(name: str, words: str) -> None:
    document = recipe()
    document["components"].append({"id": name, "ingredients": ["1 egg"]})
    assert words in faults(document)["/components/2/id"]


def test_top_level_ingredients_and_components_stand_together() -> None:
    request = RecipeRequest.from_document(recipe(ingredients=["2 tbsp olive oil"]))
    assert [component.id for component in request.components] == ["recipe", "loin", "brine"]
    assert request.components[0].pointer == ""


def test_every_fault_is_told_at_once() -> None:
    assert set(faults(recipe(steps=[*step(food="ham"), *step(bath="sea")]))) == {
        "/steps/0/food",
        "/steps/1/bath",
    }
