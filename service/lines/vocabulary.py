"""The words that lines are made of beside foods and units: preparations, sizes, phrases. All from tables."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import Literal, get_args

from ..core.tables import Row, load
from ..units.kitchen_units import dimension

Kind = Literal["cut", "state", "degree", "aside"]


@dataclass(frozen=True, slots=True)
class Preparation:
    """A word of preparation. binds: words before which it belongs to the food's name all the same."""

    word: str
    kind: Kind
    binds: frozenset[str]


@cache
def preparations() -> dict[str, Preparation]:
    """Preparation words by themselves, two that belong together with a hyphen. Raises BrokenTable."""

    def make(row: Row) -> list[Preparation]:
        if row["kind"] not in get_args(Kind):
            raise ValueError(f"{row['kind']!r} is not one of {get_args(Kind)}")
        binds = frozenset(row["binds"].split("|")) - {""}
        return [Preparation(word, row["kind"], binds) for word in row["words"].split("|")]  # type: ignore[arg-type]

    return {each.word: each for group in load("preparation_words", make) for each in group}


@cache
def pair_starts() -> frozenset[str]:
    """First words of preparations that are two words ("bone" of "bone-in")."""
    return frozenset(word.partition("-")[0] for word in preparations() if "-" in word)


@cache
def role(name: str) -> frozenset[str]:
    """The small words of one role, "stop" or another (see line_words.csv)."""
    return dict(load("line_words", lambda row: (row["role"], frozenset(row["words"].split("|")))))[name]


@cache
def sizes() -> dict[str, str]:
    """Size word -> size."""
    return dict(load("size_words", lambda row: (row["word"], row["size"])))


@cache
def modifiers() -> dict[str, frozenset[str]]:
    """Last word of a food, "*" for any -> words that can stand alone for it before "or"."""
    return dict(load("line_modifiers", lambda row: (row["head"], frozenset(row["modifiers"].split("|")))))


@dataclass(frozen=True, slots=True)
class TrailingUnit:
    """A count that may stand behind these foods (empty: any); keeps: foods named by the word itself."""

    foods: frozenset[str]
    keeps: frozenset[str]


@cache
def trailing_units() -> dict[str, TrailingUnit]:
    """Counts that may stand behind the food, by unit. Raises BrokenTable."""

    def make(row: Row) -> tuple[str, TrailingUnit]:
        if dimension(row["unit"]) not in {"count", "volume"}:
            raise ValueError(f"{row['unit']!r} is not a count of unit_names.csv")
        foods = frozenset() if row["foods"] == "*" else frozenset(row["foods"].split("|"))
        return row["unit"], TrailingUnit(foods, frozenset(row["keeps"].split("|")) - {""})

    return dict(load("unit_after_food", make))


@cache
def _phrases() -> dict[str, list[tuple[str, str]]]:
    """Phrases and their flags, by the phrase's first word."""
    by_first: dict[str, list[tuple[str, str]]] = {}
    for phrase, flag in load("line_phrases", lambda row: (row["phrase"], row["flag"])):
        by_first.setdefault(phrase.split()[0], []).append((phrase, flag))
    return by_first


def _phrases_among(words: Sequence[str]) -> list[tuple[str, str]]:
    """The phrases that begin with one of `words`, the longest first, with their flags."""
    begun = _phrases().keys() & words
    found = [each for first in begun for each in _phrases()[first]]
    return sorted(found, key=lambda each: (-len(each[0]), each[0]))


def phrase_flags(words: Sequence[str]) -> set[str]:
    """The flags that the phrases among the words of a line (lower case) tell."""
    phrases = _phrases_among(words)
    text = f" {' '.join(words)} " if phrases else ""
    return {flag for phrase, flag in phrases if f" {phrase} " in text}


def without_phrases(text: str) -> str:
    """`text` (lower case) without its phrases and what they leave at its ends."""
    for phrase, _ in _phrases_among(text.split()):
        text = f" {text} ".replace(f" {phrase} ", "  ").strip()
    return text.strip(_EDGES)


_EDGES = " ,;.-"
