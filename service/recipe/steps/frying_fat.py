"""Frying fat that goes into a food, and what the food remembers of it."""

from __future__ import annotations

import numpy as np

from ...core.sourced import SourcedFigure
from ...core.spread import Draws
from ...transfer.pots import CookingCourse, fat_uptake
from ...transfer.profile import CLOSED
from ..pool_rows import FATTY_ACIDS, WEIGHT
from ..pools import TRACE, Amounts, ratio, share_of
from .receiving import receive
from .work import Work

_FULL_COAT = 0.03
"""g of coat on a gram of food from which on it takes fat as coated food does: common practice, no source."""


def take_fat(work: Work, kind: str | None, raw_g: Draws, course: CookingCourse, pace: float) -> None:
    """Frying fat goes into the food, towards an end that it has once. pace: rate times time."""
    step = work.step
    assert step.bath is not None
    oil_g = work.pools.leading[step.bath][WEIGHT]
    share = work.stated_factor()
    weight_g = np.maximum(work.pool[WEIGHT], TRACE).copy()
    if share is None:
        most = work.assume("fat-uptake", _fat_uptake(work), "g/g", shared=f"{kind}/fat-uptake")
        most_g = most * raw_g / course.far(course.usual_h)
        left_g = np.maximum(most_g - work.history.fat_taken * weight_g, 0.0)
        share = share_of(left_g * -np.expm1(-pace), oil_g)
    taken_g = share * oil_g
    before = list[Amounts]()
    work.pools.ride_along(lambda: before.append(_acids(work).copy()))
    receive(work, step.bath, share, CLOSED)
    work.pools.ride_along(lambda: _acids_came(work, before[0]))
    work.history.fat_taken = work.history.fat_taken + taken_g / np.maximum(work.pool[WEIGHT], TRACE)


def _acids(work: Work) -> Amounts:
    return work.pools.amounts[work.name][FATTY_ACIDS]


def _acids_came(work: Work, before: Amounts) -> None:
    """Remember how much of the fatty acids is frying fat's, now that some came."""
    now, history = _acids(work), work.history
    history.acids_taken = 1 - (1 - history.acids_taken) * ratio(before, now)


def _fat_uptake(work: Work) -> SourcedFigure:
    """g of fat for a gram of food; a coat takes more, all of that from a few per cent of the weight on."""
    bare, coated = fat_uptake(work.main), fat_uptake(work.main, coated=True)
    part = min(float(np.ravel(work.history.coat)[0]) / _FULL_COAT, 1.0)
    if part <= 0:
        return bare
    return SourcedFigure(bare.spread.towards(coated.spread, part), coated.source)
