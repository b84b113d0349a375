"""How warm a piece of food is at its centre after so long in the heat: conduction, for the rules of safety.

Pieces begin even, and pass heat at their surface by a coefficient (Newton's law of cooling): the series of
Carslaw and Jaeger, Conduction of Heat in Solids (2nd ed. 1959), sections 3.11, 7.7 and 9.4; bodies with edges
are products. All figures are rows of heating.csv. Temperatures are in C, times in h, lengths in cm.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from ..core.sourced import SourcedFigure, figures
from ..core.spread import Spread
from ..diffusion.eigenmodes import Array, Shape, bessel_j
from ..diffusion.geometry import Body
from ..safety.centre import WET, CentreCourse

_ROOTS, _POINTS = 8, 60
ANY = "any"
_IN_WATER_C = 100.0
"""Water and steam at the pressure of the kitchen are no hotter."""


@dataclass(frozen=True, slots=True)
class Heating:
    """One step of heat. surroundings_c: of water, steam or oven; None: as such steps usually are. kind: of
    the step."""

    kind: str
    surroundings_c: float | None
    hours: float


def is_known(kind: str, temperature_c: float | None) -> bool:
    """Whether it can be worked out for a kind of step: where the table says how heat passes, and how warm it
    is where nobody says."""
    table = figures("heating", "what", "kind")
    return ("surface", kind) in table and (temperature_c is not None or ("surroundings", kind) in table)


@lru_cache(maxsize=512)
def centre_course(
    heatings: tuple[Heating, ...], food_class: str, body: Body, thickness: Spread, *, is_sized: bool = False
) -> CentreCourse:
    """The centre of a piece through steps of heat, one after another. body: at the likely thickness, of
    which the ends of the range differ by `thickness` (cm). Raises KeyError for a kind that is not known."""
    slower, faster = _reach(food_class, thickness)
    start = figure("start", ANY).spread
    ends: tuple[tuple[float, float, Callable[[Spread], float]], ...] = (
        (1 / slower, start.low, lambda spread: spread.low),
        (1.0, start.likely, lambda spread: spread.likely),
        (faster, start.high, lambda spread: spread.high),
    )
    minutes = [0.0]
    for each in heatings:
        minutes += (minutes[-1] + 60 * each.hours * np.linspace(0, 1, _POINTS + 1)[1:]).tolist()
    diffusivity = figure("diffusivity", food_class).spread.likely * 1e-7
    courses = []
    for pace, begin_c, end_of in ends:
        celsius = [begin_c]
        for each in heatings:
            surface = end_of(figure("surface", each.kind).spread)
            l_m = body.thickness_cm / 200
            biot = surface * l_m / figure("conductivity", ANY).spread.likely
            times = each.hours * 3600 * np.linspace(0, 1, _POINTS + 1)[1:]
            lag = _lag(body, biot, diffusivity * pace * times / l_m**2)
            around = end_of(surroundings(each))
            celsius += (around - (around - celsius[-1]) * lag).tolist()
        courses.append(tuple(celsius))
    slow, likely, fast = courses
    return CentreCourse(tuple(minutes), slow, likely, fast, is_sized)


def surroundings(heating: Heating) -> Spread:
    """°C around the food. Raises KeyError where nobody says and nothing is usual."""
    if heating.surroundings_c is None:
        return figures("heating", "what", "kind")["surroundings", heating.kind].spread
    is_wet = heating.kind in WET
    return Spread.exact(min(heating.surroundings_c, _IN_WATER_C) if is_wet else heating.surroundings_c)


def _reach(food_class: str, thickness: Spread) -> tuple[float, float]:
    """How many times slower and faster than likely heat may pass, by two independent causes."""
    d = figure("diffusivity", food_class).spread
    slow = math.hypot(math.log(d.likely / d.low), 2 * math.log(thickness.high / thickness.likely))
    fast = math.hypot(math.log(d.high / d.likely), 2 * math.log(thickness.likely / thickness.low))
    return math.exp(slow), math.exp(fast)


def _lag(body: Body, biot: float, fourier: Array) -> Array:
    """What the centre lacks of its surroundings, 1 at the start. Skin does not hold heat back."""
    lag = np.ones_like(fourier)
    for shape, size in Body(body.shape, body.thickness_cm, body.length_cm, body.width_cm).factors:
        roots, weights = _modes(shape, round(biot * size, 6))
        lag *= np.minimum(np.exp(-np.outer(fourier / size**2, roots**2)) @ weights, 1.0)
    return lag


@lru_cache(maxsize=512)
def _modes(shape: Shape, biot: float) -> tuple[Array, Array]:
    """The first roots and their heights at the centre."""
    if shape == "sheet":
        low = np.pi * np.arange(_ROOTS, dtype=np.float64)
        roots = _roots(low, low + np.pi / 2, lambda b: b * np.sin(b) - biot * np.cos(b))
        return roots, 4 * np.sin(roots) / (2 * roots + np.sin(2 * roots))
    if shape == "sphere":
        low = np.pi * np.arange(_ROOTS, dtype=np.float64)
        roots = _roots(low, low + np.pi, lambda b: (1 - biot) * np.sin(b) - b * np.cos(b))
        return roots, 4 * (np.sin(roots) - roots * np.cos(roots)) / (2 * roots - np.sin(2 * roots))

    def lacking(b: Array) -> Array:
        j0, j1 = bessel_j(b)
        return np.asarray(b * j1 - biot * j0)

    zeros = [0.0, *(_zero_of_j1(n) for n in range(1, _ROOTS + 1))]
    roots = _roots(np.array(zeros[:-1]), np.array(zeros[1:]), lacking)
    j0, j1 = bessel_j(roots)
    return roots, 2 / roots * j1 / (j0**2 + j1**2)


def _zero_of_j1(n: int) -> float:
    """McMahon's expansion, close enough to part the roots."""
    beta = (n + 0.25) * math.pi
    return beta - 3 / (8 * beta) + 36 / (3 * (8 * beta) ** 3)


def _roots(low: Array, high: Array, of: Callable[[Array], Array]) -> Array:
    """By bisection: each of so many functions changes its sign once between low and high."""
    low, high = low + 1e-9, high - 1e-9
    sign = np.sign(of(low))
    for _ in range(60):
        middle = 0.5 * (low + high)
        is_left = np.sign(of(middle)) == sign
        low, high = np.where(is_left, middle, low), np.where(is_left, high, middle)
    return np.asarray(0.5 * (low + high))


def figure(what: str, kind: str) -> SourcedFigure:
    table = figures("heating", "what", "kind")
    return table.get((what, kind)) or table[what, ANY]
