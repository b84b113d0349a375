"""The steps a recipe can have, each by its kind."""

from __future__ import annotations

from collections.abc import Callable

from . import cold, handling, hot
from .bench import Bench
from .request import StepRequest
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
}


def do(step: StepRequest, bench: Bench) -> None:
    """Do one step: move what it moves, enter what it assumes, note what a person should know."""
    watch_temperature(step, bench)
    _DOERS[step.kind](step, bench)
