"""The modes of diffusion in a piece whose surface stands still: plane sheet, cylinder and sphere.

What a piece lacks of its surface at the Fourier number T is a sum of modes, each fading as exp(-root^2 T)
(Crank, The Mathematics of Diffusion, 2nd ed. 1975, eqs. 4.17, 5.22 and 6.18)."""

from __future__ import annotations

from typing import Literal

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Shape = Literal["sheet", "cylinder", "sphere"]
SHAPES: tuple[Shape, ...] = ("sheet", "cylinder", "sphere")


def roots_and_weights(shape: Shape, count: int) -> tuple[Array, Array]:
    """The first `count` roots, and what each mode has at the centre of an even piece at the start: (count,)
    each, without unit."""
    number = np.arange(1, count + 1, dtype=float)
    signs = np.where(number % 2 == 1, 1.0, -1.0)
    if shape == "sheet":
        roots = (number - 0.5) * np.pi
        return roots, signs * 2.0 / roots
    if shape == "sphere":
        return number * np.pi, signs * 2.0
    roots = (number - 0.25) * np.pi
    roots += 1.0 / (8.0 * roots)
    for _ in range(4):
        j0, j1 = bessel_j(roots)
        roots = roots + j0 / j1
    return roots, 2.0 / (roots * bessel_j(roots)[1])


def eigenfunction(root: Array, position: Array, shape: Shape) -> Array:
    """A mode's height at `position` (0 centre, 1 surface), 1 at the centre; roots and positions of shapes
    that broadcast."""
    at = root * position
    if shape == "sheet":
        return np.asarray(np.cos(at))
    if shape == "sphere":
        return np.asarray(np.sinc(at / np.pi))
    return bessel_j(at)[0]


def bessel_j(x: Array) -> tuple[Array, Array]:
    """J0 and J1 of x (0 or more), in its shape, by Bessel's integral; the midpoint rule is exact to rounding
    once it outnumbers x."""
    points = int(np.max(x, initial=0.0) / 2.0) + 16
    angle = (np.arange(points) + 0.5) * (np.pi / (2.0 * points))
    j0, j1 = np.zeros_like(x), np.zeros_like(x)
    for height in np.sin(angle):
        j0 += np.cos(x * height)
        j1 += np.sin(x * height) * height
    return j0 / points, j1 / points
