"""Drying in air, smoked or not: water leaves towards an end, and all else stays (`drying.csv`).

    dW/dt = -k (W - end M),   k = rate * q10 ** ((T - 20) / 10) / thickness ** 2

W: g of water, M: g of dry matter, T: °C, thickness: cm. What happens next depends on what is there alone, so
that two halves after one another give what the whole gives, and no time takes nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np

from ..core.sourced import SourcedFigure, spread_of
from ..core.spread import Draws
from ..core.tables import Row, load

USUAL_C = 20.0
"""The temperature that the table's rates stand for."""


@dataclass(frozen=True, slots=True)
class Drying:
    """end: g of water per g of dry matter. rate: 1/h for a piece 1 cm thick at 20 °C."""

    end: SourcedFigure
    rate: SourcedFigure
    q10: float

    def warmth(self, temperature_c: float) -> float:
        """How many times faster than at 20 °C."""
        return float(self.q10 ** ((temperature_c - USUAL_C) / 10))


def drying(food_class: str | None) -> Drying:
    """The figures of a class; those of any where it has no row of its own."""
    table = _dryings()
    family = (food_class or "any").split("_", 1)[0]
    return table.get(food_class or "any") or table.get(family) or table["any"]


def water_lost(water_g: Draws, dry_g: Draws, end: Draws, run: Draws) -> Draws:
    """g of water that leave; none from what is drier than its end already.

    run: how far the drying goes, as `rate * warmth * hours / thickness_cm ** 2`.
    """
    return np.asarray(np.maximum(water_g - end * dry_g, 0.0) * -np.expm1(-run))


@cache
def _dryings() -> dict[str, Drying]:
    return dict(load("drying", _drying_of))


def _drying_of(row: Row) -> tuple[str, Drying]:
    end, rate = (SourcedFigure(spread_of(row, prefix), row["source"]) for prefix in ("end_", "rate_"))
    return row["food_class"], Drying(end, rate, float(row["q10"]))
