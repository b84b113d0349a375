"""Whether a food was cooked before, or is not usually eaten before it is: by names (cooking_states.csv)."""

from __future__ import annotations

from functools import cache, lru_cache
from typing import Literal, cast, get_args

from ..core.name_rules import NameRules
from ..core.tables import Row

State = Literal["cooked", "canned", "raw"]


@lru_cache(maxsize=4096)
def cooking_state(food_name: str, group_code: str) -> State | None:
    """cooked, canned (heated in the can), raw (not usually eaten so); None for a food that is neither."""
    return _states().first(food_name, group_code)


def is_done(food_name: str, group_code: str) -> bool:
    """Whether a food has had its heat already, so that its row holds what the heat left."""
    return cooking_state(food_name, group_code) in ("cooked", "canned")


def says_done(line: str) -> bool:
    """Whether the words of a line say that they mean a food that was cooked before."""
    lowered = line.lower()
    return any(rule.says(lowered) for rule, state in _states().rows if state != "raw")


@cache
def _states() -> NameRules[State]:
    return NameRules.of("cooking_states", _state)


def _state(row: Row) -> State:
    if row["state"] not in get_args(State):
        raise ValueError(f"state must be one of {get_args(State)}, got {row['state']!r}")
    return cast(State, row["state"])
