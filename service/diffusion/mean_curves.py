"""The mean of a piece over all times and all baths, read off one table a shape.

Owns the exact curve (the early-time solution, then the sum of eigenmodes), the table made of it when a shape
is first asked for, and its reading. Leaves out the parts of the curve (`short_times`, `eigenmodes`) and what
the numbers mean (`curves`). The table holds sqrt(mean) over two coordinates, both from 0 to 1:

    width = sqrt(left), left = alpha / (1 + alpha)
    along = sqrt(s) / (width + sqrt(left + s)), s = sqrt(fourier)

Early uptake goes by s / left in every bath. Along is tan(arctan(sqrt(s / left)) / 2), of which sqrt(mean) is
an odd function at first: so nearly a straight line that the smallest shares come out exact. The smaller a
bath, the sooner it is done; by along they are all done at much the same place.
"""

from __future__ import annotations

from functools import cache
from typing import Any

import numpy as np

from .early_time import cubics_through, mean_at_short_times
from .eigenmodes import BATHS, Array, Shape, bath_left, bath_modes, bath_rows

_TIMES = 96
_ROW_AND_NEXT = np.array((0, _TIMES))
_JOIN = 0.005
"""The modes are summed from this Fourier number on; up to it the short-time form is within 2e-5."""
_ENDLESS = 1e30
"""Stands for an endless time: along comes to within 1e-7 of 1 and stays in the last cell."""


def tabulated_mean(time: Array, bath: Array, shape: Shape) -> Any:
    """Mean as a share of equilibrium, within 1e-4 of itself; `time` and `bath` (alpha) 0 to inf, broadcast.

    Cubic in `along`, with slopes that keep it rising, and linear in `width`. Raises ValueError for an unknown
    shape.
    """
    left = bath_left(bath)
    width = np.sqrt(left)
    across = width * BATHS
    row = across.astype(np.intp)
    pace = np.sqrt(np.minimum(time, _ENDLESS))
    along = np.sqrt(pace) / (width + np.sqrt(left + pace)) * _TIMES
    cell = along.astype(np.intp)
    part = along - cell
    c0, c1, c2, c3 = _cubics(shape).take(np.add.outer(_ROW_AND_NEXT, row * _TIMES + cell), axis=1)
    smaller, larger = ((c3 * part + c2) * part + c1) * part + c0
    root = smaller + (larger - smaller) * (across - row)
    return root * root


@cache
def _cubics(shape: Shape) -> Array:
    """Four coefficients for each cell of each bath: shape (4, baths * cells), lowest power first."""
    heights = _roots_of_means(shape)
    table = cubics_through(heights, _slopes(heights)).reshape(4, -1)
    table.setflags(write=False)
    return table


def _roots_of_means(shape: Shape) -> Array:
    """sqrt(mean) at the nodes: shape (baths, cells + 1), the last column the end of time."""
    left = np.maximum(bath_rows(), 1e-8)[:, np.newaxis]
    along = np.arange(_TIMES) / _TIMES
    time = (left * (2.0 * along / (1.0 - along**2)) ** 2) ** 2
    means = _exact_mean(time, left / np.maximum(1.0 - left, 1e-8), shape)
    return np.sqrt(np.pad(means, ((0, 0), (0, 1)), constant_values=1.0))


def _exact_mean(time: Array, bath: Array, shape: Shape) -> Array:
    """The mean at `time` (baths, times) for the baths of the table, `bath` (baths, 1)."""
    found = bath_modes(shape)
    late = np.maximum(time, _JOIN)[..., np.newaxis]
    missing = (found.mean[:, np.newaxis] * np.exp(-(found.roots[:, np.newaxis] ** 2) * late)).sum(axis=-1)
    early: Array = mean_at_short_times(np.minimum(time, _JOIN), bath, shape)
    return np.where(time < _JOIN, early, 1.0 - missing)


def _slopes(heights: Array) -> Array:
    """Slopes at the nodes, a cell as the unit: by four neighbours, and no steeper than rising cubics allow.

    The heights go on as an odd function before the start and as an even one after the end.
    """
    seen = np.concatenate((-heights[:, 2:0:-1], heights, heights[:, -2:-4:-1]), axis=1)
    slopes = (8.0 * (seen[:, 3:-1] - seen[:, 1:-3]) - (seen[:, 4:] - seen[:, :-4])) / 12.0
    rises = np.abs(np.diff(seen, axis=1))
    return np.clip(slopes, 0.0, 3.0 * np.minimum(rises[:, 1:-2], rises[:, 2:-1]))
