"""Salt in water: how much dissolves, when it freezes. Any salt counts as sodium chloride.

Strength is always percent by weight: grams of salt in 100 g of salt and water together.
"""

from __future__ import annotations

from functools import cache

import numpy as np
from numpy.typing import ArrayLike, NDArray

from ..core.tables import load

Array = NDArray[np.float64]

SATURATED_G_PER_G_WATER = 0.357
"""Grams of salt that a gram of cold water holds at most (26.3 %, 0 to 10 C; brine_saturation.csv)."""

NACL_G_PER_MOL, KCL_G_PER_MOL = 58.4428, 74.5513
"""Molar masses of sodium chloride and potassium chloride."""

KCL_AS_SALT = NACL_G_PER_MOL / KCL_G_PER_MOL
"""g of sodium chloride that draw water as a gram of potassium chloride does: as many ions."""


def saturation_percent(temperature_c: ArrayLike) -> Array:
    """Strength of saturated brine in per cent, 0 to 100 C (the edge values beyond), in the shape of the
    temperatures."""
    celsius, percent = _saturation()
    return np.asarray(np.interp(np.asarray(temperature_c, dtype=float), celsius, percent))


def freezing_point_c(percent: ArrayLike) -> Array:
    """Where a brine of so many percent (0 to 23.3, beyond as 23.3) begins to freeze, C, in their shape."""
    strengths, celsius = _freezing()
    return np.asarray(np.interp(np.asarray(percent, dtype=float), strengths, celsius))


@cache
def _saturation() -> Array:
    return _columns("brine_saturation", "temperature_c", "percent")


@cache
def _freezing() -> Array:
    return _columns("brine_freezing", "percent", "freezes_c")


def _columns(table: str, *names: str) -> Array:
    return np.array(load(table, lambda row: [float(row[name]) for name in names])).T
