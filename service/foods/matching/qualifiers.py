"""Words beside the food itself, such as cooked, dried or large: the table seed_foods/name_qualifiers.csv."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache

from ...core.tables import Row, load
from .folding import Words

IDLE, LIKES, WANTS = "idle", "likes", "wants"


@dataclass(frozen=True, slots=True)
class Qualifier:
    """What a word does.

    line: IDLE, LIKES or WANTS. boost: what a row with it gains when it is asked for. row_cost: how much a
    name that has it unasked is put off. implies: a qualifier that holds as well, or "". against: words
    that no right row has.
    """

    line: str
    boost: float
    row_cost: float
    implies: str
    against: tuple[str, ...]


@cache
def qualifiers() -> Mapping[str, Qualifier]:
    """The qualifiers by word."""
    return {word: qualifier for words, qualifier in load("name_qualifiers", _row) for word in words}


def _row(row: Row) -> tuple[list[str], Qualifier]:
    if row["line"] not in (IDLE, LIKES, WANTS):
        raise ValueError(f"line is {row['line']!r}, not {IDLE}, {LIKES} or {WANTS}")
    against = tuple(row["against"].split("|")) if row["against"] else ()
    made = Qualifier(row["line"], float(row["earns"]), float(row["row_cost"]), row["implies"], against)
    return row["words"].split("|"), made


def content(words: Iterable[str]) -> Words:
    """The words that name a food rather than qualify it, in their order, each once."""
    known = qualifiers()
    return tuple(dict.fromkeys(word for word in words if word not in known))


def states(words: Iterable[str]) -> tuple[str, ...]:
    """What words ask of a row beside its name: those that a row is to have, and those they imply."""
    known = qualifiers()
    asked: dict[str, None] = {}
    for word in words:
        if word in known and known[word].line != IDLE:
            asked[word] = None
            if known[word].implies:
                asked[known[word].implies] = None
    return tuple(asked)


def wanted(asked: Iterable[str]) -> tuple[str, ...]:
    """Those of the words for which another row is sought."""
    known = qualifiers()
    return tuple(word for word in asked if word in known and known[word].line == WANTS)


def boost(word: str) -> float:
    """What a row with this qualifier gains. KeyError: no qualifier."""
    return qualifiers()[word].boost


def spoken_against(asked: Iterable[str]) -> frozenset[str]:
    """What no right row has, by the words of a line."""
    known = qualifiers()
    return frozenset(no for word in asked if word in known for no in known[word].against)
