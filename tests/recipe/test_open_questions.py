"""Claims on a recipe in prose, while questions about its method are open and once they are answered."""

from __future__ import annotations

from typing import Any

import pytest
from saltledger.calculator import answer_recipe
from saltledger.gate.reading import load
from saltledger.gate.recipe_schema import RecipeSchema

PASTA = ["400 g spaghetti", "400 g tomatoes", "2 cloves garlic"]


def answer(method: str, answers: dict[str, str] | None = None) -> Any:
    body = {"title": "Pasta, Tern Quay", "servings": 4, "ingredients": PASTA, "method": [method]}
    return answer_recipe(load(RecipeSchema(), {**body, "answers": answers or {}}))


def judged(found: Any) -> str:
    return str(next(each["judgement"] for each in found["sodium"]["claims"] if each["id"] == "low_sodium"))


def test_no_claim_is_granted_on_water_that_may_be_salted() -> None:
    found = answer("Cook the spaghetti and drain. Add the tomatoes and garlic.")
    (question,) = found["reading"]["questions"]
    assert question["taken"] == "plain"
    assert judged(found) == "cannot be assessed"
    by_choice = {choice: judged(answer(_METHOD, {question["id"]: choice})) for choice in ("plain", "salted")}
    assert by_choice == {"plain": "met", "salted": "not met"}


_METHOD = "Cook the spaghetti and drain. Add the tomatoes and garlic."


@pytest.mark.parametrize(
    "plain",
    ["in unsalted water", "in plain water", "in water, no salt needed,", "omitting salt", "without salt"],
)
def test_nothing_is_asked_of_water_that_is_said_to_be_plain(plain: str) -> None:
    found = answer(f"Cook the spaghetti {plain} for 10 minutes and drain. Add the tomatoes and garlic.")
    assert found["reading"]["questions"] == []
    assert judged(found) == "met"
