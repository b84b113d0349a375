"""Things that lie each in its own water: "the beans in one bowl of cold water and the ribs in another"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from .clauses import Clause
from .mention import kinds_of

_OTHER = frozenset({"another", "second"})
_SHARED = frozenset({"water", "vessel", "salt"})


def each_in_its_own(clauses: list[Clause]) -> list[Clause]:
    """The clauses, of which one that lays two things in two waters is told as two."""
    if not [each for each in clauses if "water" in each.speaks and not _OTHER.isdisjoint(each.words)]:
        return clauses
    return [part for clause in clauses for part in _parted(clause)]


def _parted(clause: Clause) -> list[Clause]:
    texts = [token.text for token in clause.tokens]
    at = next((i for i in range(2, len(texts)) if texts[i] in _OTHER and _is_in(texts[i - 2 : i])), 0)
    water = next((m for m in clause.mentions if m.kind == "water" and m.prep and m.i < at), None)
    if water is None:
        return [clause]
    others = [m for m in clause.mentions if m.kind == "line" and water.j <= m.i < at]
    first = tuple(m for m in clause.mentions if m.i < water.j)
    if not others or all(m.kind != "line" for m in first):
        return [clause]
    shared = (m for m in first if m.kind in _SHARED)
    second = (*(replace(m, prep="") for m in others), *shared)
    return [replace(clause, mentions=each, speaks=kinds_of(each)) for each in (first, second)]


def _is_in(before: Sequence[str]) -> bool:
    """ "In another", "in a second"."""
    return before[1] in ("in", "into") or (before[0] in ("in", "into") and before[1] == "a")
