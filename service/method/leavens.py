"""Flours of a list that are no flour: soda and what else makes a dough rise."""

from __future__ import annotations

from .listed import ListedLine

SODA = frozenset({"soda", "bicarbonate", "bicarb", "lye"})
_LEAVENS = SODA | {"yeast", "powder", "leaven", "ammonia"}


def is_soda(line: ListedLine) -> bool:
    return not SODA.isdisjoint(line.words)


def is_leaven(line: ListedLine) -> bool:
    """Whether food is not turned in it: baking powder, soda, yeast."""
    return line.kind == "flour" and not _LEAVENS.isdisjoint(line.words)
