"""Water that only steams what stands over it: its salt goes nowhere, and nobody eats it."""

from __future__ import annotations

import re

from .clauses import Clause
from .reading_state import ReadingState

_OVER = re.compile(
    r"\b(?:over|above) (?:it|this|that|(?:the|boiling|simmering|salted) (?:\w+ )?(?:water|pot|pan))\b"
    r"|\bsteamer\b|\bsteaming basket\b",
    re.IGNORECASE,
)
_SINCE = 4
"""Clauses since which the water was salted."""


def steams_over(state: ReadingState, clause: Clause) -> None:
    """ "Bring the water with the salt to the boil. Steam the broccoli over it": the salt stays behind."""
    if clause.negated or _OVER.search(clause.sentence) is None:
        return
    pot = state.pot if state.pot is not None and not state.pot.foods else None
    water = {*(pot.liquid if pot is not None else ()), *(() if state.mixture.closed else state.mixture.lines)}
    salts = {n for n in water if state.kind(n) == "salt" and state.spoken.get(n) == 1}
    salts = {n for n in salts if state.turn - state.last_spoken.get(n, -_SINCE) <= _SINCE}
    if not salts or salts & state.lines_of(clause).keys():
        return
    state.thrown_out |= dict.fromkeys(salts, state.turn)
    state.mixture.closed, state.pot = True, None if pot is not None else state.pot
    if state.pending is not None and salts & state.pending.liquid.keys():
        state.pending = None
