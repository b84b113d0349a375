"""Steps done by hand: coating, draining, trimming, and boiling down."""

from __future__ import annotations

import numpy as np

from ..salt.pots import drain_and_rinse, sticking_share
from ..units.spread import Draws, Spread
from .bench import Bench
from .exchange import solution
from .hot import free_shares
from .kitchen import SODIUM, WATER, WEIGHT, everything, water
from .measured import STATED, discarded_share, enter, named, weight_ratio
from .request import StepRequest


def dredge(step: StepRequest, bench: Bench) -> None:
    """Part of the coating sticks to the food; pieces share it by weight, the rest stays where it was."""
    assert step.bath is not None
    coating = bench.kitchen.pools[step.bath].copy()
    weights = {name: bench.kitchen.pools[name][WEIGHT].copy() for name in step.food}
    whole = sum(weights.values(), np.zeros_like(coating[WEIGHT]))
    share = _sticks(step, bench)
    for name, weight in weights.items():
        part = np.divide(weight, whole, out=np.zeros_like(whole), where=whole > 0)
        bench.kitchen.move(step.bath, name, everything(coating * (share * part)), step.index)


def _sticks(step: StepRequest, bench: Bench) -> Draws:
    assert step.bath is not None
    if step.absorption_factor is not None:
        return enter(step, bench, step.bath, "sticks", step.absorption_factor, "fraction", STATED)
    stuck = sticking_share(bench.characters[step.bath].main)
    bench.note(
        "coating-share-assumed",
        "check",
        f"How much of {step.bath!r} sticks is a broad guess; weigh what is left and state absorption_factor.",
        step.pointer,
    )
    name = named(step, step.bath, "sticks")
    return bench.book.take(name, stuck.spread, "fraction", stuck.source, step.index, ceiling=1.0)


def drain(step: StepRequest, bench: Bench) -> None:
    """Liquid is poured off, with what is dissolved in it."""
    for name in step.food:
        _drain(step, bench, name)


def _drain(step: StepRequest, bench: Bench, name: str) -> None:
    pool = bench.kitchen.pools[name]
    lost = discarded_share(step, bench, name)
    kept = weight_ratio(step, bench, name, "yield")
    if lost is None and kept is not None:
        lost = (1 - kept).clip(0.0, 1.0)
    if lost is not None:
        bench.kitchen.move(name, "poured_away", solution(pool, lost * pool[WEIGHT]), step.index)
        return
    _drain_by_table(step, bench, name)


def _drain_by_table(step: StepRequest, bench: Bench, name: str) -> None:
    """A can: what the drained, or drained and rinsed, food keeps of the listed weight and sodium."""
    drained = drain_and_rinse(bench.characters[name].main, rinsed=step.rinsed)
    if drained is None:
        bench.note(
            "drain-not-known",
            "check",
            f"How much liquid {name!r} loses is not known; weigh it and state discarded_g.",
            step.pointer,
        )
        return
    before = bench.kitchen.pools[name]
    weight = _kept(step, bench, name, "yield", drained.weight, drained.source)
    sodium = _kept(step, bench, name, "sodium-reached", drained.sodium, drained.source)
    liquid = solution(before, before[WEIGHT] * (1 - weight), free_shares())
    liquid[SODIUM][:] = before[SODIUM] * (1 - sodium)
    bench.kitchen.move(name, "poured_away", liquid, step.index)


def _kept(step: StepRequest, bench: Bench, name: str, what: str, value: Spread, source: str) -> Draws:
    return bench.book.take(named(step, name, what), value, "fraction", source, step.index, ceiling=1.0)


def trim(step: StepRequest, bench: Bench) -> None:
    """Part of a food is cut off; what is cut is taken to be like the rest."""
    for name in step.food:
        lost = _lost_share(step, bench, name)
        bench.kitchen.move_share(name, "trimmed", lost, step.index)
    bench.note(
        "trim-like-the-rest",
        "info",
        "What is trimmed is taken to be like the whole; trimmed fat holds less salt than lean does.",
        step.pointer,
    )


def _lost_share(step: StepRequest, bench: Bench, name: str) -> Draws:
    lost = discarded_share(step, bench, name)
    if lost is not None:
        return lost
    kept = weight_ratio(step, bench, name, "yield")
    assert kept is not None, "a request without a weight for this step is refused"
    share: Draws = (1 - kept).clip(0.0, 1.0)
    return share


def reduce(step: StepRequest, bench: Bench) -> None:
    """A liquid is boiled down: water goes into the air, all else stays."""
    for name in step.food:
        pool = bench.kitchen.pools[name]
        lost_g = _lost_share(step, bench, name) * pool[WEIGHT]
        bench.kitchen.move(name, "evaporated", water(lost_g.clip(0.0, pool[WATER])), step.index)
