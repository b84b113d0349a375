"""How many servings a recipe makes, as recipes say it: 4, "4 to 6 servings", "makes 24", "1 loaf"."""

from __future__ import annotations

import re
from typing import Any

from ..core.errors import Fault
from ..core.notices import Notice
from ..core.numbers import shown
from ..core.tables import rows
from .questions import Doubts

_NUMBER = re.compile(r"\d+(?:[.,]\d+)?|[a-z]+", re.IGNORECASE)
_RANGE = re.compile(
    r"(\d+(?:\.\d+)?)\s*(?:-|–|—|to|or|bis)\s*(\d+(?:\.\d+)?)|(\d+(?:\.\d+)?)\s*(?:x|dozen)?", re.IGNORECASE
)
_PEOPLE = re.compile(r"serv|portion|people|person|plate|guest|diner|helping|head|feeds", re.IGNORECASE)
MOST = 100_000
UNSTATED = "servings-not-stated"


MOST_SAID = 1e300
"""No number of servings; whole numbers above it are no floats either."""


def servings_of(value: Any, pointer: str, faults: list[Fault]) -> tuple[float | None, list[Notice]]:
    """The number of servings, and what a person should know of it. What cannot be servings is a fault."""
    values = value if isinstance(value, list) else [value]
    told = [each for each in values if each not in (None, "", [])]
    if not told:
        message = (
            "The recipe does not say how many it serves; figures are for the whole of it. State servings."
        )
        return None, [Notice(UNSTATED, "check", message, pointer)]
    counted = [(each, number) for each in told if (number := _number(each)) is not None]
    if not counted or not all(0 < number <= MOST for _, number in counted):
        named = str(told[0])[:60]
        message = f"Found {named!r}, wanted a number of servings above 0; write 4, or 4 servings."
        faults.append(Fault(pointer, message))
        return None, []
    of_people = (each for each in counted if isinstance(each[0], str) and _PEOPLE.search(each[0]))
    said, number = next(of_people, counted[0])
    return number, _told(said, number, pointer)


def _number(value: Any) -> float | None:
    if isinstance(value, bool):
        return None
    if isinstance(value, int | float):
        return float(value) if -MOST_SAID < value < MOST_SAID else None
    if isinstance(value, dict):
        return _number(value.get("value", value.get("@value", value.get("name"))))
    return _in_words(value) if isinstance(value, str) else None


def _in_words(text: str) -> float | None:
    text = text[:200].replace("½", ".5")
    found = _RANGE.search(text)
    if found is None:
        counts = {row["word"]: row["likely"] for row in rows("number_words") if row["kind"] == "count"}
        words = [word.lower() for word in _NUMBER.findall(text)]
        return next((float(counts[word]) for word in words if word in counts), None)
    low, high, one = found.groups()
    dozen = 12 if "dozen" in text.lower() else 1
    return float(one) * dozen if one else (float(low) + float(high)) / 2


def _told(said: Any, number: float, pointer: str) -> list[Notice]:
    if not isinstance(said, str):
        return []
    found = _RANGE.search(said)
    if found and found[1]:
        message = f"{said[:80]!r} was taken as {shown(number)} servings; state servings to fix it."
        return [Notice("servings-range", "info", message, pointer)]
    if not _PEOPLE.search(said) and not said.strip().replace(".", "").isdigit():
        message = (
            f"{said[:80]!r} was taken as {shown(number)} servings; if pieces are no servings, state servings."
        )
        return [Notice("servings-from-yield", "check", message, pointer)]
    return []


def ask_servings(doubts: Doubts, title: str) -> float | None:
    """How many servings a recipe makes that does not say so, as a person says; None where nobody does."""
    return doubts.figure("servings", title, "whole", "") or None
