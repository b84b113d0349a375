"""The rest of a coating's flour that goes into the pot: "add any leftover flour to the stew"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from .clauses import Clause
from .happenings import Happening
from .mention import Mention
from .reading_state import ReadingState

_PUTS = frozenset({"put", "mix", "other", ""})
_REST = re.compile(
    r"\b(?:left[- ]?over|remaining|reserved|spare|surplus|excess|rest of (?:the|that|your|this)"
    r"|(?:is|was|'s) left (?:over )?of the) (?:seasoned |spiced )?flour"
    r"|\bflour (?:that (?:is|was) |which (?:is|was) )?(?:left|remaining)\b",
    re.IGNORECASE,
)
_STREWS = frozenset({"sprinkle", "scatter", "strew"})
_GONE = frozenset({"discard", "throw", "bin", "away"})


def is_used_up(state: ReadingState, clauses: Sequence[Clause], coating: Happening) -> bool:
    """Whether a later clause stirs what is left of the coating's flour into the dish."""
    flours = {n for n in coating.liquid if state.kind(n) == "flour"}
    later = (c for c in clauses if "flour" in c.words and c.place > coating.clause.place)
    return any(
        (c.act in _PUTS or c.base in _STREWS)
        and not c.negated
        and _REST.search(c.text) is not None
        and _GONE.isdisjoint(c.words)
        and any(not flours.isdisjoint(m.lines) and _goes_in(state, c, m) for m in c.mentions)
        and not any(d.place > c.place and (d.act == "dredge" or "batter" in d.words) for d in clauses)
        for c in later
    )


def _goes_in(state: ReadingState, clause: Clause, flour: Mention) -> bool:
    """ "Stir in the rest of the flour", not "toss the beef in the rest of the flour"."""
    return flour.prep not in _BEHIND or not (state.solids(clause, direct=True) or "it" in clause.speaks)


_BEHIND = frozenset({"in", "with", "into", "through"})
