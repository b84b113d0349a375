"""Steps of the hand and the pump: inject, combine and divide, press and squeeze, skim."""

from __future__ import annotations

import numpy as np

from ...core.notices import STATED
from ...core.numbers import whole
from ...core.spread import Draws
from ...transfer.handwork import by_hand, pressed
from ...transfer.profile import DEPTH
from ..pool_rows import WEIGHT
from ..pools import TRACE, share_of
from ..request import StepRequest
from ..safety_checks import watch_pump
from ..state import CalculationState
from .handling import lost_share
from .nature import pot_kind
from .receiving import join, receive
from .work import Work, works


def inject(step: StepRequest, state: CalculationState) -> None:
    """Pickle is pumped into food: so much of the food's weight, less what drips out again and is lost."""
    assert step.bath is not None
    foods, pickle = works(step, state), Work(step, state, step.bath)
    pumped = [_pumped_g(work) for work in foods]
    wanted_g = np.sum([stays_g + drips_g for stays_g, drips_g in pumped], axis=0)
    _watch_pickle(pickle, wanted_g)
    watch_pump(step, state, {work.name: stays for work, (stays, _) in zip(foods, pumped, strict=True)})
    per_g = 1 / np.maximum(np.maximum(wanted_g, pickle.pool[WEIGHT]), TRACE)
    left = np.ones_like(wanted_g)
    for work, (stays_g, drips_g) in zip(foods, pumped, strict=True):
        _draw_in(work, step.bath, share_of(stays_g * per_g, left))
        left = left - stays_g * per_g
        state.pools.move_share(step.bath, "poured_away", share_of(drips_g * per_g, left), step.index)
        left = left - drips_g * per_g
    for work in foods:
        work.settle_sodium(step.bath)


def _draw_in(work: Work, pickle: str, share: Draws) -> None:
    """The pickle lies all through the food, as its own water does."""
    gained = receive(work, pickle, share, DEPTH)
    work.history.pumped = work.history.pumped + gained[WEIGHT] / np.maximum(work.pool[WEIGHT], TRACE)


def _pumped_g(work: Work) -> tuple[Draws, Draws]:
    """g of pickle that stay in a piece and that drip out of it; a weighing tells what stays."""
    step, history, weight_g = work.step, work.history, work.pool[WEIGHT]
    weighed = work.weight_ratio("pick-up")
    if weighed is not None:
        return np.maximum(weight_g * (weighed - 1), 0.0), np.zeros_like(weight_g)
    assert step.pump_percent is not None, "a request without an amount to pump is refused"
    taken = history.dissolved + history.water + history.pumped
    green_g = np.maximum(weight_g * (1 - taken), 0.0)
    pumped_g = green_g * work.know("pump", step.pump_percent, "% of green weight", STATED) / 100
    drips = work.assume("pump-drip", by_hand("pump_drip"), "fraction", ceiling=1.0, shared="pump-drip")
    return pumped_g * (1 - drips), pumped_g * drips


def _watch_pickle(pickle: Work, wanted_g: Draws) -> None:
    held_g = float(pickle.pool[WEIGHT, 0])
    if wanted_g[0] > held_g * (1 + 1e-9):
        pickle.check(
            "pickle-too-little",
            f"The pump wants {whole(wanted_g[0])} g of {pickle.name!r}, which holds "
            f"{whole(held_g)} g: all of it goes in. Check the weights and pump_percent.",
        )


def combine(step: StepRequest, state: CalculationState) -> None:
    """A share of a component, or all of it, goes into another, well mixed: a stock in two dishes, a mash."""
    assert step.into is not None, "a request that does not say where to is refused"
    for work in works(step, state):
        share = 1.0 if step.share is None else work.know("share", step.share, "fraction", STATED)
        join(Work(step, state, step.into), work.name, share)


def press(step: StepRequest, state: CalculationState) -> None:
    """Juice is pressed out, with what is dissolved in it, and poured away or kept in another component."""
    for work in works(step, state):
        lost = lost_share(work)
        if lost is None:
            lost = work.assume("pressed-out", pressed(step.kind, pot_kind(work)), "g/g", ceiling=1.0)
            work.check(
                "press-assumed",
                f"How much juice leaves {work.name!r} is a broad guess; weigh it and state discarded_g or "
                "weight_after_g.",
            )
        target, weight_g = work.taker("poured_away"), work.pool[WEIGHT].copy()
        lost_g = lost * weight_g
        lost_g = lost_g - work.shed_film(lost_g, target)
        work.drip(lost_g, np.ones_like(lost), target, target)
        work.history.lose(weight_g, work.pool[WEIGHT])
        work.settle_measured(target)


def skim(step: StepRequest, state: CalculationState) -> None:
    """Fat is taken off a liquid; it holds neither water nor salt."""
    for work in works(step, state):
        if step.share is None:
            share = work.assume("skimmed", by_hand("skim"), "fraction", ceiling=1.0)
        else:
            share = work.know("skimmed", step.share, "fraction", STATED)
        weight_g = work.pool[WEIGHT].copy()
        state.pools.move_fat(work.name, work.taker("poured_away"), share, step.index)
        work.history.weigh_again(weight_g, work.pool[WEIGHT])
