"""The front door: a recipe in, an answer out; used alike by routes, commands, batches and saves.

What comes in has passed the gate (`gate.reading`, `gate.recipe_schema`).
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from .core.documents import figure, rounded
from .foods.dataset import FoodTable, bundled
from .gate.reading import load
from .gate.recipe_schema import RecipeSchema
from .method.method_reading import Reading, read, reading_document
from .method.prose_documents import WISHES, answered, reading_kept
from .recipe.answer import PARTS
from .recipe.calculation import calculate, cook
from .recipe.packets import custom_foods
from .recipe.request import RecipeRequest
from .recipe.work_budget import Cost, of_recipe

MOST_TRIED = 8
"""Questions whose choices are tried; a recipe with more of them wants a person anyway."""


@dataclass(frozen=True, slots=True)
class Calculated:
    """A recipe, its answer, and the foods that it was worked out with, the recipe's own among them."""

    request: RecipeRequest
    document: dict[str, Any]
    foods: FoodTable


def answer_recipe(document: dict[str, Any], foods: FoodTable | None = None) -> dict[str, Any]:
    """The answer to a recipe that `RecipeSchema` let through. Raises InvalidRequest.

    foods: those of the bundle where none are given.
    """
    return calculated(document, foods or bundled()).document


def calculated(
    document: dict[str, Any],
    foods: FoodTable,
    label: str | None = None,
    explain: tuple[str, ...] = (),
    include: Collection[str] = PARTS,
) -> Calculated:
    """The same, with the request it answers; with a label view and explanations where they are asked for.
    include: what of the answer is wanted (`recipe.answer.PARTS`)."""
    request = RecipeRequest.from_document(document)
    answer = calculate(request, foods, scheme=label, explained=explain, parts=include)
    if "written" in document:
        answer["reading"] = reading_answer(document, foods)
    return Calculated(request, answer, foods.with_custom(custom_foods(request.custom_foods)))


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
    return load(RecipeSchema(), {**written, **_wishes(document)})


def reading_answer(document: Mapping[str, Any], foods: FoodTable) -> dict[str, Any]:
    """The contract's reading of a document's `written`, with what hangs on each question: its choices are
    tried, and their sodium told. Raises InvalidRequest."""
    wishes = _wishes(document)
    reading = reading_kept(document["written"])
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


def _wishes(document: Mapping[str, Any]) -> dict[str, Any]:
    """What the caller wants besides the recipe as it is written: an audience, a dish class, own foods."""
    return {key: document[key] for key in WISHES if key in document}
