"""How flesh loses weight by how warm it gets at the core, and how soon a piece gets there.

Meat, poultry, fish and shellfish lose weight because their proteins draw together, which hangs on the
temperature and hardly on time; time is what the heat takes to the middle of a piece. Figures are rows of
core_losses.csv, cooked_through.csv and heating.csv. Times are in hours, temperatures in C.
"""

from __future__ import annotations

import math
from functools import cache, lru_cache

import numpy as np

from ..core.sourced import SourcedFigure, figures
from ..core.spread import Spread
from ..diffusion.geometry import DIMENSIONS, Body
from .core_heat import Heating, figure, surroundings

FLESH = ("meat", "poultry", "fish", "shellfish")
"""Kinds, as `pot_kinds` has them, whose loss goes by the temperature at their core."""

AT_CORE_HALF_H = 0.01
"""What was measured to be so warm at its core at the end of a step is there: it nears it within minutes."""

GROUND = "ground"
"""The finer kind of minced flesh, whose gel holds part of the juice."""
_LOSES_AS = {"shellfish": "fish"}


def is_flesh(kind: str | None) -> bool:
    """Whether a kind, or the kind of a finer one ("meat/lamb"), loses weight by its core."""
    return (kind or "").partition("/")[0] in FLESH


@cache
def _losses(kind: str) -> tuple[tuple[float, ...], tuple[SourcedFigure, ...]]:
    rows = {
        float(at): row
        for (of, at), row in figures("core_losses", "kind", "temperature_c").items()
        if of == kind
    }
    return tuple(rows), tuple(rows.values())


@lru_cache(maxsize=1024)
def core_weight(kind: str, core_c: float) -> SourcedFigure:
    """What is left of the weight of raw flesh that is so warm at its core, as a share; the source is that of
    the nearest row. kind: one that `is_flesh`."""
    of, _, finer = kind.partition("/")
    celsius, losses = _losses(finer if finer == GROUND else _LOSES_AS.get(of, of))
    ends = ("high", "likely", "low")
    left = (
        1 - float(np.interp(core_c, celsius, [getattr(row.spread, end) for row in losses])) for end in ends
    )
    nearest = min(range(len(celsius)), key=lambda at: abs(celsius[at] - core_c))
    if core_c < celsius[0]:
        share = max(core_c / celsius[0], 0.0)
        left = (1 - (1 - each) * share for each in left)
    return SourcedFigure(Spread(*left), losses[nearest].source)


def cooked_through(method: str) -> SourcedFigure:
    """Hours in which a piece of no stated size has lost half of what it loses. method: pot, steam, roast or
    fry."""
    return figures("cooked_through", "method")[method]


@lru_cache(maxsize=512)
def warming_half_h(body: Body, heating: Heating) -> float:
    """Hours in which a piece of stated size has lost half of what it loses: until its middle is half done.

    The slowest eigenmode of the body and what the surface holds back, one after the other: the series of
    `core_heat` joined into one time. Raises KeyError for a kind that is not known.
    """
    l_m = body.thickness_cm / 200
    biot = figure("surface", heating.kind).spread.likely * l_m / figure("conductivity", "any").spread.likely
    passes = sum(DIMENSIONS[shape] * biot / size for shape, size in body.factors)
    start, around = figure("start", "any").spread.likely, surroundings(heating).likely
    done = figure("half_done", "any").spread.likely
    half_done = min(done, start + (around - start) / 2) if around > start else start
    lag = math.log(max((around - start) / max(around - half_done, 1e-9), 1.0)) if around > start else math.inf
    inside = 1 / float(body.compartments.rates[0]) + 1 / passes
    diffusivity = figure("diffusivity", "any").spread.likely * 1e-7
    return lag * inside * l_m**2 / diffusivity / 3600
