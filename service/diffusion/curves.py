"""Fick's second law in a piece of food in a stirred bath of limited volume: how far along uptake is.

Owns the curves of Crank, The Mathematics of Diffusion, 2nd ed. (1975), for the plane sheet (4.3.5), the
cylinder (5.3.3) and the sphere (6.3.3). Leaves out how the mean is tabulated (`mean_curves`), what the food
and solute are (`transfer.diffusivity`), bodies with edges (`geometry`) and amounts (`absorption`).

fourier = D t / l^2 (l: half the thickness of a sheet, the radius of a cylinder or sphere), 0 to inf.
alpha = what the bath holds over what the food holds at one concentration (for a solute of the water phase:
bath water / food water), above 0, inf for a bath that never weakens; 1 / (1 + alpha) of all solute is in
the food at equilibrium. Answers are shares of the equilibrium concentration, 0 to 1. The curves hold for
desalting as well: they then tell how much of the way out is done.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import lru_cache
from typing import Any, Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from .early_time import surface_layer_profile
from .eigenmodes import BATHS, MODES, Shape, bath_left, centre_table, eigenfunction, modes
from .mean_curves import tabulated_mean

Reached = NDArray[np.float64]
Where = Literal["mean", "centre"]
Curve = Callable[[NDArray[np.float64], NDArray[np.float64]], NDArray[np.float64]]

_FIRST_AT_CENTRE, _FULLY_AT_CENTRE = 0.013, 0.02
"""Between these Fourier numbers the sum of modes at the centre, good to 3e-5, is let in from nothing."""
_LONGEST = 60.0
"""No shape, bath or place is short of equilibrium by more than 1e-30 at this Fourier number."""


def mean_reached(fourier: ArrayLike, alpha: ArrayLike, shape: Shape = "sheet") -> Reached:
    """Mean concentration of the piece as a share of equilibrium; broadcasts `fourier` and `alpha`.

    Rises with `fourier` from 0 to 1, within 0.01 % of the exact series. Raises ValueError for a negative or
    undefined `fourier` or `alpha`, or an unknown `shape`.
    """
    time, bath = np.asarray(fourier, dtype=float), np.asarray(alpha, dtype=float)
    _check(_least(time), _least(bath))
    return np.asarray(tabulated_mean(time, bath, shape))


def centre_reached(fourier: ArrayLike, alpha: ArrayLike, shape: Shape = "sheet") -> Reached:
    """Concentration at the centre as a share of equilibrium; broadcasts `fourier` and `alpha`.

    Below a Fourier number of 0.013 less than 1e-5 has come to the centre: that is given as 0. From 0.02 on
    the error is below 3e-5. Raises ValueError as `mean_reached` does.
    """
    if isinstance(fourier, float) and isinstance(alpha, float):
        return np.asarray(_centre_at(float(fourier), float(alpha), shape))
    time, bath = np.asarray(fourier, dtype=float), np.asarray(alpha, dtype=float)
    _check(_least(time), _least(bath))
    late = np.maximum(time, _FIRST_AT_CENTRE)
    share = (1.0 - _centre_missing(late, bath, shape)) * _let_in(np.minimum(late, _FULLY_AT_CENTRE))
    return np.asarray(np.minimum(np.maximum(share, 0.0), 1.0))


def _centre_at(fourier: float, alpha: float, shape: Shape) -> float:
    """`centre_reached` for one time and one bath, for which arrays would cost ten times as much."""
    _check(fourier, alpha)
    late = max(fourier, _FIRST_AT_CENTRE)
    across = math.sqrt(bath_left(alpha)) * BATHS
    row = int(across)
    part, missing = across - row, 0.0
    pairs = centre_table(shape)[:, : _modes_needed(late), row : row + 2].tolist()
    for (rate, next_rate), (weight, next_weight) in zip(*pairs, strict=True):
        decay = math.exp(-(rate + (next_rate - rate) * part) * late)
        missing += (weight + (next_weight - weight) * part) * decay
    share = (1.0 - missing) * float(_let_in(min(late, _FULLY_AT_CENTRE)))
    return min(max(share, 0.0), 1.0)


def reached(fourier: ArrayLike, alpha: ArrayLike, shape: Shape, where: Where) -> Reached:
    """`mean_reached` or `centre_reached`, by name."""
    return (mean_reached if where == "mean" else centre_reached)(fourier, alpha, shape)


def profile(fourier: ArrayLike, alpha: float, shape: Shape, positions: ArrayLike) -> Reached:
    """Concentration as a share of equilibrium at `positions`, 0 the centre and 1 the surface.

    For one bath; shape: that of `positions`, then that of `fourier`. The surface stands above 1 while the
    bath is still stronger than it will be. Raises ValueError as `mean_reached` does, or for a position
    outside 0 to 1.
    """
    time, bath = np.asarray(fourier, dtype=float), min(max(float(alpha), 1e-8), 1e8)
    _check(_least(time), alpha)
    places = np.asarray(positions, dtype=float)
    if np.any((places < 0) | (places > 1)):
        raise ValueError("positions run from 0 (centre) to 1 (surface)")
    roots, waves = _waves(bath, shape, tuple(places.ravel().tolist()))
    profiles = [_profile_at(each, bath, places.ravel(), roots, waves) for each in time.ravel().tolist()]
    return np.stack(profiles, axis=-1).reshape(places.shape + time.shape)


@lru_cache(maxsize=64)
def _waves(bath: float, shape: Shape, positions: tuple[float, ...]) -> tuple[Reached, Reached]:
    """Roots, and each mode's height at each position as it stands at the start."""
    found = modes(np.array([1.0 / (1.0 + bath)]), shape, 64)
    at = np.array(positions)[:, np.newaxis]
    return found.roots[0], eigenfunction(found.roots[0], at, shape) * found.centre[0]


