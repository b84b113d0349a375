"""Steps done by hand: coating, draining, trimming, and boiling down."""

from __future__ import annotations

import numpy as np

from ..salt.pots import drain_and_rinse, sticking_share
from ..units.spread import Draws
from .bench import Bench
from .exchange import solution
from .kitchen import WATER, WEIGHT, water
from .measured import STATED, discarded_share, enter, named, weight_ratio
from .request import StepRequest


def dredge(step: StepRequest, bench: Bench) -> None:
    """Part of the coating sticks to the food; pieces share it by weight, the rest stays where it was."""
    assert step.bath is not None
    coating = bench.kitchen.pools[step.bath]
    weights = {name: bench.kitchen.pools[name][WEIGHT] for name in step.food}
    whole = sum(weights.values(), np.zeros_like(coating[WEIGHT]))
    share = _sticks(step, bench)
    for name, weight in weights.items():
        part = np.divide(weight, whole, out=np.zeros_like(whole), where=whole > 0)
        bench.kitchen.move(step.bath, name, coating * share * part, step.index)


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
    pool = bench.kitchen.pools[name]
    drained = drain_and_rinse(bench.characters[name].main, rinsed=step.rinsed)
    if drained is None:
        bench.note(
            "drain-not-known",
            "check",
            f"How much liquid {name!r} loses is not known; weigh it and state discarded_g.",
            step.pointer,
        )
        return
    lost_g = pool[WEIGHT] * (1 - _part(step, bench, name, "yield", drained.weight, drained.source))
    leaving = solution(pool, lost_g)
    kept_sodium = _part(step, bench, name, "reached", drained.sodium, drained.source)
    bench.kitchen.move(name, "poured_away", leaving, step.index)
