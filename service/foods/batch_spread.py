"""How far one batch of a food lies from the dataset's figure, by nutrient (`composition_spread.csv`).

A row of the dataset is a mean; the carrot in the kitchen is one carrot. Salt, water, sugar and fat are what
they are, and a food that the caller describes is taken at its word.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from ..core.sources import Source
from ..core.spread import Spread
from ..core.tables import Row, load
from ..transfer.food_kinds import kind_of
from .food import Food

SALTED_MG = 200.0
"""From so much sodium in 100 g on, in mg, a food is taken to be salted by its maker."""

SOURCE = "how batches of a food differ: SR28's own rows of one food (composition_spread.csv)"


def composition_kind(food: Food) -> str | None:
    """animal or plant; None for what is the same everywhere (salt, water) and for foods of the caller."""
    return kind_of("composition", food)


def composition_spreads(food: Food) -> Mapping[str, Spread]:
    """A batch's amount over the dataset's, by nutrient's tag, nine times in ten; empty for some foods."""
    kind = composition_kind(food)
    if kind is None:
        return {}
    salted = (food.per_100g("NA") or 0.0) >= SALTED_MG
    return _spreads(kind) | (_spreads("salted") if salted else {})


def batch_source(food: Food) -> str:
    """Where the spread of a food's sodium comes from."""
    kind = "salted" if (food.per_100g("NA") or 0.0) >= SALTED_MG else composition_kind(food)
    return Source(SOURCE, f"composition_spread:{kind}/NA")


@cache
def _spreads(kind: str) -> dict[str, Spread]:
    return {tag: spread for of, tag, spread in load("composition_spread", _row) if of == kind}


def _row(row: Row) -> tuple[str, str, Spread]:
    return row["kind"], row["tag"], Spread(min(float(row["low"]), 1.0), 1.0, max(float(row["high"]), 1.0))
