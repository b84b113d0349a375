"""Foods that one sentence boils each for a time of its own: "the beans for 3 minutes, the cabbage for 2"."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from .clauses import Clause
from .liquors import in_one_pot
from .mention import Mention, kinds_of
from .method_words import BOILS
from .reading_state import HOT, ReadingState
from .times_and_sizes import Span

_TWO = 2
_BOIL_OR_POINT = BOILS | {"", "put", "other"}
_POINTS = frozenset({"same", "repeat"})
_WATERY = frozenset({"water", "vessel"})
_IN = frozenset({"in", "into"})


def boils_each(
    state: ReadingState,
    clauses: list[Clause],
    at: int,
    take: Callable[[ReadingState, Clause], None],
) -> bool:
    """Whether the clause at a place boiled several foods, each for a time of its own; take: reads a clause.
    The ", in a pan of boiling water" behind it, a clause too, is read with it."""
    clause, behind = clauses[at], clauses[at + 1] if at + 1 < len(clauses) else None
    groups = _groups(clause) if clause.act in _BOIL_OR_POINT and not clause.negated else []
    if len(groups) < _TWO:
        return False
    others = [m for each in groups[1:] for m in each[0]]
    said = [m for m in clause.mentions if m not in others]
    if behind is not None and _says_only_where(clause, behind):
        said += [replace(m, i=clause.aim, j=clause.aim) for m in behind.mentions]
        clauses[at + 1] = replace(behind, mentions=(), speaks=frozenset())
    first, *rest = (_told(clause, *each) for each in [(said, groups[0][1]), *groups[1:]])
    take(state, first)
    pot = state.latest(HOT)
    if pot is None or pot.clause is not first:
        for other in rest:
            take(state, other)
        return True
    for other in rest:
        in_one_pot(state, other, pot, state.solids(other))
        state.remember(other)
    return True


def _told(clause: Clause, mentions: Sequence[Mention], hours: Span) -> Clause:
    return replace(clause, mentions=tuple(mentions), speaks=kinds_of(mentions), hours=(hours,))


def _says_only_where(clause: Clause, behind: Clause) -> bool:
    """Whether a clause is no more than the ", in a pan of boiling water" of the one before."""
    within = all(m.prep in _IN for m in behind.mentions)
    return not behind.act and behind.sentence == clause.sentence and behind.speaks <= _WATERY and within


def _groups(clause: Clause) -> list[tuple[list[Mention], Span]]:
    """The foods before each time; none where one time has no food before it, or a food no time behind."""
    found: list[tuple[list[Mention], Span]] = []
    preps = ("with", "for") if not _POINTS.isdisjoint(clause.words) else ("",)
    foods = [m for m in clause.mentions if m.kind == "line" and m.prep in preps]
    begin = 0
    for span in clause.hours:
        named = [m for m in foods if begin <= m.i < span.i]
        if not named:
            return []
        found.append((named, span))
        begin = span.j
    return [] if any(m.i >= begin for m in foods) else found
