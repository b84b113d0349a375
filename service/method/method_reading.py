"""A recipe as it is written, read: the recipe to calculate, and where every part of it was read."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import chain
from typing import Any, NamedTuple

from ..core.documents import notice_document
from ..core.errors import Fault, InvalidRequest
from ..core.notices import Notice
from .assembly import Assembled, Assembler, Component
from .blanks import places_before, single_blanks
from .called_kinds import called_so
from .clauses import Clause, clauses_of
from .coat_lines import coats_of
from .forms import Written
from .ingredients_meant import boiled_apart
from .labelled_lines import lines_apart
from .line_answers import with_line_answers
from .list_marks import in_small_letters
from .listed import Index, listed_of
from .meant_foods import MeantFood, food_meant, lay_in_whole_list
from .method_parts import parts_of_both
from .questions import Doubts, Question
from .remarks import is_remark, tells_of_another
from .servings import UNSTATED, ask_servings
from .unlisted_salt import unlisted_salt
from .walk import watch

LEAST_SWING = 0.10
"""A question is asked where this share of the sodium hangs on it."""
LEAST_SWING_MG = 35.0
"""And so much of a serving's: what holds no more is "very low" in sodium, 21 CFR 101.61(b)(2)."""
OF_THE_FIRST = 0.25
"""And so much of what hangs on the first question, or of all the sodium: beside that, less is lost."""
MOST_ASKED = 5
"""Questions of one recipe at the most, those first that the most sodium hangs on; answered ones besides."""
MOST_KEPT_CHARACTERS = 20_000
"""Characters of the longest method whose clauses are kept for the next reading."""
WHOLE = 1.0
"""Servings of a recipe that does not say how many it makes: its figures are for the whole of it."""


@dataclass(frozen=True, slots=True)
class Reading:
    """What a recipe in prose comes to. recipe: a body for POST /v1/calculations. questions: in the order
    in which they came up, with no swing yet."""

    written: Written
    recipe: dict[str, Any]
    lines: list[dict[str, Any]]
    steps: list[dict[str, Any]]
    questions: tuple[Question, ...]
    notices: tuple[Notice, ...]

    def pointer(self, question: Question) -> str:
        """Where in the recipe a question's answer lands."""
        if not question.component:
            return f"/{question.field}"
        for i, component in enumerate(self.recipe["components"]):
            if component["id"] == question.component:
                return f"/components/{i}" + (f"/{question.field}" if question.field else "")
        return ""


def read(written: Written, answers: Mapping[str, str] | None = None) -> Reading:
    """The reading of a recipe. answers: instead of those it came with.

    Raises InvalidRequest: no line is a food, or an answer that its question does not offer.
    """
    index, clauses, meant = _parted(written)
    if not index.lines:
        raise InvalidRequest([Fault("/ingredients", "No line names a food; give at least one.")])
    state = watch(clauses, index, written.title)
    if meant is not None and meant.whole_list:
        lay_in_whole_list(meant, state)
    doubts = Doubts(written.answers if answers is None else answers)
    servings = written.servings
    if servings is None and written.portion_g is None:
        servings = ask_servings(doubts, written.title)
    made = Assembler(state, doubts, servings, meant).assemble()
    if not made.components:
        raise InvalidRequest([Fault("/ingredients", "No line names a food; give at least one.")])
    said = (each for each in written.notices if servings is None or each.code != UNSTATED)
    notices = (*said, *_unlisted(meant), *_unread(state.unread))
    told = list(_lines(written, made))
    recipe = with_line_answers(_recipe(written, made, servings), told, doubts.answers)
    return Reading(written, recipe, told, list(_steps(written, made)), tuple(doubts.asked), notices)


class Parted(NamedTuple):
    """A recipe's lines and clauses; meant: the food of its bath, where no line lists it."""

    listed: Index
    clauses: tuple[Clause, ...]
    meant: MeantFood | None


def _parted(written: Written) -> Parted:
    """The lines and the clauses of a recipe; kept, since every choice of a question is tried on them."""
    lines = lines_apart(in_small_letters(written.lines)).lines
    paragraphs = single_blanks(written.paragraphs)
    if sum(map(len, paragraphs)) > MOST_KEPT_CHARACTERS:
        return parted.__wrapped__(lines, paragraphs, written.title)
    return parted(lines, paragraphs, written.title)


@lru_cache(maxsize=64)
def parted(lines: tuple[str, ...], paragraphs: tuple[str, ...], title: str) -> Parted:
    listed = called_so(listed_of(lines, parts_of_both(lines, paragraphs)), paragraphs)
    index = Index.of(coats_of(listed, paragraphs))
    clauses = tuple(clauses_of(paragraphs, index))
    meant = food_meant(index, clauses, title, len(lines)) if index.lines else None
    salt = unlisted_salt(index, clauses, paragraphs, len(lines) + 1) if index.lines else None
    if meant is not None or salt is not None:
        listed = [line for line in index.lines if salt is None or line.index != salt.index]
        listed += [meant.line] if meant is not None else []
        index = Index.of([*listed, salt] if salt is not None else listed)
        clauses = tuple(clauses_of(paragraphs, index))
    index.boiled_in = boiled_apart(index, clauses)
    return Parted(index, clauses, meant)


def _recipe(written: Written, made: Assembled, servings: float | None) -> dict[str, Any]:
    portion = written.portion_g
    served = {"servings": servings or WHOLE} if portion is None else {"portion_g": portion}
    recipe: dict[str, Any] = {"title": written.title, **served}
    recipe["components"] = [_component(each) for each in made.components]
    if made.steps:
        recipe["steps"] = [step.body for step in made.steps]
    return recipe


