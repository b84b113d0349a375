"""The steps a recipe can have, each by its kind."""

from __future__ import annotations

from collections.abc import Callable

from ..pool_rows import WEIGHT
from ..request import KINDS, USES, StepRequest
from ..safety_checks import watch_temperature
from ..state import CalculationState
from . import air, by_hand, cold, handling, hot, standing

_DOERS: dict[str, Callable[[StepRequest, CalculationState], None]] = {
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
    "inject": by_hand.inject,
    "combine": by_hand.combine,
    "divide": by_hand.combine,
    "press": by_hand.press,
    "squeeze": by_hand.press,
    "skim": by_hand.skim,
    "dry": air.dry,
    "smoke": air.smoke,
    "sous_vide": hot.sous_vide,
    "rinse": standing.rinse,
    "rest": standing.rest,
    "ferment": standing.ferment,
}


JOINING = ("combine", "divide", "trim")
"""Kinds of steps whose `into` mixes memories itself; in others only liquid or fat comes to a component."""


def _complete() -> None:
    """Every kind has its fields and its work, or nothing starts."""
    for name, table in (("USES", USES), ("_DOERS", _DOERS)):
        if set(table) != set(KINDS):
            odd = ", ".join(sorted(set(table) ^ set(KINDS)))
            raise RuntimeError(f"the kinds of steps and {name} differ in: {odd}")


_complete()


def do(step: StepRequest, state: CalculationState) -> None:
    """Do one step: move what it moves, enter what it assumes, note what a person should know."""
    watch_temperature(step, state)
    taker_g = None if step.into is None else state.pools.leading[step.into][WEIGHT].copy()
    _DOERS[step.kind](step, state)
    if step.into is not None and taker_g is not None and step.kind not in JOINING:
        state.histories[step.into].weigh_again(taker_g, state.pools.leading[step.into][WEIGHT])
