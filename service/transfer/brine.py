"""Salt in water: strength, density, how much dissolves, when it freezes. Any salt counts as sodium chloride.

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


def saturation_percent(temperature_c: ArrayLike) -> Array:
    """Strength of saturated brine, 0 to 100 C (the edge values beyond)."""
    celsius, percent = _saturation()
    return np.asarray(np.interp(np.asarray(temperature_c, dtype=float), celsius, percent))


def saturation_ratio(temperature_c: ArrayLike) -> Array:
    """Grams of salt that a gram of water holds at most, 0 to 100 C (the edge values beyond)."""
    share = saturation_percent(temperature_c) / 100.0
    return np.asarray(share / (1.0 - share))


def freezing_point_c(percent: ArrayLike) -> Array:
    """Where a brine of so many percent (0 to 23.3, beyond as 23.3) begins to freeze, C."""
    strengths, celsius = _freezing()
    return np.asarray(np.interp(np.asarray(percent, dtype=float), strengths, celsius))


def density_g_ml(percent: ArrayLike, temperature_c: ArrayLike = 20.0) -> Array:
    """Density of a brine of 0 to 26 % (the edge values beyond) in g/mL; good from 0 to 40 C."""
    strengths, at_20c, falls = _densities()
    percent = np.asarray(percent, dtype=float)
    fall = np.interp(percent, strengths, falls)
    cooler = 20.0 - np.asarray(temperature_c, dtype=float)
    return np.asarray(np.interp(percent, strengths, at_20c) + fall * cooler / 1000.0)


def salt_g_per_litre(percent: ArrayLike, temperature_c: ArrayLike = 20.0) -> Array:
    """Grams of salt in a litre of brine of so many percent by weight."""
    return np.asarray(10.0 * np.asarray(percent, dtype=float) * density_g_ml(percent, temperature_c))


def percent_of_g_per_litre(g_per_litre: ArrayLike, temperature_c: float = 20.0) -> Array:
    """Percent by weight of a brine that holds so many grams of salt in a litre (brine, not water)."""
    strengths = np.linspace(0.0, 26.4, 265)
    return np.asarray(
        np.interp(np.asarray(g_per_litre, dtype=float), salt_g_per_litre(strengths, temperature_c), strengths)
    )


@cache
def _densities() -> Array:
    return _columns("brine_density", "percent", "density_20c", "fall_kg_m3_k")


@cache
def _saturation() -> Array:
    return _columns("brine_saturation", "temperature_c", "percent")


@cache
def _freezing() -> Array:
    return _columns("brine_freezing", "percent", "freezes_c")


def _columns(table: str, *names: str) -> Array:
    return np.array(load(table, lambda row: [float(row[name]) for name in names])).T