def _component(component: Component) -> dict[str, Any]:
    made: dict[str, Any] = {"id": component.id}
    if component.label:
        made["label"] = component.label[:300]
    made["ingredients"] = list(component.ingredients)
    if component.eaten is not None:
        made["eaten_fraction"] = component.eaten
    return made


def _lines(written: Written, made: Assembled) -> Iterator[dict[str, Any]]:
    """Every line as it is read with its place in the recipe, then what only the method names."""
    apart = lines_apart(in_small_letters(written.lines))
    places: dict[int | None, list[tuple[Component, int]]] = {}
    for component in made.components:
        for position, source in enumerate(component.sources):
            places.setdefault(source, []).append((component, position))
    for place, text in enumerate(apart.lines):
        index = apart.sources[place] if apart.sources else place
        for component, position in places.get(place, ()):
            entry: dict[str, Any] = {"index": index, "component": component.id, "ingredient": position}
            ingredient = component.ingredients[position]
            if isinstance(ingredient, dict) and "share" in ingredient:
                entry["share"] = ingredient["share"]
            yield {**entry, "text": text}
        if place not in places and index >= 0:
            remarks = is_remark(text, has_amount=False) or tells_of_another(text, place, apart.lines)
            told = "a remark" if remarks else "a heading"
            reason = made.left_out.get(place, told)
            yield {"index": index, "component": None, "reason": reason, "text": text}
    unlisted = (len(apart.lines), len(apart.lines) + 1, None)
    for component, position in chain.from_iterable(places.get(place, ()) for place in unlisted):
        ingredient = component.ingredients[position]
        text = ingredient["line"] if isinstance(ingredient, dict) else ingredient
        yield {
            "index": None,
            "component": component.id,
            "ingredient": position,
            "assumed": True,
            "text": text,
        }


def _steps(written: Written, made: Assembled) -> Iterator[dict[str, Any]]:
    begins = {step.clause.place for step in made.steps if step.clause.end}
    for i, step in enumerate(made.steps):
        clause, end = step.clause, step.clause.end
        if step.until and not any(m == clause.method and end <= at < step.until for m, at in begins):
            end = step.until  # the phrase reaches to its time
        start, text = clause.start, clause.text
        if end:
            paragraph = written.paragraphs[clause.method]
            start, end = places_before(paragraph, (start, end))
            text = paragraph[start:end]
        yield {
            "pointer": f"/steps/{i}",
            "method": clause.method,
            "start": start,
            "end": end,
            "text": text,
            "confidence": step.confidence,
            "stated": step.stated,
            "assumed": step.assumed,
        }


def _unlisted(meant: MeantFood | None) -> Iterator[Notice]:
    if meant is not None:
        taken = "as much as the method says" if meant.amount else "a usual weight"
        message = (
            f"No line lists the food that lies in it, {meant.line.text!r}; {taken} was taken. Give it a line."
        )
        yield Notice("food-in-no-line", "check", message, "/ingredients")


def _unread(clauses: list[Any]) -> Iterator[Notice]:
    for clause in clauses[:20]:
        message = f"Not read, and it may move salt: {clause.sentence[:200]!r}."
        yield Notice("sentence-not-read", "check", message, f"/method/{clause.method}")


def reading_document(
    reading: Reading,
    questions: Sequence[Question] | None = None,
    swings: Mapping[str, Mapping[str, float]] | None = None,
) -> dict[str, Any]:
    """The contract's answer. questions: what may be asked, those of the reading where none are given. swings:
    by question and choice, mg of sodium a serving."""
    return {
        "recipe": reading.recipe,
        "lines": reading.lines,
        "steps": reading.steps,
        "questions": _questions(reading, reading.questions if questions is None else questions, swings or {}),
        "notices": [notice_document(notice) for notice in reading.notices],
        "method": list(reading.written.paragraphs),
    }


def _questions(
    reading: Reading, questions: Sequence[Question], swings: Mapping[str, Mapping[str, float]]
) -> list[dict[str, Any]]:
    """The questions that much hangs on, most sodium first, and those that were answered."""
    made: list[dict[str, Any]] = []
    for question in questions:
        known = swings.get(question.id, {})
        swing = max(known.values()) - min(known.values()) if known else 0.0
        least = max(LEAST_SWING * known.get(question.taken, 0.0), LEAST_SWING_MG)
        if known and not question.answered and swing < least:
            continue
        choices = [
            {"choice": c.choice, "label": c.label, "sodium_mg_per_serving": known.get(c.choice)}
            for c in question.choices
        ]
        made.append(
            {
                "id": question.id,
                "pointer": reading.pointer(question),
                "message": question.message,
                "swing_mg_per_serving": swing,
                "choices": choices,
                "taken": question.taken,
                "answered": question.answered,
            }
        )
    ranked = sorted(made, key=_swing, reverse=True)
    still = [each for each in ranked if not each["answered"]][:MOST_ASKED]
    least = OF_THE_FIRST * min(_swing(still[0]), _taken_mg(still[0])) if still else 0.0
    return [each for each in ranked if each["answered"] or (each in still and _swing(each) >= least)]


def _taken_mg(question: Mapping[str, Any]) -> float:
    """mg of sodium a serving as read; none where nothing was tried."""
    known = (c["sodium_mg_per_serving"] for c in question["choices"] if c["choice"] == question["taken"])
    return float(next(known) or 0.0)


def _swing(question: Mapping[str, Any]) -> float:
    return float(question["swing_mg_per_serving"])
