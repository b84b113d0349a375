"""A recipe in prose as a document: what is calculated, and beside it what was written, to be kept."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import Any

from .forms import Written, written_of
from .line_answers import AMOUNT, FOOD, places
from .method_reading import Reading, read

WISHES = ("settings", "custom_foods", "own_limits", "figures", "audience", "dish_class")
"""What a caller may wish of any recipe, whatever its form."""


def prepared(document: Any) -> tuple[dict[str, Any], dict[str, Any]]:
    """The recipe to calculate, and what was written: title, servings, ingredients, method, answers.

    Raises InvalidRequest with every fault found.
    """
    written = written_of(document)
    wishes = {key: document[key] for key in WISHES if isinstance(document, Mapping) and key in document}
    return {**reading_of(written).recipe, **wishes}, as_written(written)


def as_written(written: Written) -> dict[str, Any]:
    """The form in which a recipe in prose is kept."""
    made: dict[str, Any] = {
        "title": written.title,
        "servings": written.servings,
        "ingredients": list(written.lines),
        "method": list(written.paragraphs),
    }
    if written.portion_g is not None:
        made["portion_g"] = written.portion_g
    return {**made, "answers": dict(written.answers)} if written.answers else made


def reading_of(written: Written) -> Reading:
    """The reading of a recipe; kept for the next asking of the same."""
    return _read_kept(_Asked(written))


def reading_kept(written: Mapping[str, Any]) -> Reading:
    """The reading of what `as_written` kept."""
    return reading_of(written_of(written))


def answered(written: Mapping[str, Any], earlier: Mapping[str, str]) -> dict[str, Any]:
    """What was written, with the answers given earlier to questions that still stand; its own go first."""
    reading = reading_kept(written)
    standing = {question.id for question in reading.questions}
    standing |= {key for topic in (AMOUNT, FOOD) for key, _ in places(reading.lines, topic)}
    kept = {key: choice for key, choice in earlier.items() if key in standing}
    answers = {**kept, **written.get("answers", {})}
    return {**written, "answers": answers} if answers else dict(written)


class _Asked:
    """A recipe as the key of a cache: alike by what it says."""

    __slots__ = ("key", "written")

    def __init__(self, written: Written) -> None:
        answers = tuple(sorted(written.answers.items()))
        served = written.servings, written.portion_g
        self.key = (written.title, served, written.lines, written.paragraphs, answers)
        self.written = written

    def __hash__(self) -> int:
        return hash(self.key)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Asked) and self.key == other.key


@lru_cache(maxsize=256)
def _read_kept(asked: _Asked) -> Reading:
    return read(asked.written)
