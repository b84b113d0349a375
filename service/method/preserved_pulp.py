"""Preserved lemons of which the peel is eaten, and the salty pulp is thrown away."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from .clauses import Clause
from .happenings import LeftOver
from .method_words import phrasing
from .reading_state import ReadingState

UNSAID = 0.0
"""Share of which the method says nothing: how much of such a lemon is peel is asked."""
_FRUIT = ("lemon", "lime")
_PRESERVED = frozenset({"preserved", "salted", "pickled", "confit", "salt-preserved"})
_THROWN = phrasing("pulp_thrown")
_USED = phrasing("pulp_used")


def find_pulp(state: ReadingState, clauses: Sequence[Clause]) -> Iterator[LeftOver]:
    """The preserved lemons whose pulp a line or the method throws away."""
    for line in state.index.lines:
        if not ("lemon" in line.words or "lime" in line.words) or _PRESERVED.isdisjoint(line.words):
            continue
        told = (c for c in clauses if c.opens and _is_thrown(c.sentence))
        said = clauses[0] if clauses and _is_thrown(line.text) else next(told, None)
        if said is not None:
            yield LeftOver(said, (line.index,), UNSAID, thrown=True)


def _is_thrown(text: str) -> bool:
    said = text.lower()
    if not any(map(said.__contains__, _FRUIT)) or _THROWN.search(said) is None:
        return False
    return _USED.search(said) is None
