"""Whether a food was cooked before, or is not usually eaten before it is: by names (cooking_states.csv)."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Literal, cast, get_args

from ..core.tables import Row, load
from .name_patterns import groups_of, is_in_groups, words_pattern

State = Literal["cooked", "canned", "raw"]


@dataclass(frozen=True, slots=True)
class _Rule:
    state: State
    groups: frozenset[str]
    words: re.Pattern[str] | None
    unless: re.Pattern[str] | None

    def fits(self, name: str, group_code: str) -> bool:
        return (
            is_in_groups(self.groups, group_code)
            and (self.words is None or self.words.search(name) is not None)
            and (self.unless is None or self.unless.search(name) is None)
        )


@lru_cache(maxsize=4096)
def cooking_state(food_name: str, group_code: str) -> State | None:
    """cooked, canned (heated in the can), raw (not usually eaten so); None for a food that is neither."""
    lowered = food_name.lower()
    return next((rule.state for rule in _rules() if rule.fits(lowered, group_code)), None)


def is_done(food_name: str, group_code: str) -> bool:
    """Whether a food has had its heat already, so that its row holds what the heat left."""
    return cooking_state(food_name, group_code) in ("cooked", "canned")


def says_done(line: str) -> bool:
    """Whether the words of a line say that they mean a food that was cooked before."""
    lowered = line.lower()
    return any(rule.words.search(lowered) for rule in _rules() if rule.state != "raw" and rule.words)


@cache
def _rules() -> tuple[_Rule, ...]:
    return load("cooking_states", _rule)


def _rule(row: Row) -> _Rule:
    if row["state"] not in get_args(State):
        raise ValueError(f"state must be one of {get_args(State)}, got {row['state']!r}")
    state = cast(State, row["state"])
    return _Rule(state, groups_of(row), words_pattern(row["words"]), words_pattern(row["unless"]))
