"""Steps of the hand, the pump and the air: inject, combine and divide, press and squeeze, skim, dry and
smoke."""

from __future__ import annotations

import numpy as np

from ..findings import STATED
from ..salt.figures import Figure
from ..transfer.drying import drying, water_lost
from ..transfer.handwork import pressed, pump_drip, skimmed
from ..units.spread import Draws, Spread
from .bench import Bench
from .handling import lost_share
from .hot import free_solutes
from .kitchen import TRACE, share_of
from .nature import known_class, pot_kind
from .request import StepRequest
from .rows import WATER, WEIGHT
from .safety import watch_pump
from .work import Work, works

THICKNESS = Figure(Spread(1.0, 3.0, 8.0), "common practice, no source: a piece of unknown size")
"""In cm."""


def inject(step: StepRequest, bench: Bench) -> None:
    """Pickle is pumped into food: so much of the food's weight, less what drips out again and is lost."""
    assert step.bath is not None
    kitchen, pickle = bench.kitchen, Work(step, bench, step.bath)
    pumped = {work.name: _pumped_g(work) for work in works(step, bench)}
    wanted_g = np.sum([stays + drips for stays, drips in pumped.values()], axis=0)
    _watch_pickle(pickle, wanted_g)
    watch_pump(step, bench, {name: stays for name, (stays, _) in pumped.items()})
    held_g, left = pickle.pool[WEIGHT].copy(), np.ones_like(wanted_g)
    per_g = 1 / np.maximum(np.maximum(wanted_g, held_g), TRACE)
    for name, (stays_g, drips_g) in pumped.items():
        for target, grams in ((name, stays_g), ("poured_away", drips_g)):
            part = grams * per_g
            kitchen.move_share(step.bath, target, share_of(part, left), step.index)
            left = left - part
    for work in works(step, bench):
        work.settle_sodium(step.bath)


def _pumped_g(work: Work) -> tuple[Draws, Draws]:
    """g of pickle that stay in a piece and that drip out of it; a weighing tells what stays."""
    step, green_g = work.step, work.pool[WEIGHT]
    weighed = work.weight_ratio("pick-up")
    if weighed is not None:
        return np.maximum(green_g * (weighed - 1), 0.0), np.zeros_like(green_g)
    assert step.pump_percent is not None, "a request without an amount to pump is refused"
    pumped_g = green_g * work.know("pump", step.pump_percent, "% of green weight", STATED) / 100
    drips = work.assume("pump-drip", pump_drip(), "fraction", ceiling=1.0)
    return pumped_g * (1 - drips), pumped_g * drips


def _watch_pickle(pickle: Work, wanted_g: Draws) -> None:
    held_g = float(pickle.pool[WEIGHT, 0])
    if wanted_g[0] > held_g * (1 + 1e-9):
        pickle.check(
            "pickle-too-little",
            f"The pump wants {wanted_g[0]:.0f} g of {pickle.name!r}, which holds {held_g:.0f} g: all of it "
            "goes in. Check the weights and pump_percent.",
        )


def combine(step: StepRequest, bench: Bench) -> None:
    """A share of one component, or all of it, goes into another, well mixed: a stock that is used in two
    dishes."""
    assert step.into is not None, "a request that does not say where to is refused"
    for work in works(step, bench):
        share = 1.0 if step.share is None else work.know("share", step.share, "fraction", STATED)
        bench.kitchen.move_share(work.name, step.into, share, step.index)


def press(step: StepRequest, bench: Bench) -> None:
    """Juice is pressed out, with what is dissolved in it, and poured away or kept in another component."""
    for work in works(step, bench):
        lost = lost_share(work)
        if lost is None:
            figure = pressed(step.kind, pot_kind(work))
            lost = work.assume("pressed-out", figure, "g/g", ceiling=1.0)
            work.check(
                "press-assumed",
                f"How much juice leaves {work.name!r} is a broad guess; weigh it and state discarded_g or "
                "weight_after_g.",
            )
        target = step.into or "poured_away"
        work.to(target).squeeze(lost * work.pool[WEIGHT], free_solutes())
        work.settle_sodium(target)


def skim(step: StepRequest, bench: Bench) -> None:
    """Fat is taken off a liquid; it holds neither water nor salt."""
    for work in works(step, bench):
        if step.share is None:
            share = work.assume("skimmed", skimmed(), "fraction", ceiling=1.0)
        else:
            share = work.know("skimmed", step.share, "fraction", STATED)
        bench.kitchen.move_fat(work.name, step.into or "poured_away", share, step.index)


def dry(step: StepRequest, bench: Bench) -> None:
    """Water goes into the air or the smoke, and all else stays: salt becomes more in every gram."""
    for work in works(step, bench):
        lost = lost_share(work)
        work.give_water("evaporated", _dried_g(work) if lost is None else lost * work.pool[WEIGHT])


def _dried_g(work: Work) -> Draws:
    """g of water that time, warmth and thickness take, by the table."""
    step, held = work.step, drying(known_class(work))
    if step.duration_h is None:
        work.check(
            "drying-not-known",
            f"How much {work.name!r} dries is not known; weigh it, or state duration_h.",
        )
        return np.zeros_like(work.pool[WEIGHT])
    work.check("drying-assumed", f"How much {work.name!r} dries is a broad guess; weigh it before and after.")
    warmth = held.warmth(20.0 if step.temperature_c is None else step.temperature_c)
    rate = work.assume("drying-rate", held.rate, "1/h at 1 cm and 20 °C")
    run = rate * warmth * step.duration_h / _thickness_cm(work) ** 2
    end = work.assume("drying-end", held.end, "g water per g dry matter")
    return water_lost(work.pool[WATER], work.pool[WEIGHT] - work.pool[WATER], end, run)


def _thickness_cm(work: Work) -> Draws:
    stated = work.step.thickness_cm
    if stated is not None:
        return work.know("thickness", stated, "cm", STATED)
    return work.assume("thickness", THICKNESS, "cm")
