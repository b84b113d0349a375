"""Added sugars, derived: the dataset does not know them, but some foods are sugars and most hold none."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Literal

from ..core.tables import Row, load
from .name_patterns import groups_of, is_in_groups, words_pattern

Added = Literal["all", "none", "part"]

SOURCE = "derived: the sugars of foods that are sugars themselves (21 CFR 101.9(c)(6)(iii))"


@dataclass(frozen=True, slots=True)
class Sweet:
    """An ingredient: name and group code of its food, and its sugars in g (None: not known).

    is_stated: whether the caller states its sugars; added_share: of them, the share (0 to 1) that was
    added, None
    where that is not stated.
    """

    food_name: str
    group_code: str
    sugar_g: float | None
    is_stated: bool = False
    added_share: float | None = None

    @property
    def added(self) -> Added:
        """Whether its sugars are added ones; of stated sugars nothing is taken from a name."""
        if not self.is_stated:
            return how_added(self.food_name, self.group_code)
        return "part" if self.added_share is None else "all"


@dataclass(frozen=True, slots=True)
class AddedSugars:
    """Added sugars between `at_least_g` and `at_most_g`. of_all: at_least_g as a share of the sugars that are
    known.

    open_foods: foods of whose sugars some are added, and how many is not known.
    """

    at_least_g: float
    at_most_g: float
    of_all: float
    open_foods: tuple[str, ...]

    @property
    def is_known(self) -> bool:
        return not self.open_foods


@dataclass(frozen=True, slots=True)
class _Rule:
    added: str
    groups: frozenset[str]
    words: re.Pattern[str] | None


def added_sugars(ingredients: Iterable[Sweet]) -> AddedSugars:
    """What of the sugars of a recipe was added. A food whose sugars are not known is open if some may be."""
    at_least = part = every = 0.0
    open_foods = []
    for sweet in ingredients:
        added, sugar = sweet.added, sweet.sugar_g or 0.0
        share = 1.0 if sweet.added_share is None else sweet.added_share
        every += sugar
        at_least += share * sugar if added == "all" else 0.0
        part += sugar if added == "part" else 0.0
        if (added == "part" and sweet.sugar_g != 0) or (added == "all" and sweet.sugar_g is None):
            open_foods.append(sweet.food_name)
    return AddedSugars(at_least, at_least + part, at_least / every if every else 0.0, tuple(open_foods))


@lru_cache(maxsize=4096)
def how_added(food_name: str, group_code: str) -> Added:
    """Whether the sugars of a food are added ones: "all", "none" or "part"."""
    lowered = food_name.lower()
    for rule in _rules():
        if is_in_groups(rule.groups, group_code) and (rule.words is None or rule.words.search(lowered)):
            return rule.added  # type: ignore[return-value]
    return "none"


@cache
def _rules() -> tuple[_Rule, ...]:
    return load("added_sugars", _rule)


def _rule(row: Row) -> _Rule:
    if row["added"] not in ("all", "none", "part"):
        raise ValueError(f"added must be all, none or part, got {row['added']!r}")
    return _Rule(row["added"], groups_of(row), words_pattern(row["words"]))
