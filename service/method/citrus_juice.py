"""Whole limes and lemons of a list that the method squeezes: they are juice, and no fruit that lies in it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from .clauses import Clause
from .happenings import PROTEINS
from .mention import Mention
from .reading_state import ReadingState

_CITRUS = frozenset({"lime", "lemon", "orange", "grapefruit"})
_JUICES = frozenset({"juice", "juices"})
_SQUEEZES = frozenset({"squeeze", "juice"})
_NEAR = 3
"""Words before a fruit among which "the juice of" may stand."""


def squeeze_citrus(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """Take "5 limes" for juice where fish or meat is in the list and "the lime juice" in the method."""
    fruit = {n.index for n in state.index.by_kind.get("fruit", ()) if not _CITRUS.isdisjoint(n.words)}
    if not fruit or PROTEINS.isdisjoint(state.index.by_kind):
        return
    for clause in clauses:
        for mention in clause.mentions:
            if not fruit.isdisjoint(mention.lines) and _is_squeezed(clause, mention):
                for n in fruit.intersection(mention.lines):
                    state.lines[n], state.kinds[n] = replace(state.lines[n], kind="acid"), "acid"


def _is_squeezed(clause: Clause, fruit: Mention) -> bool:
    near = (token.text for token in clause.tokens[max(fruit.i - _NEAR, 0) : fruit.j + 1])
    return not _SQUEEZES.isdisjoint(clause.words) or not _JUICES.isdisjoint(near)
