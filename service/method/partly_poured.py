"""Water that is poured off in part: "pour off most of the water", "drain, leaving a cup of it with them"."""

from __future__ import annotations

from collections.abc import Sequence

from .clauses import Clause
from .happenings import Happening
from .parts_said import millilitres, part_said
from .reading_state import HOT, ReadingState

_POURS = frozenset({"drain", "discard"})
_LEAVES = frozenset({"leave", "leaving", "leaves"})
_PARTS = frozenset({"most", "half", "third", "thirds", "quarter", "quarters"})
_LITTLE = frozenset({"little", "some", "bit"})
_LITTLE_ML = 200.0
"""Water that is left where nobody says how much, ml; common practice, no source."""
_WATERS = frozenset({"water", "liquid", "liquor"})


def leave_part(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """Let that part of the water of a pot be eaten which a clause of pouring leaves with its food."""
    for i, clause in enumerate(clauses):
        if clause.act not in _POURS or clause.negated:
            continue
        after = clauses[i + 1] if i + 1 < len(clauses) else clause
        told = clause if _LEAVES.isdisjoint(after.words) or after.sentence != clause.sentence else after
        leaves, parts = not _LEAVES.isdisjoint(told.words), not _PARTS.isdisjoint(clause.words)
        if not (leaves or parts) or _WATERS.isdisjoint(clause.words | told.words):
            continue
        pot = _poured(state, clause)
        if pot is None:
            continue
        if leaves:
            some = _LITTLE_ML if told.words & _LITTLE and told.words & _WATERS else None
            pot.kept_ml = millilitres(told) or some
        elif (part := part_said(clause)) is not None and not _is_of_food(clause):
            pot.eaten = round(1.0 - part, 4)


def _poured(state: ReadingState, clause: Clause) -> Happening | None:
    """The pot that a clause pours off, of which nothing else is known to be kept."""
    before = (h for h in reversed(state.happened) if h.kind in HOT and h.clause.place < clause.place)
    pot = next(before, None)
    return pot if pot is not None and pot.drained and not (pot.eaten or pot.kept_ml) else None


def _is_of_food(clause: Clause) -> bool:
    """ "Drain half of the beans": a part of the food, and no part of its water."""
    return any(m.portion is not None and m.lines for m in clause.mentions)
