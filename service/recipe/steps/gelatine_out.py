"""Bones in a pot: their collagen dissolves as gelatine."""

from __future__ import annotations

import math

import numpy as np

from ...core.spread import Draws
from ...transfer.handling_figures import gelatine_of
from ...transfer.pots import BOILING_C, cooking_course
from ..pool_rows import WEIGHT
from ..pools import TRACE
from .nature import yield_kind
from .work import Work

_TENTH_C = 30.0
"""Degrees that slow the dissolving of collagen to a tenth: from memory, as other reactions of cooking."""


def give_gelatine(work: Work, raw_g: Draws) -> None:
    """Let gelatine go into the pot of a step, towards an end that the food has once. raw_g: what the food
    weighed before any heat."""
    step, history, figures = work.step, work.history, gelatine_of(yield_kind(work))
    if figures is None:
        return
    most = work.assume("gelatine", figures.most, "g/g", shared=f"{yield_kind(work)}/gelatine")
    usual_h = cooking_course(yield_kind(work), step.kind).usual_h
    hours = usual_h if step.duration_h is None else step.duration_h
    warmth_c = BOILING_C if step.temperature_c is None else min(step.temperature_c, BOILING_C)
    pace = math.log(2) * hours / figures.half_h * 10 ** ((warmth_c - BOILING_C) / _TENTH_C)
    before_g = np.maximum(work.pool[WEIGHT], TRACE).copy()
    left_g = np.maximum(most * raw_g - history.gelatine * before_g, 0.0)
    given_g = np.minimum(left_g * -math.expm1(-pace), work.dry_g)
    work.pools.move_protein(work.name, step.bath or "", given_g, step.index)
    after_g = np.maximum(work.pool[WEIGHT], TRACE)
    history.weigh_again(before_g, after_g)
    for name, sign in (("gelatine", 1.0), ("dissolved", -1.0), ("boiled_in", -1.0)):
        setattr(history, name, getattr(history, name) + sign * given_g / after_g)
    if work.name in work.state.served:
        work.check(
            "bones-eaten",
            f"{work.name!r} is bones and is taken to be eaten. Where they are thrown away, state "
            "eaten_fraction 0.",
        )
