"""A mention: words of a sentence that speak of something."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from operator import attrgetter
from typing import Literal

Kind = Literal["made", "line", "water", "salt", "bath", "vessel", "it", "all", "rest"]


@dataclass(slots=True, eq=False)
class Mention:
    """Words i to j of a sentence speak of something.

    lines: indices of lines. name: of a bath or vessel, or the shape that pieces are called by. prep: the
    preposition it stands behind. portion: the share (0 to 1) that is meant, -1 for what is left, None for all
    of it. amount: the words of an amount.
    """

    i: int
    j: int
    kind: Kind
    lines: tuple[int, ...] = ()
    name: str = ""
    prep: str = ""
    portion: float | None = None
    amount: tuple[int, int] | None = None


_kind = attrgetter("kind")


def kinds_of(mentions: Iterable[Mention]) -> frozenset[Kind]:
    """The kinds of what is spoken of."""
    return frozenset(map(_kind, mentions))
