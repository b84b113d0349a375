"""Added sugars, derived: the dataset does not know them, but some foods are sugars and most hold none."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Literal, cast, get_args

from ..core.name_rules import NameRules
from ..core.tables import Row

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
    return _rules().first(food_name, group_code) or "none"


@cache
def _rules() -> NameRules[Added]:
    return NameRules.of("added_sugars", _added)


def _added(row: Row) -> Added:
    if row["added"] not in get_args(Added):
        raise ValueError(f"added must be one of {get_args(Added)}, got {row['added']!r}")
    return cast(Added, row["added"])
