"""Lines of several foods ("salt and pepper", "2 lb onions, carrots and celery"): each of them as a line."""

from __future__ import annotations

from dataclasses import replace

from ..core.spread import Spread
from .line import Line, Measure
from .line_reading import read_line
from .quantity import EACH

_LEAST_PART, _MOST_PART = 1 / 3, 2.0
"""How far the part of one food may lie off an equal one, as shares of that: our own judgement."""
_OF_THE_FIRST = frozenset(
    {"alternatives", "joined", "no-quantity", "implied-amount", "approximate", "per", EACH}
)
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


def shared_lines(line: Line) -> tuple[Line, ...]:
    """All foods that may share the line's one quantity, each as a line of its own with its part of it."""
    part = _part_of(len(line.shared))
    return tuple(_sharing(words, line, part) for words in line.shared)


def _sharing(words: str, line: Line, part: Spread) -> Line:
    own = read_line(words)
    return replace(
        own,
        text=words,
        amount=line.amount.times(part) if line.amount else None,
        unit=line.unit,
        measures=tuple(Measure(each.amount.times(part), each.unit) for each in line.measures),
        preparation=tuple(dict.fromkeys((*own.preparation, *_of_all(line)))),
        flags=(own.flags | line.flags) - {"no-quantity"},
    )


def _of_all(line: Line) -> tuple[str, ...]:
    """What is done to all foods of the line: the preparations behind them that are none of the foods."""
    return tuple(each for each in line.stated_after if not any(food in each for food in line.shared))


def _part_of(count: int) -> Spread:
    """The part of one of so many foods: an equal one, in fact anything from a third to twice of that."""
    return Spread(_LEAST_PART / count, 1 / count, min(1.0, _MOST_PART / count))
