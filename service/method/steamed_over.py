"""Water that only steams what stands over it: its salt goes nowhere, and nobody eats it."""

from __future__ import annotations

import re
from collections.abc import Sequence

from .clause_words import strength_of
from .clauses import Clause
from .happenings import Happening
from .reading_state import ReadingState
from .salt_beside import seasons_somewhere
from .unnamed_baths import unspoken_salt
from .waters import salts_of

_OVER = re.compile(
    r"\b(?:over|above) (?:it|this|that|(?:the |a |boiling |simmering |salted |gently |well[- ]|lightly ){1,3}"
    r"(?:\w+ )?(?:of )?(?:\w+ ){0,2}(?:water|pot|pan))\b"
    r"|\bsteamer\b|\bsteaming basket\b|\bcolander\b",
    re.IGNORECASE,
)
_SALTED = re.compile(r"\bsalted (?:\w+ )?water\b", re.IGNORECASE)
_SINCE = 4
"""Clauses since which the water was salted."""
_OVER_IT = frozenset({"over", "above", "top"})
STANDS_IN = frozenset({"steamer", "basket", "colander"})
"""What food steams in, where no word says "steam": "in a basket over simmering water"."""
SALTED_STEAM = "food steams over salted water"


def steams_over(state: ReadingState, clause: Clause) -> None:
    """ "Bring the water with the salt to the boil. Steam the broccoli over it": the salt stays behind."""
    pot = state.pot if state.pot is not None and not state.pot.foods else None
    over = _OVER.search(clause.sentence) or (pot is not None and _OVER.search(pot.clause.sentence))
    if clause.negated or not over or (clause.act != "steam" and not _stands_over(state, clause)):
        return
    if _is_salted(clause, pot):
        state.hints.add(SALTED_STEAM)
    if "steamer" in clause.words and state.water_of(clause) is not None:
        of_steamer = salts_of(state, clause)
        state.thrown_out |= dict.fromkeys(of_steamer, state.turn)
    water = {*(pot.liquid if pot is not None else ()), *(() if state.mixture.closed else state.mixture.lines)}
    salts = {n for n in water if state.kind(n) == "salt" and state.spoken.get(n) == 1}
    salts = {n for n in salts if state.turn - state.last_spoken.get(n, -_SINCE) <= _SINCE}
    if not salts or salts & state.lines_of(clause).keys():
        return
    state.thrown_out |= dict.fromkeys(salts, state.turn)
    state.mixture.closed, state.pot = True, None if pot is not None else state.pot
    if state.pending is not None and salts & state.pending.liquid.keys():
        state.pending = None


def _stands_over(state: ReadingState, clause: Clause) -> bool:
    """Whether food stands over water in a clause that does not say "steam", or water goes under it; no "drain
    it in a colander"."""
    if not _OVER_IT.isdisjoint(clause.words):
        return bool(state.solids(clause)) or "it" in clause.speaks
    return "steamer" in clause.words and state.water_of(clause) is not None and not state.solids(clause)


def _is_salted(clause: Clause, pot: Happening | None) -> bool:
    if strength_of(clause) or _SALTED.search(clause.sentence) is not None:
        return True
    return pot is not None and pot.water is not None and pot.water.is_salted


def leave_steaming_salt(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """Leave the salt of the list that no clause speaks of in the "salted water" that food steamed over, where
    nothing else is salted."""
    if SALTED_STEAM not in state.hints or seasons_somewhere(state, clauses):
        return
    taken = {n for each in state.happened for n in each.liquid}
    salted = any(each.water is not None and each.water.is_salted for each in state.happened)
    if not salted:
        state.thrown_out |= {n: state.turn for n in unspoken_salt(state) if n not in taken}
