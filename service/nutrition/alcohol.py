"""Alcohol left in a dish, by how long it was in the heat."""

from __future__ import annotations

from functools import cache

import numpy as np

from ..core.spread import Spread
from ..core.tables import load

SOURCE = "USDA Table of Nutrient Retention Factors, Release 6 (2007), codes 5002 to 5009"


def alcohol_kept(minutes: float) -> Spread:
    """The share (0 to 1) that stays of alcohol that was stirred in and then simmered or baked so long."""
    times, shares = _course()
    return Spread(*(float(np.interp(minutes, times, each)) for each in shares))


@cache
def _course() -> tuple[list[float], list[list[float]]]:
    """Minutes, and for each of low, likely and high the shares at them."""
    course = load("alcohol_retention", lambda row: (float(row["minutes"]), Spread.from_mapping(row)))
    shares = [[getattr(share, end) for _, share in course] for end in ("low", "likely", "high")]
    return [minutes for minutes, _ in course], shares
