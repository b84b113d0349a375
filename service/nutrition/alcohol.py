"""Alcohol left in a dish, by how it was heated and for how long."""

from __future__ import annotations

from functools import cache

import numpy as np

from ..core.spread import Spread
from ..core.tables import rows

STIRRED_IN = "stirred_in"
REACH = 0.1
"""Half the range on either side of a published mean, as a share of what went in: our own judgement."""

SOURCE = "USDA Table of Nutrient Retention Factors, Release 6 (2007), codes 5001 to 5010"


def alcohol_kept(method: str = STIRRED_IN, minutes: float = 0.0) -> Spread:
    """The share (0 to 1) of alcohol that stays.

    method: "stirred_in" (then simmered or baked for so many minutes), "baked_not_stirred" (25 minutes),
    "flamed" or "no_heat_overnight"; minutes count for the first alone. Raises ValueError for another method.
    """
    if method not in _methods():
        raise ValueError(f"there is no method {method!r} for alcohol; it is one of: {', '.join(_methods())}")
    times, shares = _methods()[method]
    likely = float(np.interp(minutes, times, shares))
    return Spread(max(likely - REACH, 0.0), likely, min(likely + REACH, 1.0))


@cache
def _methods() -> dict[str, tuple[list[float], list[float]]]:
    found: dict[str, tuple[list[float], list[float]]] = {}
    for row in rows("alcohol_retention"):
        times, shares = found.setdefault(row["method"], ([], []))
        times.append(float(row["minutes"] or 0))
        shares.append(float(row["retention"]))
    return found
