"""Figures that a step states or measured in the kitchen: they come before any model."""

from __future__ import annotations

import numpy as np

from ..units.spread import Draws, Spread
from .bench import Bench
from .exchange import with_companions
from .kitchen import SODIUM, WEIGHT, ratio
from .request import StepRequest

MEASURED = "measured in the kitchen"
STATED = "stated by the caller"


def named(step: StepRequest, place: str, what: str) -> str:
    """The id of an assumption: the step, the component and the figure."""
    return f"step-{step.index}/{place}/{what}"


def weight_ratio(step: StepRequest, bench: Bench, place: str, what: str) -> Draws | None:
    """Weight after over weight before, from weighings or a stated yield; None where neither is given."""
    if step.weight_after_g is not None:
        before = step.weight_before_g or float(bench.kitchen.pools[place][WEIGHT, 0])
        value, source = (step.weight_after_g / before if before else 1.0), MEASURED
    elif step.yield_fraction is not None:
        value, source = step.yield_fraction, STATED
    elif step.pick_up_percent is not None:
        value, source = 1 + step.pick_up_percent / 100, STATED
    else:
        return None
    return enter(step, bench, place, what, value, "ratio", source)


def sodium_after(step: StepRequest, bench: Bench, place: str, weight_after_g: Draws) -> Draws | None:
    """Sodium in mg that a laboratory value puts into a component; None where there is none."""
    value = step.sodium_after_mg_per_100g
    if value is None:
        return None
    return enter(step, bench, place, "sodium", value, "mg/100 g", MEASURED) * weight_after_g / 100


def discarded_share(step: StepRequest, bench: Bench, place: str) -> Draws | None:
    """Share (0 to 1) of a component's weight that was weighed as discarded; None where it was not."""
    if step.discarded_g is None:
        return None
    grams = enter(step, bench, place, "discarded", step.discarded_g, "g", MEASURED)
    share: Draws = ratio(grams, bench.kitchen.pools[place][WEIGHT]).clip(0.0, 1.0)
    return share


def enter(
    step: StepRequest, bench: Bench, place: str, what: str, value: float, unit: str, source: str
) -> Draws:
    """Enter a figure taken as known."""
    return bench.book.take(named(step, place, what), Spread.exact(value), unit, source, step.index)


def settle_sodium(step: StepRequest, bench: Bench, place: str, rest: str) -> None:
    """Where a laboratory value is given, let sodium go to `rest` until the component holds just that."""
    pool = bench.kitchen.pools[place]
    wanted = sodium_after(step, bench, place, pool[WEIGHT])
    if wanted is not None:
        excess = np.maximum(pool[SODIUM] - wanted, 0.0)
        leaving = with_companions(np.array([SODIUM]), excess[np.newaxis, :], pool)
        bench.kitchen.move(place, rest, leaving, step.index)
