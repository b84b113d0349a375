"""What is drained with a pot that got more food after the first."""

from __future__ import annotations

from .happenings import SOLIDS, Happening
from .reading_state import ReadingState

_IN_COLANDERS = frozenset({"potato", "vegetable", "legume", "pasta"})
_PEELS = frozenset({"zest", "rind", "peel", "ginger", "galangal"})


def drained_with(state: ReadingState, pot: Happening) -> None:
    """What came into a pot later was drained with the rest; garlic stays in the colander with it."""
    for line in pot.extra:
        (pot.foods if state.kind(line) in SOLIDS else pot.liquid).setdefault(line, 1.0)
    if pot.lifted or not set(map(state.kind, pot.foods)) <= _IN_COLANDERS:
        return
    for line in [n for n in pot.liquid if state.kind(n) == "aromatic" and n not in state.thrown_out]:
        if _PEELS.isdisjoint(state.lines[line].words):
            pot.foods[line] = pot.liquid.pop(line)
