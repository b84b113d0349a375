"""The decaying modes of diffusion between a piece of food and a stirred bath of limited volume.

Owns roots and weights for sheet, cylinder and sphere (Crank 1975, eqs. 4.37-4.41, 5.33-5.36, 6.29-6.32),
written in held = 1 / (1 + alpha), the share of all solute that the food holds at equilibrium, so that an
endless bath (held = 0) needs no special case. Leaves out times (`curves`).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Shape = Literal["sheet", "cylinder", "sphere"]
SHAPES: tuple[Shape, ...] = ("sheet", "cylinder", "sphere")

MODES = 14
"""Modes kept in the tables: enough for Fourier numbers from 0.005 up (the rest is below 1e-7)."""
BATHS = 112
"""Steps from row to row of the tables, from no bath to an endless one."""
_WHOLE = 1.0 + 1e-12
"""All of the solute, and a trace over: no bath at all is then no division by zero."""
_DIMENSIONS = {"sheet": 1.0, "cylinder": 2.0, "sphere": 3.0}


@dataclass(frozen=True, slots=True, eq=False)
class Modes:
    """Arrays of shape (baths, modes). What a mode still lacks of equilibrium at the Fourier number T is
    weight * exp(-root^2 T), with weight `mean` for the mean and `centre` for the centre."""

    roots: Array
    mean: Array
    centre: Array


def modes(held: Array, shape: Shape, count: int) -> Modes:
    """The first `count` modes for each share `held` (0 to 1) of a one-dimensional array.

    Raises ValueError for an unknown shape.
    """
    if shape not in _DIMENSIONS:
        raise ValueError(f"unknown shape {shape!r}: use one of {', '.join(SHAPES)}")
    number = np.arange(1, count + 1, dtype=float)
    share, left = held[:, None], 1.0 - held[:, None]
    roots = {"sheet": _sheet_roots, "cylinder": _cylinder_roots, "sphere": _sphere_roots}[shape](
        share, number
    )
    d = _DIMENSIONS[shape]
    norm = d * d * share + (left * roots) ** 2
    signs = np.where(number % 2 == 1, 1.0, -1.0)
    return Modes(roots, 2.0 * d * left / norm, signs * _centre_size(share, left, roots, shape) / norm)


def _centre_size(share: Array, left: Array, q: Array, shape: Shape) -> Array:
    """norm * (mean weight / alpha) * (centre over surface of the mode), with no division by zero."""
    if shape == "sheet":
        return 2.0 * np.hypot(share, left * q)
    if shape == "sphere":
        return 2.0 * np.hypot(3.0 * share + left * q * q, 3.0 * share * q)
    j0, j1 = bessel_j(q)
    return 2.0 * np.hypot(2.0 * share, left * q) / np.hypot(j0, j1)


def _sheet_roots(share: Array, number: Array) -> Array:
    """tan q = -alpha q, by Newton's rule from the left (monotone: the phase is concave)."""
    left = 1.0 - share
    q = (number - 0.5) * np.pi + 0.0 * share
    for _ in range(7):
        phase = q - number * np.pi + np.arctan2(left * q, share)
        q = q - phase / (1.0 + left * share / (share**2 + (left * q) ** 2))
    return q


def _sphere_roots(share: Array, number: Array) -> Array:
    """tan q = 3 q / (3 + alpha q^2), by Newton's rule on the phase."""
    left = 1.0 - share
    q = (number + 0.25) * np.pi + 0.0 * share
    for _ in range(7):
        up, along = 3.0 * share * q, 3.0 * share + left * q * q
        slope = 1.0 - (3.0 * share * along - up * 2.0 * left * q) / (up * up + along * along)
        q = q - (q - number * np.pi - np.arctan2(up, along)) / slope
    return q


def _cylinder_roots(share: Array, number: Array) -> Array:
    """alpha q J0(q) + 2 J1(q) = 0, by Newton's rule from the roots of the functions' far forms."""
    left = 1.0 - share
    q = number * np.pi + 0.0 * share
    for _ in range(6):
        q = (number + 0.25) * np.pi - np.arctan2(left * q, 2.0 * share)
    for _ in range(3):
        j0, j1 = bessel_j(q)
        slope = left * (j0 - q * j1) + 2.0 * share * (j0 - j1 / q)
        q = q - (left * q * j0 + 2.0 * share * j1) / slope
    return q


def bessel_j(x: Array) -> tuple[Array, Array]:
    """J0 and J1 by Bessel's integral; the midpoint rule is exact to rounding once it outnumbers x."""
    points = int(np.max(x, initial=0.0) / 2.0) + 16
    angle = (np.arange(points) + 0.5) * (np.pi / (2.0 * points))
    sine = np.sin(angle)
    j0, j1 = np.zeros_like(x), np.zeros_like(x)
    for height in sine:
        j0 += np.cos(x * height)
        j1 += np.sin(x * height) * height
    return j0 / points, j1 / points


def eigenfunction(q: Array, position: Array, shape: Shape) -> Array:
    """A mode's height at `position` (0 centre, 1 surface), 1 at the centre."""
    at = q * position
    if shape == "sheet":
        return np.asarray(np.cos(at))
    if shape == "sphere":
        return np.asarray(np.sinc(at / np.pi))
    return bessel_j(at)[0]


def bath_left(alpha: Any) -> Any:
    """1 - held, the share of all solute left to the bath at equilibrium: from 1e-12 for no bath up to 1."""
    return _WHOLE - 1.0 / (1.0 + alpha)


def bath_rows() -> Array:
    """1 - held at the rows of the tables: its root in even steps from 0 to 1, and the last row once more."""
    return np.minimum(np.arange(BATHS + 2) / BATHS, 1.0) ** 2


@cache
def bath_modes(shape: Shape) -> Modes:
    """The modes at the rows of the tables. Raises ValueError for an unknown shape."""
    return modes(1.0 - bath_rows(), shape, MODES)


@cache
def centre_table(shape: Shape) -> Array:
    """root^2 and weight at the centre for the rows of the tables: shape (2, MODES, BATHS + 2)."""
    found = bath_modes(shape)
    table = np.stack((found.roots.T**2, found.centre.T))
    table.setflags(write=False)
    return table
