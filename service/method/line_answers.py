"""What a person says of a line of the list: how much it is, that it is left out, which food is meant."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache
from typing import Any

from ..core.errors import Fault, InvalidRequest
from ..core.tables import rows
from .questions import identity_of

AMOUNT, FOOD = "amount", "food"
"""What is asked of a line; ids of such questions begin so."""
AS_READ = "as_read"
"""The choice that leaves a line as it was read."""
LEFT_OUT = "0 g"
_GRAMS = re.compile(r"(\d{1,7}(?:\.\d+)?) g")
_CODE = re.compile(r"(?=[^ ]*\d)[\w.:-]{1,40}")
_SALTING = re.compile(r"\b(?:un|pre-)?salt(?:ed|less|-free)?\b|\bsodium\b", re.IGNORECASE)

Entry = Mapping[str, Any]
"""A line as a reading tells it: index, text, and where it went."""


def places(lines: Iterable[Entry], topic: str) -> Iterator[tuple[str, Entry]]:
    """The lines of the list that went somewhere, each with the id of what is asked of it; of a line that is
    split, every part has the same one, and a line that stands twice two."""
    seen: dict[str, list[int]] = {}
    for each in lines:
        if each["index"] is None or each["component"] is None:
            continue
        alike = seen.setdefault(each["text"], [])
        if each["index"] not in alike:
            alike.append(each["index"])
        yield identity_of(topic, each["text"], alike.index(each["index"])), each


def with_line_answers(
    recipe: dict[str, Any], lines: Sequence[Entry], answers: Mapping[str, str]
) -> dict[str, Any]:
    """The recipe that was read with what a person said of its lines. Raises InvalidRequest."""
    if not any(map(is_of_line, answers)):
        return recipe
    components = {
        each["id"]: {**each, "ingredients": [*each["ingredients"]]} for each in recipe["components"]
    }
    for topic in (FOOD, AMOUNT):
        for key, place in places(lines, topic):
            if (choice := answers.get(key, AS_READ)) != AS_READ:
                within, at = components[place["component"]]["ingredients"], place["ingredient"]
                within[at] = _said(within[at], place["text"], key, choice)
    return {**recipe, "components": list(components.values())}


def is_of_line(key: str) -> bool:
    """Whether the id of a question is of one about a line."""
    return key.startswith((f"{AMOUNT}-", f"{FOOD}-"))


def _said(found: str | dict[str, Any], text: str, key: str, choice: str) -> str | dict[str, Any]:
    asked = {"line": found} if isinstance(found, str) else dict(found)
    if not asked["line"].startswith(text):
        return found  # a question about the method has an answer of its own for it
    is_amount = key.startswith(AMOUNT)
    said = _amount(choice, asked) if is_amount else _food(choice, asked)
    if said is not None:
        return said
    known = "a weight such as '40 g'" if is_amount else "the code of a food, or one of its choices"
    message = f"Found {choice[:40]!r}, wanted {known}, or {AS_READ!r}."
    raise InvalidRequest([Fault(f"/answers/{key}", message)])


def _amount(choice: str, asked: dict[str, Any]) -> dict[str, Any] | None:
    """The line with its weight; of one that is split, with its share of it."""
    found = _GRAMS.fullmatch(choice)
    if found is None:
        return None
    share = asked.pop("share", 1.0)
    return {**asked, "grams": round(float(found[1]) * share, 6)}


def _food(choice: str, asked: dict[str, Any]) -> dict[str, Any] | None:
    if _CODE.fullmatch(choice):
        return {**asked, "food": choice}
    known = any(phrase == choice for phrase, _ in _phrases(asked["line"]))
    return {**asked, "line": f"{asked['line']}, {choice}"} if known else None


def variants(line: str) -> list[tuple[str, str]]:
    """What a line leaves unsaid of the kind of its food: phrases, each with its label (line_variants.csv)."""
    return list(_phrases(line))


def _phrases(line: str) -> Iterator[tuple[str, str]]:
    said = set(re.findall(r"[a-z]+", line.lower()))
    salting = bool(_SALTING.search(line))
    for words, unless, phrase, label in _variants():
        if said & words and not said & unless and not (salting and phrase != "drained"):
            yield phrase, label


@cache
def _variants() -> tuple[tuple[frozenset[str], frozenset[str], str, str], ...]:
    return tuple(
        (frozenset(row["words"].split("|")), frozenset(row["unless"].split("|")), row["phrase"], row["label"])
        for row in rows("line_variants")
    )
