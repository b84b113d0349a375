"""What a line weighs: a range in grams, how it was found, and when it is no more than a guess."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ...core.notices import Notice
from ...core.numbers import shown
from ...core.spread import Spread
from ...lines.line import Measure
from ..food import Food

BROAD = 3.0
"""From this ratio of high to low on, beyond the range that the line itself states, a weight is a guess."""

BROAD_CONTAINER = 1.8
"""The same for a bag, a jar or a can of no stated size: shops sell them in several."""

BROAD_RECKONED, WIDE_RECKONED_G = 1.47, 10.0
"""The same for a volume weighed by the usual density of such food: where its range is not narrow, half of
them lie outside what a kitchen scale would show."""

WIDE_G, WIDE_MG = 20.0, 1000.0
"""What the range of a guess has to reach, in g of the food or in mg of its sodium, to be worth a word."""


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


def is_guess(
    grams: Spread,
    amount: Spread | None,
    food: Food | None,
    *,
    reckoned: bool = False,
    container: bool = False,
) -> bool:
    """Whether `grams` of `food` are a guess where a line says `amount` (None: none).

    reckoned: they are a volume weighed by the usual density of such food, not of this one. container: of
    bags, jars or cans of no stated size.
    """
    width = grams.high - grams.low
    if reckoned and _ratio(grams) >= BROAD_RECKONED * _ratio(amount) and width > WIDE_RECKONED_G:
        return True
    if _ratio(grams) < (BROAD_CONTAINER if container else BROAD) * _ratio(amount):
        return False
    sodium = (food.per_100g("NA") if food else None) or 0.0
    return width > WIDE_G or width * sodium / 100 > WIDE_MG


def _ratio(spread: Spread | None) -> float:
    """High over low; 1 where there is no spread."""
    if spread is None:
        return 1.0
    return spread.high / spread.low if spread.low > 0 else math.inf
