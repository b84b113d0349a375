"""Readings with what hangs on their questions: each choice is tried, and its sodium told."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ..documents import figure, rounded
from ..foods.dataset import FoodTable
from ..method.documents import reading_kept
from ..method.reading import Reading, read, reading_document
from ..recipe.calculation import cook
from ..recipe.request import RecipeRequest

MOST_TRIED = 10
"""Questions whose choices are tried; a recipe with more of them wants a person anyway."""


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
