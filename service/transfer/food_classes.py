"""Salting classes (beef, fish_lean, cheese ...): which one a dataset food belongs to, and its usual water."""

from __future__ import annotations

from functools import cache

from ..core.errors import NotFound
from ..core.sourced import SourcedFigure, figure_of
from ..core.tables import load
from .food_kinds import kind_named


def food_class_of(group_code: str, name: str) -> str | None:
    """The class by food group and name; None where no salting figure fits (eggs, tofu, bread, liquids)."""
    return kind_named("bath", group_code[:2], name)


def usual_water(food_class: str) -> SourcedFigure:
    """Grams of water per gram of raw food, where it is not known. Raises NotFound for an unknown class."""
    if food_class not in _waters():
        raise NotFound("food class", food_class)
    return _waters()[food_class]


def partition_at_rest(food_class: str) -> SourcedFigure:
    """Salt in a food's water over the bath's, once nothing moves. Raises NotFound for an unknown class."""
    if food_class not in _at_rest():
        raise NotFound("food class", food_class)
    return _at_rest()[food_class]


@cache
def _waters() -> dict[str, SourcedFigure]:
    return dict(load("bath_foods", lambda row: (row["food_class"], figure_of(row))))


@cache
def _at_rest() -> dict[str, SourcedFigure]:
    return dict(load("bath_foods", lambda row: (row["food_class"], figure_of(row, "rest_"))))
