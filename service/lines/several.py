"""Lines of several foods ("salt and pepper", "butter and flour for the tin"): the further ones as lines."""

from __future__ import annotations

from dataclasses import replace

from .line import Line
from .line_reading import read_line
from .quantity import EACH

_OF_THE_FIRST = frozenset({"alternatives", "joined", "no-quantity", "implied-amount", "approximate", EACH})
"""Flags of a line that tell nothing of its further foods; what the foods are for, they have in common."""


def joined_lines(line: Line) -> tuple[Line, ...]:
    """The further foods of a line, each read as a line of its own.

    A quantity "of each" is theirs too; any other quantity is the first food's alone.
    """
    return tuple(_joined(words, line) for words in line.joined)


def _joined(words: str, line: Line) -> Line:
    own = read_line(words)
    flags = own.flags | (line.flags - _OF_THE_FIRST)
    if EACH in line.flags and own.amount is None:
        return replace(own, amount=line.amount, unit=line.unit, flags=flags - {"no-quantity"})
    return replace(own, flags=flags)
