"""How far what is eaten may lie from the dataset's figures because batches of a food differ.

A row of the dataset is a mean; the carrot in the kitchen is one carrot. Salt, water, sugar and fat are what
they are, and a food that the caller describes is taken at its word (`composition_spread.csv`).

The steps move what the dataset says; here its range is widened once, at the end, by each line's part of what
is eaten. Draws belong to food and nutrient: one food is the same wherever it stands, and two versions of a
recipe meet the same batch. Column 0, the likely case, is left as it is.
"""

from __future__ import annotations

import zlib
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import cache, lru_cache

import numpy as np

from ..core.notices import Assumption
from ..core.spread import DRAWS, Draws, Spread, draw, stacked
from ..core.tables import Row, Source, load
from ..foods.food import Food
from ..transfer.food_kinds import kind_of
from .contents import per_g
from .pool_rows import ROW, ROWS, SODIUM
from .pools import Amounts, share_of

SALTED_MG = 200.0
"""From so much sodium in 100 g on, in mg, a food is taken to be salted by its maker."""

SOURCE = "how batches of a food differ: SR28's own rows of one food (composition_spread.csv)"


COUSINS = {"FASAT": "FAT", "FAMS": "FAT", "FAPU": "FAT", "FOLFD": "FOL", "FOLDFE": "FOL", "RETOL": "VITA_RAE"}
"""Nutrients that are part of another: they are high where it is high."""

_COPIES = 32
"""Foods share draws with one in so many others, which keeps the number of draws that are held in bounds."""

WORTH_SAYING = 0.01
"""A batch is an assumption of its own from this share of the sodium that is eaten on."""

Line = tuple[Food, float, str, bool]
"""A food, its eaten weight in g as listed, where it stands, and whether its sodium was measured after."""


def composition_kind(food: Food) -> str | None:
    """animal or plant; None for what is the same everywhere (salt, water) and for foods of the caller."""
    return kind_of("composition", food)


def composition_spreads(food: Food) -> Mapping[str, Spread]:
    """A batch's amount over the dataset's, by nutrient's tag, nine times in ten; empty for some foods."""
    kind = composition_kind(food)
    if kind is None:
        return {}
    salted = (food.per_100g("NA") or 0.0) >= SALTED_MG
    return _spreads(kind) | (_spreads("salted") if salted else {})


def batch_source(food: Food) -> str:
    """Where the spread of a food's sodium comes from."""
    kind = "salted" if (food.per_100g("NA") or 0.0) >= SALTED_MG else composition_kind(food)
    return Source(SOURCE, f"composition_spread:{kind}/NA")


@cache
def _spreads(kind: str) -> dict[str, Spread]:
    return {tag: spread for of, tag, spread in load("composition_spread", _spread_row) if of == kind}


def _spread_row(row: Row) -> tuple[str, str, Spread]:
    return row["kind"], row["tag"], Spread(min(float(row["low"]), 1.0), 1.0, max(float(row["high"]), 1.0))


@lru_cache(maxsize=256)
def sodium_excess(food: Food) -> Draws:
    """A batch's sodium over the dataset's, less 1, shape (DRAWS + 1,)."""
    spread = composition_spreads(food).get("NA")
    excess = np.zeros(DRAWS + 1) if spread is None else draw(spread, _sodium_cause(food)) - 1
    excess.setflags(write=False)
    return excess


@lru_cache(maxsize=2 * _COPIES)
def other_excess(kind: str, copy: int) -> Amounts:
    """The same of all other rows, shape (ROWS, DRAWS + 1), which foods of a kind and of one copy of the draws
    share; nothing in sodium's."""
    excess = np.zeros((ROWS, DRAWS + 1))
    for tag, spread in _spreads(kind).items():
        if tag != "NA":
            excess[ROW[tag]] = draw(spread, _shared_cause(copy, tag)) - 1
    excess.setflags(write=False)
    return excess


def _sodium_cause(food: Food) -> str:
    """The name of what makes a batch high or low in sodium."""
    return f"batch/{food.code}/NA"


def _shared_cause(copy: int, tag: str) -> str:
    """The same of another nutrient."""
    return f"batch/{copy}/{COUSINS.get(tag, tag)}"


def _copy_of(food: Food) -> int:
    return zlib.crc32(food.code.encode()) % _COPIES


def widening(lines: Sequence[Line], eaten: Amounts, sodium: Draws) -> Amounts:
    """What each row of what is eaten is to be multiplied with, shape (ROWS, DRAWS + 1).

    eaten: likely amounts, shape (ROWS,); sodium: what `sodium_widening` says. What a line brings of a
    nutrient counts for as much of what is eaten as it is of all that the lines bring, and for no more.
    """
    alike: dict[tuple[str, int], Amounts] = {}
    for (food, *_), share in zip(lines, _shares(lines, eaten), strict=True):
        if (kind := composition_kind(food)) is not None:
            key = kind, _copy_of(food)
            alike[key] = alike[key] + share if key in alike else share
    factors = np.ones((ROWS, DRAWS + 1))
    part = np.empty_like(factors)
    for (kind, copy), share in alike.items():
        factors += np.multiply(share[:, np.newaxis], other_excess(kind, copy), out=part)
    factors[SODIUM] = sodium
    return np.maximum(factors, 0.0, out=factors)


def sodium_widening(lines: Sequence[Line], eaten_mg: float, entered: Callable[[str], Draws | None]) -> Draws:
    """The same for sodium alone. entered: the draws of an assumption by its id, None where there is none."""
    factors = np.ones(DRAWS + 1)
    for (*_, pointer, _), (food, share) in zip(lines, _sodium_shares(lines, eaten_mg), strict=True):
        ratios = entered(f"batch:{pointer}")
        if share:
            factors += share * (sodium_excess(food) if ratios is None else ratios - 1)
    return np.maximum(factors, 0.0)


def batch_assumptions(lines: Sequence[Line], eaten_mg: float) -> Iterator[tuple[Assumption, str]]:
    """How far the sodium of a line may lie from the dataset's, and the cause of it, where it carries some."""
    for (_, _, pointer, _), (food, share) in zip(lines, _sodium_shares(lines, eaten_mg), strict=True):
        spread = composition_spreads(food).get("NA")
        if spread is not None and share >= WORTH_SAYING:
            yield Assumption(f"batch:{pointer}", spread, "ratio", batch_source(food)), _sodium_cause(food)


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
