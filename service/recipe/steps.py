"""The steps a recipe can have, each by its kind."""

from __future__ import annotations

from collections.abc import Callable

from . import air, cold, handling, handwork, hot, standing
from .bench import Bench
from .request import COLD_BATHS, POTS, StepRequest
from .rows import WEIGHT
from .safety import watch_temperature

_DOERS: dict[str, Callable[[StepRequest, Bench], None]] = {
    "brine": cold.bathe,
    "marinate": cold.bathe,
    "soak": cold.bathe,
    "dry_cure": cold.bathe,
    "simmer": hot.poach,
    "boil": hot.poach,
    "steam": hot.heat,
    "roast": hot.heat,
    "fry": hot.fry,
    "dredge": handling.dredge,
    "drain": handling.drain,
    "trim": handling.trim,
    "reduce": handling.reduce,
    "inject": handwork.inject,
    "combine": handwork.combine,
    "divide": handwork.combine,
    "press": handwork.press,
    "squeeze": handwork.press,
    "skim": handwork.skim,
    "dry": air.dry,
    "smoke": air.smoke,
    "sous_vide": hot.sous_vide,
    "rinse": standing.rinse,
    "rest": standing.rest,
    "ferment": standing.ferment,
}


JOINING = ("combine", "divide", "trim")
"""Kinds of steps whose `into` mixes memories itself; in others only liquid or fat comes to a component."""

_IGNORED = {
    "sodium_after_mg_per_100g": ("dredge", "trim", "reduce"),
    "absorption_factor": ("soak", "steam", "roast", "drain", "trim", "reduce"),
    "pick_up_percent": ("dredge", "drain", "trim", "reduce"),
    "discarded_g": (*COLD_BATHS, "dry_cure", *POTS, "steam", "roast", "fry", "dredge"),
}
"""Measured values that a kind of step has no use for."""


def _watch_measures(step: StepRequest, bench: Bench) -> None:
    """Say where a measured value is not used, rather than drop it without a word."""
    for name, kinds in _IGNORED.items():
        if step.kind in kinds and getattr(step, name) is not None:
            message = f"A {step.kind} step does not use {name}; it was left out of the figures."
            bench.note("value-not-used", "check", message, f"{step.pointer}/{name}")


def do(step: StepRequest, bench: Bench) -> None:
    """Do one step: move what it moves, enter what it assumes, note what a person should know."""
    watch_temperature(step, bench)
    _watch_measures(step, bench)
    taker_g = None if step.into is None else bench.kitchen.leading[step.into][WEIGHT].copy()
    _DOERS[step.kind](step, bench)
    if step.into is not None and taker_g is not None and step.kind not in JOINING:
        bench.histories[step.into].weigh_again(taker_g, bench.kitchen.leading[step.into][WEIGHT])
