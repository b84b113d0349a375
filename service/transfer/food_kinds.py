"""Which kind a dataset food is for one purpose, a bath or a fryer, say (`food_kinds.csv`).

For baths the kinds are the salting classes (beef, fish_lean, cheese ...), with the water of each.
"""

from __future__ import annotations

from functools import cache, lru_cache
from typing import Literal, get_args

from ..core.errors import NotFound
from ..core.name_rules import NameRules
from ..core.sourced import Named, SourcedFigure, figures

Purpose = Literal["bath", "pot", "yield", "composition", "fryer", "coating", "can"]

NO_KIND = "-"


def kind_of(purpose: Purpose, food: Named | None) -> str | None:
    """The kind of a food by the first rule that fits; None where none does or there is no food."""
    return None if food is None else kind_named(purpose, food.group_code[:2], food.name)


@lru_cache(maxsize=4096)
def kind_named(purpose: Purpose, group: str, name: str) -> str | None:
    """`kind_of` by the first two figures of a food group's code and the food's name."""
    rule = _rules().get(purpose)
    kind = rule.first(name, group) if rule else None
    return None if kind == NO_KIND else kind


@cache
def _rules() -> dict[str, NameRules[str]]:
    every = NameRules.of("food_kinds", lambda row: (row["purpose"], row["kind"]))
    return {
        purpose: NameRules(tuple((rule, kind) for rule, (of, kind) in every.rows if of == purpose))
        for purpose in get_args(Purpose)
    }


def food_class_of(group_code: str, name: str) -> str | None:
    """The class by food group and name; None where no salting figure fits (eggs, tofu, bread, liquids)."""
    return kind_named("bath", group_code[:2], name)


def usual_water(food_class: str) -> SourcedFigure:
    """Grams of water per gram of raw food, where it is not known. Raises NotFound for an unknown class."""
    return _of_class(food_class)


def partition_at_rest(food_class: str) -> SourcedFigure:
    """Salt in a food's water over the bath's, once nothing moves. Raises NotFound for an unknown class."""
    return _of_class(food_class, "rest_")


def usual_warmth(food_class: str) -> SourcedFigure:
    """°C of its bath, where nobody states it. Raises NotFound for an unknown class."""
    return _of_class(food_class, "warm_")


def _of_class(food_class: str, prefix: str = "") -> SourcedFigure:
    table = figures("bath_foods", "food_class", prefix=prefix)
    if food_class not in table:
        raise NotFound("food class", food_class)
    return table[food_class]