def _profile_at(time: float, bath: float, places: Reached, roots: Reached, waves: Reached) -> Reached:
    if time < 5e-4:
        return surface_layer_profile(time, bath, places)
    return np.maximum(1.0 - waves @ np.exp(-(roots**2) * time), 0.0)


def fourier_for(
    share: ArrayLike, alpha: ArrayLike, shape: Shape = "sheet", where: Where = "centre"
) -> Reached:
    """The Fourier number at which the centre (or the mean) has reached `share` of equilibrium.

    0 for a share of 0 or less, inf for 1 or more; between, `reached` comes back to the share within 1e-5.
    Broadcasts. Raises ValueError as `mean_reached` does.
    """
    return invert(lambda time, bath: reached(time, bath, shape, where), share, alpha)


def invert(curve: Curve, share: ArrayLike, alpha: ArrayLike) -> Reached:
    """The Fourier number at which `curve(fourier, alpha)`, which rises from 0 to 1, comes to `share`.

    Secants, kept inside a shrinking bracket, on the log odds of the share against ln(fourier), where the
    curves are nearly straight. Edges as for `fourier_for`.
    """
    wanted, bath = np.broadcast_arrays(np.asarray(share, dtype=float), np.asarray(alpha, dtype=float))
    if np.isnan(wanted).any():
        raise ValueError("share is not a number")
    inside = (wanted > 0) & (wanted < 1)
    target = log_odds(np.where(inside, wanted, 0.5))
    low, high = np.full(wanted.shape, math.log(1e-12)), np.full(wanted.shape, math.log(_LONGEST))
    last, at = np.full(wanted.shape, math.log(0.03)), np.full(wanted.shape, math.log(0.4))
    last_gap = log_odds(curve(np.exp(last), bath)) - target
    for turn in range(60):
        gap = log_odds(curve(np.exp(at), bath)) - target
        if np.all(np.abs(gap) < 1e-7):
            break
        low, high = np.where(gap < 0, at, low), np.where(gap < 0, high, at)
        rise = np.where(gap == last_gap, 1.0, gap - last_gap)
        step = at - gap * (at - last) / rise
        usable = (step > low) & (step < high) & (gap != last_gap) & (turn < 12)
        last, last_gap, at = at, gap, np.where(usable, step, 0.5 * (low + high))
    return np.where(inside, np.exp(at), np.where(wanted <= 0, 0.0, np.inf))


def log_odds(share: Any) -> Any:
    """ln(share / (1 - share)), with the ends taken as 1e-13 short of 0 and 1."""
    safe = np.minimum(np.maximum(share, 1e-13), 1.0 - 1e-13)
    return np.log(safe / (1.0 - safe))


def _check(fourier: float, alpha: float) -> None:
    if not (fourier >= 0 and alpha >= 0):
        raise ValueError("fourier and alpha must be numbers of 0 or more")


def _least(values: Reached) -> float:
    """The least value, or NaN if there is one; looked up by its place, at a third of what `min` costs."""
    return float(values.item(values.argmin())) if values.size else 0.0


def _let_in(time: Any) -> Any:
    """0 at the first of the two times at the centre, 1 at the second, a smooth step between."""
    along = (time - _FIRST_AT_CENTRE) / (_FULLY_AT_CENTRE - _FIRST_AT_CENTRE)
    return along * along * (3.0 - 2.0 * along)


def _centre_missing(time: Reached, bath: Reached, shape: Shape) -> Any:
    """What the centre is still short of equilibrium: the sum of the decaying modes, from the table."""
    table = centre_table(shape)[:, : _modes_needed(float(time.min(initial=_LONGEST)))]
    across = (np.sqrt(bath_left(bath)) * BATHS).reshape((1,) * (time.ndim - bath.ndim) + bath.shape)
    row = across.astype(np.intp)
    here = table.take(row, axis=-1)
    here += (table.take(row + 1, axis=-1) - here) * (across - row)
    return (np.exp(-here[0] * time) * here[1]).sum(axis=0)


def _modes_needed(time: float) -> int:
    """How many modes are above 1e-9 or so at this Fourier number; root n is never below (n - 1/2) pi."""
    return min(MODES, int(math.sqrt(20.0 / time) / math.pi) + 2)
