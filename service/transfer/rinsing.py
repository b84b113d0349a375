"""Loose food under running water: how fast its free salt leaves (`rinsing.csv`)."""

from __future__ import annotations

from functools import cache

from ..core.name_rules import NameRules
from ..core.sourced import Named, SourcedFigure, figure_of


def rinse_rate_per_min(food: Named | None) -> SourcedFigure | None:
    """1/min for what is loose (flakes, curds, shreds); None for whole pieces and what is not known."""
    return None if food is None else _rates().first(food.name, food.group_code)


@cache
def _rates() -> NameRules[SourcedFigure]:
    return NameRules.of("rinsing", figure_of)
