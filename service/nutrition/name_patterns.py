"""Words in the names of foods: patterns for the word lists of tables."""

from __future__ import annotations

import re

from ..core.tables import Row


def words_pattern(cell: str) -> re.Pattern[str] | None:
    """A pattern for any word of a cell (separated by |), whole or in the plural; None where it is blank."""
    words = [re.escape(word) for word in cell.split("|") if word]
    # Longest first, so that a phrase is taken whole before a word that begins it.
    words.sort(key=len, reverse=True)
    return re.compile(rf"\b(?:{'|'.join(words)})(?:s|es)?\b") if words else None


def is_in_groups(row_groups: frozenset[str], group_code: str) -> bool:
    """Whether a food group (four figures) is among those of a row (two figures each; none: any)."""
    return not row_groups or group_code[:2] in row_groups


def groups_of(row: Row) -> frozenset[str]:
    """The groups that a row is for."""
    return frozenset(row["groups"].split())
