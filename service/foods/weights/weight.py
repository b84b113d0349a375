"""What a line weighs: a range in grams, how it was found, and how figures are written in words."""

from __future__ import annotations

from dataclasses import dataclass

from ...core.notices import Notice
from ...core.numbers import shown
from ...core.spread import Spread
from ...lines.line import Measure


@dataclass(frozen=True, slots=True)
class Weight:
    """What a line weighs: g of the food, None where it is not known; how it was found; notices.

    guessed: its range is so wide that it may well be wrong; a person's look is worth while.
    """

    grams: Spread | None
    basis: str
    source: str
    notices: tuple[Notice, ...] = ()
    guessed: bool = False


def said(measure: Measure) -> str:
    return f"{shown(measure.amount.likely)} {measure.unit or ''}".strip()


def range_text(grams: Spread) -> str:
    """From low to high, as "28 to 64 g"."""
    return f"{shown(grams.low)} to {shown(grams.high)} g"
