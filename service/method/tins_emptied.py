"""Tins that are opened and tipped out in one sentence, without a word of what is in them: "open the tin, pour
off the oil and break up the fish"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from .clauses import Clause
from .happenings import Happening
from .reading_state import ReadingState

_OPENS = re.compile(r"\bopen(?:ed|ing)? (?:\w+ ){0,3}(?:tins?|cans?|jars?)\b", re.IGNORECASE)
_OFF = frozenset({"brine", "oil", "liquid", "water", "juice", "liquor"})
_AWAY = ("discard", "drain")


def empty_tins(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """Drain the tins whose liquid a sentence throws away that opens them."""
    emptied = [c for c in clauses if c.act in _AWAY and "pen" in c.sentence and not c.negated]
    tins = state.index.canned() if emptied else ()
    for clause in emptied:
        if not tins or _OFF.isdisjoint(clause.words) or _OPENS.search(clause.sentence) is None:
            continue
        drained = {n for each in state.happened if each.kind == "drain" for n in each.foods}
        full = {n for n in tins if n not in drained}
        beside = (c for c in clauses if c.method == clause.method and c.sentence == clause.sentence)
        named = {n for c in beside for m in c.mentions for n in m.lines} & full
        found = named or (full if len(full) == 1 else ())
        if found:
            foods = dict.fromkeys(sorted(found), 1.0)
            state.begin(Happening("drain", clause, foods=foods, drained=True, closed=True))
