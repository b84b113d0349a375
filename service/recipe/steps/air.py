"""Steps in the air: drying and smoking."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from ...core.notices import STATED
from ...core.spread import Draws
from ...transfer.drying import USUAL_C, drying, water_lost
from ...transfer.usual import usual_size
from ..pool_rows import WATER, WEIGHT
from ..request import StepRequest
from ..state import CalculationState
from .handling import lost_share
from .hot import heat
from .nature import food_class, known_class
from .work import Work, works

COOKS_C = 50.0
"""A smoke warmer than this, in °C, shrinks food as an oven so warm does (shrinkage.csv says how far)."""


def smoke(step: StepRequest, state: CalculationState) -> None:
    """Hot smoke cooks as well as it dries; a weighing afterwards tells both."""
    is_weighed = any(lost_share(work) is not None for work in works(step, state))
    if step.temperature_c is not None and step.temperature_c > COOKS_C and not is_weighed:
        heat(replace(step, kind="roast"), state)
    dry(step, state)


def dry(step: StepRequest, state: CalculationState) -> None:
    """Water goes into the air or the smoke, and all else stays: salt becomes more in every gram."""
    for work in works(step, state):
        lost, weight_g = lost_share(work), work.pool[WEIGHT].copy()
        work.give_water("evaporated", _dried_g(work) if lost is None else lost * weight_g)
        work.history.weigh_again(weight_g, work.pool[WEIGHT])
        work.history.lose(weight_g, work.pool[WEIGHT])


def _dried_g(work: Work) -> Draws:
    """g of water that time, warmth and thickness take, by the table."""
    kind = known_class(work)
    step, held = work.step, drying(kind)
    if step.duration_h is None:
        work.check(
            "drying-not-known",
            f"How much {work.name!r} dries is not known; weigh it, or state duration_h.",
        )
        return np.zeros_like(work.pool[WEIGHT])
    work.check("drying-assumed", f"How much {work.name!r} dries is a broad guess; weigh it before and after.")
    warmth = held.warmth(USUAL_C if step.temperature_c is None else step.temperature_c)
    rate = work.assume("drying-rate", held.rate, "1/h at 1 cm and 20 °C", shared=f"{kind}/drying-rate")
    end = work.assume("drying-end", held.end, "g water per g dry matter", shared=f"{kind}/drying-end")
    run = rate * warmth * step.duration_h / _thickness_cm(work) ** 2
    return water_lost(work.pool[WATER], work.pool[WEIGHT] - work.pool[WATER], end, run)


def _thickness_cm(work: Work) -> Draws:
    if work.step.thickness_cm is not None:
        return work.know("thickness", work.step.thickness_cm, "cm", STATED)
    kind = food_class(work)
    size = usual_size(kind, work.main.name if work.main else "")
    return work.assume("thickness", size.thickness_cm, "cm", shared=f"{kind}/thickness")
