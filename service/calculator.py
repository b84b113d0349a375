"""The front door: a recipe in, an answer out; used alike by routes, commands, batches and saves.

What comes in has passed the gate (`gate.reading`, `gate.recipe_schema`).
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from .core.documents import figure, rounded
from .foods.dataset import FoodTable, bundled
from .gate.reading import load
from .gate.recipe_schema import RecipeSchema
from .method.line_answers import is_of_line, with_line_answers
from .method.method_reading import Reading, read, reading_document
from .method.prose_documents import WISHES, answered, reading_kept
from .method.questions import Question
from .recipe.answer import PARTS, answer_document
from .recipe.calculation import calculate, cook
from .recipe.open_lines import open_lines
from .recipe.outcome import Outcome
from .recipe.packets import custom_foods
from .recipe.request import RecipeRequest
from .recipe.work_budget import Cost, of_prose, of_recipe

MOST_TRIED = 8
"""Questions about a method whose choices are tried; a recipe with more of them wants a person anyway."""
MOST_LINES_ASKED = 4
"""Questions about its lines that are tried beside them."""
_CHOICES_OF_LINE = 3


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
    if "written" in document:  # its questions are about the same outcome
        outcome = cook(request, foods, follow=bool(explain))
        reading = reading_answer(document, foods, outcome)
        open_mg = _open_mg(reading["questions"])
        answer = answer_document(outcome, scheme=label, explained=explain, parts=include, open_mg=open_mg)
        answer["reading"] = reading
    else:
        answer = calculate(request, foods, scheme=label, explained=explain, parts=include)
    return Calculated(request, answer, foods.with_custom(custom_foods(request.custom_foods)))


def _open_mg(questions: Sequence[Mapping[str, Any]]) -> float:
    """mg of sodium a serving by which the figure may rise with what nobody has answered about the method.
    What is open about a line lies in the range of the answer already."""
    found = 0.0
    for each in questions:
        if not (each["answered"] or is_of_line(each["id"])):
            mgs = {choice["choice"]: choice["sodium_mg_per_serving"] for choice in each["choices"]}
            found += max(mgs.values()) - mgs[each["taken"]]
    return found


def costs_of(document: Mapping[str, Any], tags: int = 0) -> Iterator[Cost]:
    """What a recipe costs to answer; one in prose also for each choice that is tried."""
    if "written" not in document:
        return of_recipe(document, tags)
    reading = reading_kept(document["written"])
    of_lines = _CHOICES_OF_LINE * min(MOST_LINES_ASKED, len(reading.lines))
    trials = sum(len(question.choices) - 1 for question in reading.questions[:MOST_TRIED]) + of_lines
    return of_prose(document, trials, tags)


def with_answers(document: dict[str, Any], earlier: Mapping[str, Any]) -> dict[str, Any]:
    """A recipe with the answers that an earlier save of it holds, as far as their questions still stand."""
    if "written" not in document:
        return document
    written = answered(document["written"], earlier.get("written", {}).get("answers", {}))
    if written == document["written"]:
        return document
    return load(RecipeSchema(), {**written, **_wishes(document)})


def reading_answer(
    document: Mapping[str, Any], foods: FoodTable, outcome: Outcome | None = None
) -> dict[str, Any]:
    """The contract's reading of a document's `written`, with what hangs on each question: its choices are
    tried, and their sodium told. outcome: of the recipe as read, where it was cooked before. Raises
    InvalidRequest."""
    wishes = _wishes(document)
    reading = reading_kept(document["written"])
    asked = _asked(reading, wishes, foods, outcome)
    swings = _swings(reading, asked, wishes, foods)
    made: dict[str, Any] = rounded(reading_document(reading, asked.questions, swings))
    made["recipe"] = {**made["recipe"], **wishes}
    return made


@dataclass(frozen=True, slots=True)
class _Asked:
    """What may be asked of a reading. likely_mg: sodium a serving as read, with the answers it came with."""

    questions: Sequence[Question]
    likely_mg: float


def _asked(reading: Reading, wishes: Mapping[str, Any], foods: FoodTable, outcome: Outcome | None) -> _Asked:
    """The questions of a reading: what its method leaves open, then what its lines do."""
    answers = reading.written.answers
    if outcome is None:
        outcome = cook(RecipeRequest.from_document({**reading.recipe, **wishes}), foods)
    likely_mg, plain = float(outcome.sodium_per_serving_mg[0]), outcome
    if any(map(is_of_line, answers)):
        others = {key: choice for key, choice in answers.items() if not is_of_line(key)}
        recipe = {**read(reading.written, others).recipe, **wishes}
        plain = cook(RecipeRequest.from_document(recipe), foods)
    found = open_lines(plain, reading.lines, reading.questions, answers, foods)
    lines = [each for n, each in enumerate(found) if n < MOST_LINES_ASKED or each.answered]
    return _Asked((*reading.questions[:MOST_TRIED], *lines), likely_mg)


def _swings(
    reading: Reading, asked: _Asked, wishes: Mapping[str, Any], foods: FoodTable
) -> dict[str, dict[str, float]]:
    """By question and choice, mg of sodium a serving."""
    found: dict[str, dict[str, float]] = {}
    for question in asked.questions:
        found[question.id] = {question.taken: figure(asked.likely_mg)}
        for choice in (each.choice for each in question.choices if each.choice != question.taken):
            recipe = {**_answered(reading, question, choice), **wishes}
            found[question.id][choice] = figure(_sodium_mg(recipe, foods))
    return found


def _answered(reading: Reading, question: Question, choice: str) -> dict[str, Any]:
    """The recipe with another choice; what it says of a line needs no second reading."""
    answers = {**reading.written.answers, question.id: choice}
    if is_of_line(question.id) and not any(map(is_of_line, reading.written.answers)):
        return with_line_answers(reading.recipe, reading.lines, answers)
    return read(reading.written, answers).recipe


def _sodium_mg(recipe: dict[str, Any], foods: FoodTable) -> float:
    outcome = cook(RecipeRequest.from_document(recipe), foods)
    return float(outcome.sodium_per_serving_mg[0])


def _wishes(document: Mapping[str, Any]) -> dict[str, Any]:
    """What the caller wants besides the recipe as it is written: an audience, a dish class, own foods."""
    return {key: document[key] for key in WISHES if key in document}
