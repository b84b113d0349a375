"""Readings with what hangs on their questions: each choice is tried, and its sodium told."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from ..core.documents import figure, rounded
from ..foods.dataset import FoodTable
from ..gate.reading import load
from ..gate.recipe_schema import RecipeSchema
from ..method.method_reading import Reading, read, reading_document
from ..method.prose_documents import WISHES, answered, reading_kept
from ..recipe.calculation import cook
from ..recipe.request import RecipeRequest
from ..recipe.work_budget import Cost, of_recipe

MOST_TRIED = 8
"""Questions whose choices are tried; a recipe with more of them wants a person anyway."""


def costs_of(document: Mapping[str, Any], tags: int = 0) -> Iterator[Cost]:
    """What a recipe costs to answer; one in prose once more for each choice that is tried."""
    questions = reading_kept(document["written"]).questions if "written" in document else ()
    trials = sum(len(question.choices) for question in questions[:MOST_TRIED])
    for cost in of_recipe(document, tags):
        yield cost.times(1 + trials)


def with_answers(document: dict[str, Any], earlier: Mapping[str, Any]) -> dict[str, Any]:
    """A recipe with the answers that an earlier save of it holds, as far as their questions still stand."""
    if "written" not in document:
        return document
    written = answered(document["written"], earlier.get("written", {}).get("answers", {}))
    if written == document["written"]:
        return document
    wishes = {key: document[key] for key in WISHES if key in document}
    return load(RecipeSchema(), {**written, **wishes})


def reading_answer(written: Mapping[str, Any], wishes: Mapping[str, Any], foods: FoodTable) -> dict[str, Any]:
    """The contract's reading of what was written. Raises InvalidRequest."""
    reading = reading_kept(written)
    made: dict[str, Any] = rounded(reading_document(reading, _swings(reading, wishes, foods)))
    made["recipe"] = {**made["recipe"], **wishes}
    return made


def _swings(reading: Reading, wishes: Mapping[str, Any], foods: FoodTable) -> dict[str, dict[str, float]]:
    """By question and choice, mg of sodium a serving."""
    found: dict[str, dict[str, float]] = {}
    for question in reading.questions[:MOST_TRIED]:
        found[question.id] = {}
        for each in question.choices:
            other = {**reading.written.answers, question.id: each.choice}
            recipe = {**read(reading.written, other).recipe, **wishes}
            found[question.id][each.choice] = figure(_sodium_mg(recipe, foods))
    return found


def _sodium_mg(recipe: dict[str, Any], foods: FoodTable) -> float:
    outcome = cook(RecipeRequest.from_document(recipe), foods)
    return float(outcome.sodium_per_serving_mg[0])
