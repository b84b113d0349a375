"""The steps a recipe can have, each by its kind."""

from __future__ import annotations

from collections.abc import Callable
from typing import cast

from ...core.errors import BrokenTable
from ...core.step_kinds import StepKind, step_kinds
from ..pool_rows import WEIGHT
from ..request import StepRequest
from ..safety_checks import watch_temperature
from ..state import CalculationState
from . import air, by_hand, cold, handling, hot, standing


def _work(kind: StepKind) -> Callable[[StepRequest, CalculationState], None]:
    """The function that does a kind. Raises BrokenTable where the row names none."""
    module, _, name = kind.work.rpartition(".")
    found = getattr(_MODULES.get(module), name, None)
    if found is None:
        number = list(step_kinds()).index(kind.name) + 1
        raise BrokenTable("step_kinds.csv", number, f"recipe.steps has no {kind.work!r}")
    return cast(Callable[[StepRequest, CalculationState], None], found)


_MODULES = {
    "air": air,
    "by_hand": by_hand,
    "cold": cold,
    "handling": handling,
    "hot": hot,
    "standing": standing,
}
_WORK = {kind.name: _work(kind) for kind in step_kinds().values()}
"""Looked up when the service starts: a kind without its work is an error then, not in an answer."""


def do(step: StepRequest, state: CalculationState) -> None:
    """Do one step: move what it moves, enter what it assumes, note what a person should know."""
    watch_temperature(step, state)
    taker_g = None if step.into is None else state.pools.leading[step.into][WEIGHT].copy()
    _WORK[step.kind](step, state)
    if step.into is not None and taker_g is not None and "joins" not in step_kinds()[step.kind].traits:
        state.histories[step.into].weigh_again(taker_g, state.pools.leading[step.into][WEIGHT])
