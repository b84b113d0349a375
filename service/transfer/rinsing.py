"""Loose food under running water: how fast its free salt leaves (`rinsing.csv`)."""

from __future__ import annotations

import re
from functools import cache

from ..core.figures import Figure, Named, figure_of
from ..core.tables import Row, load
from ..nutrition.name_patterns import groups_of, is_in_groups, words_pattern


def rinse_rate_per_min(food: Named | None) -> Figure | None:
    """1/min for what is loose (flakes, curds, shreds); None for whole pieces and what is not known."""
    if food is None:
        return None
    lowered = food.name.lower()
    fitting = (
        figure
        for groups, words, figure in _rates()
        if is_in_groups(groups, food.group_code) and (words is None or words.search(lowered))
    )
    return next(fitting, None)


@cache
def _rates() -> tuple[tuple[frozenset[str], re.Pattern[str] | None, Figure], ...]:
    return load("rinsing", _rate_of)


def _rate_of(row: Row) -> tuple[frozenset[str], re.Pattern[str] | None, Figure]:
    return groups_of(row), words_pattern(row["words"]), figure_of(row)
