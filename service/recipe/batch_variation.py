"""How far what is eaten may lie from the dataset's figures because batches of a food differ.

The steps move what the dataset says; here its range is widened once, at the end, by each line's part of what
is eaten. Draws belong to food and nutrient: one food is the same wherever it stands, and two versions of a
recipe meet the same batch. Column 0, the likely case, is left as it is.
"""

from __future__ import annotations

import zlib
from collections.abc import Callable, Iterator, Sequence
from functools import lru_cache

import numpy as np

from ..core.notices import Assumption
from ..core.spread import DRAWS, Draws, draw, stacked
from ..foods.batch_spread import batch_source, composition_spreads
from ..foods.food import Food
from .contents import per_g
from .pool_rows import ROW, ROWS, SODIUM
from .pools import Amounts, share_of

COUSINS = {"FASAT": "FAT", "FAMS": "FAT", "FAPU": "FAT", "FOLFD": "FOL", "FOLDFE": "FOL", "RETOL": "VITA_RAE"}
"""Nutrients that are part of another: they are high where it is high."""

_COPIES = 32
"""Foods share draws with one in so many others, which keeps the number of draws that are held in bounds."""

WORTH_SAYING = 0.01
"""A batch is an assumption of its own from this share of the sodium that is eaten on."""

Line = tuple[Food, float, str, bool]
"""A food, its eaten weight in g as listed, where it stands, and whether its sodium was measured after."""


@lru_cache(maxsize=256)
def batch_excess(food: Food) -> Amounts:
    """A batch's amounts over the dataset's, less 1, shape (ROWS, DRAWS + 1)."""
    excess = np.zeros((ROWS, DRAWS + 1))
    for tag, spread in composition_spreads(food).items():
        excess[ROW[tag]] = draw(spread, _cause(food, tag)) - 1
    excess.setflags(write=False)
    return excess


def _cause(food: Food, tag: str) -> str:
    """The name of what makes a batch high or low in a nutrient."""
    if tag == "NA":
        return f"batch/{food.code}/NA"
    return f"batch/{zlib.crc32(food.code.encode()) % _COPIES}/{COUSINS.get(tag, tag)}"


def widening(lines: Sequence[Line], eaten: Amounts, sodium: Draws) -> Amounts:
    """What each row of what is eaten is to be multiplied with, shape (ROWS, DRAWS + 1).

    eaten: likely amounts, shape (ROWS,); sodium: what `sodium_widening` says. What a line brings of a
    nutrient counts for as much of what is eaten as it is of all that the lines bring, and for no more.
    """
    factors = np.ones((ROWS, DRAWS + 1))
    part = np.empty_like(factors)
    for (food, *_), share in zip(lines, _shares(lines, eaten), strict=True):
        factors += np.multiply(share[:, np.newaxis], batch_excess(food), out=part)
    factors[SODIUM] = sodium
    return np.maximum(factors, 0.0, out=factors)


def sodium_widening(lines: Sequence[Line], eaten_mg: float, entered: Callable[[str], Draws | None]) -> Draws:
    """The same for sodium alone. entered: the draws of an assumption by its id, None where there is none."""
    factors = np.ones(DRAWS + 1)
    for (*_, pointer, _), (food, share) in zip(lines, _sodium_shares(lines, eaten_mg), strict=True):
        ratios = entered(f"batch:{pointer}")
        if share:
            factors += share * (batch_excess(food)[SODIUM] if ratios is None else ratios - 1)
    return np.maximum(factors, 0.0)


def batch_assumptions(lines: Sequence[Line], eaten_mg: float) -> Iterator[tuple[Assumption, str]]:
    """How far the sodium of a line may lie from the dataset's, and the cause of it, where it carries some."""
    for (_, _, pointer, _), (food, share) in zip(lines, _sodium_shares(lines, eaten_mg), strict=True):
        spread = composition_spreads(food).get("NA")
        if spread is not None and share >= WORTH_SAYING:
            yield Assumption(f"batch:{pointer}", spread, "ratio", batch_source(food)), _cause(food, "NA")


def _sodium_shares(lines: Sequence[Line], eaten_mg: float) -> list[tuple[Food, float]]:
    """Each line's part (0 to 1) of the sodium that is eaten; none where it was measured."""
    listed = [grams / 100 * (food.per_100g("NA") or 0.0) for food, grams, *_ in lines]
    whole = max(sum(listed), eaten_mg)
    return [
        (line[0], 0.0 if line[3] or whole <= 0 else mg / whole)
        for line, mg in zip(lines, listed, strict=True)
    ]


def _shares(lines: Sequence[Line], eaten: Amounts) -> Amounts:
    """Each line's part (0 to 1) of every row of what is eaten, shape (lines, ROWS)."""
    if not lines:
        return np.zeros((0, ROWS))
    listed = stacked([per_g(food) * grams for food, grams, *_ in lines])
    return share_of(listed, np.maximum(listed.sum(axis=0), eaten))
