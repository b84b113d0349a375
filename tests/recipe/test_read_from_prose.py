"""That a recipe was read from prose widens its range, less where a person answered."""

from __future__ import annotations

from typing import Any

from saltledger.calculator import answer_recipe
from saltledger.gate.reading import load
from saltledger.gate.recipe_schema import RecipeSchema

WRITTEN: dict[str, Any] = {
    "title": "Kale",
    "servings": 4,
    "ingredients": ["500 g kale", "30 g butter", "1 tsp salt"],
    "method": ["Boil the kale in salted water for 5 minutes, drain and toss with the butter and the salt."],
}


def answered(**more: Any) -> dict[str, Any]:
    return answer_recipe(load(RecipeSchema(), {**WRITTEN, **more}))


def width(answer: dict[str, Any]) -> float:
    sodium = answer["sodium"]["per_serving_mg"]
    return float(sodium["high"] - sodium["low"])


def test_prose_is_an_assumption_and_widens_the_range() -> None:
    prose = answered()
    stated = answer_recipe(load(RecipeSchema(), prose["reading"]["recipe"]))
    reading = next(each for each in prose["assumptions"] if each["id"] == "reading")
    assert reading["value"] == 1
    assert all(each["id"] != "reading" for each in stated["assumptions"])
    assert width(prose) > width(stated)
    assert prose["sodium"]["per_serving_mg"]["likely"] == stated["sodium"]["per_serving_mg"]["likely"]


def test_a_persons_answer_narrows_it() -> None:
    first = answered()
    question = first["reading"]["questions"][0]
    later = answered(answers={question["id"]: question["taken"]})
    assert width(later) < width(first)
