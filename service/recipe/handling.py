"""Steps done by hand: coating, draining, trimming, and boiling down."""

from __future__ import annotations

import numpy as np

from ..findings import STATED
from ..salt.figures import Figure
from ..salt.pots import Drained, drain_and_rinse, sticking_share
from ..units.spread import Draws
from .bench import Bench
from .heat_losses import lose_alcohol
from .kitchen import TRACE, share_of
from .nature import pot_kind
from .request import StepRequest
from .rows import WATER, WEIGHT
from .work import Work, works


def dredge(step: StepRequest, bench: Bench) -> None:
    """Part of the coating sticks to the food; pieces share it by weight, the rest stays where it was."""
    assert step.bath is not None
    weights = [bench.kitchen.leading[name][WEIGHT].copy() for name in step.food]
    share = _sticks(Work(step, bench, step.bath)) / np.maximum(sum(weights), TRACE)
    left: Draws | float = 1.0
    for name, weight_g in zip(step.food, weights, strict=True):
        part = share * weight_g
        bench.kitchen.move_share(step.bath, name, share_of(part, left), step.index)
        left = left - part


def _sticks(coating: Work) -> Draws:
    """Share (0 to 1) of a coating that sticks."""
    if coating.step.absorption_factor is not None:
        return coating.know("sticks", coating.step.absorption_factor, "fraction", STATED)
    coating.check(
        "coating-share-assumed",
        f"How much of {coating.name!r} sticks is a broad guess; weigh the rest and state absorption_factor.",
    )
    return coating.assume("sticks", sticking_share(coating.main), "fraction", ceiling=1.0)


def drain(step: StepRequest, bench: Bench) -> None:
    """Liquid is poured off, with what is dissolved in it; a solid piece lifted from its bath holds none."""
    for work in works(step, bench):
        lost = lost_share(work)
        drained = drain_and_rinse(work.main, rinsed=step.rinsed)
        if lost is not None:
            share = share_of(lost * work.pool[WEIGHT], work.pool[WATER])
            work.run_out("poured_away", share, share * work.pool[WATER])
        elif drained is not None:
            _drain_can(work, drained)
        elif pot_kind(work) is None:
            work.check(
                "drain-not-known",
                f"How much liquid {work.name!r} loses is not known; weigh it and state discarded_g.",
            )
        work.settle_sodium("poured_away")


def _drain_can(work: Work, drained: Drained) -> None:
    """A can: what the drained, or drained and rinsed, food keeps of the listed weight and sodium."""
    weight = work.assume("yield", Figure(drained.weight, drained.source), "fraction", ceiling=1.0)
    sodium = work.assume("sodium-kept", Figure(drained.sodium, drained.source), "fraction", ceiling=1.0)
    water_share = share_of(work.pool[WEIGHT] * (1 - weight), work.pool[WATER])
    # Draining and rinsing take of everything that is free what they take of salt.
    work.run_out("poured_away", 1 - sodium, water_share * work.pool[WATER])


def trim(step: StepRequest, bench: Bench) -> None:
    """Part of a food is cut off; what is cut is taken to be like the rest."""
    for work in works(step, bench):
        bench.kitchen.move_share(work.name, "trimmed", _known_loss(work), step.index)
    bench.note(
        "trim-like-the-rest",
        "info",
        "What is trimmed is taken to be like the whole; trimmed fat holds less salt than lean does.",
        step.pointer,
    )


def reduce(step: StepRequest, bench: Bench) -> None:
    """A liquid is boiled down: water goes into the air, all else stays."""
    for work in works(step, bench):
        work.give_water("evaporated", _known_loss(work) * work.pool[WEIGHT])
        lose_alcohol(work)


def lost_share(work: Work) -> Draws | None:
    """Share (0 to 1) of the weight that is weighed or stated as lost; None where it is not."""
    lost = work.discarded_share()
    kept = work.weight_ratio("yield")
    if lost is None and kept is not None:
        lost = np.clip(1 - kept, 0.0, 1.0)
    return lost


def _known_loss(work: Work) -> Draws:
    lost = lost_share(work)
    assert lost is not None, "a request without a weight for this step is refused"
    return lost
