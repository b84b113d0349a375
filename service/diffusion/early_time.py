"""Uptake before the fronts from opposite faces meet, from a stirred bath of limited volume.

Crank (1975), eqs. 4.43, 5.37 and 6.33, brought to one form: each shape's mean answers a unit step at its
surface with k (p - b) / (p (p - c)), p the root of Laplace's s. Exact for sheet and sphere but for terms
of exp(-1/T); for the cylinder I1/I0 is taken as (p - 3/4) / (p - 1/4), good to T^2 / 10.
"""

from __future__ import annotations

import math
from functools import cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

_RESPONSE = {"sheet": (1.0, 0.0, 0.0), "cylinder": (2.0, 0.75, 0.25), "sphere": (3.0, 1.0, 0.0)}
_STEPS = 1024
_WIDEST = 1.5
_SERIES = [(-1) ** (n + 1) / math.gamma(n / 2 + 1) for n in range(1, 40)]
"""Terms of the ramp by powers of x."""


def mean_at_short_times(time: Array, bath: Array, shape: str) -> Any:
    """Mean as a share of equilibrium for Fourier numbers up to about 0.05, alpha 1e-8 to 1e8."""
    k, b, c = _RESPONSE[shape]
    middle = k - bath * c
    larger = middle + np.copysign(np.sqrt(middle * middle + 4.0 * bath * k * b), middle)
    first, second = larger / (-2.0 * bath), 2.0 * k * b / larger
    root = np.sqrt(time)
    grown = (first - b) * _ramp(-first * root)
    if b:
        grown = grown - (second - b) * _ramp(-second * root)
    return (1.0 + bath) * k * root * grown / (bath * (first - second))


def surface_layer_profile(time: float, bath: float, positions: Array) -> Array:
    """Concentration over that at equilibrium, the piece taken as endlessly deep and flat."""
    if time == 0.0:
        return np.where(positions < 1.0, 0.0, 1.0 + 1.0 / bath)
    root = math.sqrt(time)
    depth = (1.0 - positions) / (2.0 * root)
    still = depth + root / bath
    scaled = 1.0 - still * _ramp(still)
    return np.asarray((1.0 + 1.0 / bath) * np.exp(-np.minimum(depth * depth, 700.0)) * scaled)


def _ramp(x: Array) -> Any:
    """(1 - exp(x^2) erfc(x)) / x for x from -0.3 up, smooth through 0; from a table of cubics."""
    at = np.minimum(1.0 / (1.0 + x), _WIDEST) * (_STEPS / _WIDEST)
    row = np.minimum(at.astype(np.intp), _STEPS - 1)
    part = at - row
    c0, c1, c2, c3 = _ramp_table()[:, row]
    return ((c3 * part + c2) * part + c1) * part + c0


@cache
def _ramp_table() -> Array:
    """Cubics of the ramp by even steps of 1 / (1 + x)."""
    inverse = np.linspace(0.0, _WIDEST, _STEPS + 1)
    pairs = [(0.0, 1.0)] + [_ramp_and_slope(1.0 / part - 1.0) for part in inverse[1:].tolist()]
    value = np.array([pair[0] for pair in pairs])
    step = inverse[1]
    slope = np.array([pair[1] for pair in pairs]) * step
    return cubics_through(value, slope)


def cubics_through(heights: Array, slopes: Array) -> Array:
    """Cubics from node to node along the last axis, by heights and slopes: coefficients, lowest first."""
    rise, before, after = np.diff(heights), slopes[..., :-1], slopes[..., 1:]
    return np.stack((heights[..., :-1], before, 3 * rise - 2 * before - after, before + after - 2 * rise))


def _ramp_and_slope(x: float) -> tuple[float, float]:
    """The ramp and its slope by 1 / (1 + x)."""
    if abs(x) < 0.5:
        value = sum(term * x**n for n, term in enumerate(_SERIES))
        slope = sum(n * term * x ** (n - 1) for n, term in enumerate(_SERIES) if n)
    else:
        decay = _scaled_erfc(x)
        value = (1.0 - decay) / x
        slope = (2.0 / math.sqrt(math.pi) - 2.0 * x * decay - value) / x
    return value, -slope * (1.0 + x) ** 2


def _scaled_erfc(x: float) -> float:
    """exp(x^2) erfc(x) for x of 0.5 or more; its asymptotic series from 8 on."""
    if x < 8.0:
        return math.exp(x * x) * math.erfc(x)
    term = total = 1.0
    for n in range(1, 12):
        term *= -(2 * n - 1) / (2.0 * x * x)
        total += term
    return total / (x * math.sqrt(math.pi))
