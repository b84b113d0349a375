"""Retention: the share of each nutrient of a raw food that is in the food when it comes out of the heat.

`total` counts all that is lost, by heat, juice and pot together: for a calculation by the book, from raw rows
and the weight of the cooked dish. `heat` counts only what heat destroys: for a calculation that follows juice
and pot themselves. Using both would count one loss twice.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from ..core.sources import Source
from ..core.spread import Spread
from ..core.tables import Row, load, rows
from ..foods.nutrients import NUTRIENTS
from .treatments import ANY, check_treatment, places_to_look

Counts = Literal["total", "heat"]
Values = NDArray[np.float64]

NO_HEAT = "none"
WITH_LIQUID = "boil_with_liquid"


@dataclass(frozen=True, slots=True)
class Factor:
    """A retention factor, 0 to 1. pairs: pairs of rows it is derived from, 0 where it is not derived.

    mark: "verified-2nd" or "memory" (published), "derived", or "assumed" (no factor: kept whole).
    """

    kept: Spread
    source: str
    mark: str
    pairs: int = 0


@dataclass(frozen=True, slots=True, eq=False)
class Retention:
    """Factors of every nutrient, each array of shape (len(NUTRIENTS),), 0 to 1, in the order of NUTRIENTS."""

    low: Values
    likely: Values
    high: Values
    factors: tuple[Factor, ...]


KEPT = Factor(Spread.exact(1.0), "no factor is known: taken to be kept whole", "assumed")
UNTOUCHED = Factor(Spread.exact(1.0), "heat does not destroy it", "assumed")
NOT_HEATED = Factor(Spread.exact(1.0), "not heated", "assumed")


def retention(kind: str | None, treatment: str) -> Retention:
    """All that is lost, sodium among it, of a kind of food (retention_kinds.csv) under a treatment.

    Water is 1: it follows from the weight of the cooked food. Energy is 1: it follows from what yields it.
    Raises ValueError where there is no such treatment (heat_treatments.csv).
    """
    return _retention(kind, treatment, "total")


def heat_retention(kind: str | None, treatment: str) -> Retention:
    """What heat alone leaves: 1 for water, sodium, all elements and all else that heat cannot destroy.

    Raises ValueError where there is no such treatment.
    """
    return _retention(kind, treatment, "heat")


def factor(kind: str | None, treatment: str, tag: str, counts: Counts = "total") -> Factor:
    """The factor of one nutrient. Raises ValueError where there is no such treatment."""
    check_treatment(treatment)
    if treatment == NO_HEAT:
        return NOT_HEATED
    if counts == "heat" and tag not in heat_labile():
        return UNTOUCHED
    for key in _keys(kind, treatment, counts, tag):
        if key in _published():
            return _published()[key]
        if key in _derived():
            return _derived()[key]
    return KEPT


@cache
def heat_labile() -> frozenset[str]:
    """Tags of the nutrients that heat can destroy."""
    return frozenset(row["tag"] for row in rows("heat_labile"))


_Key = tuple[str, str, str, str]


def _keys(kind: str | None, treatment: str, counts: Counts, tag: str) -> Iterator[_Key]:
    if treatment == WITH_LIQUID:
        yield from _keys_with_liquid(kind, tag)
    else:
        yield from ((near, heat, counts, tag) for near, heat in places_to_look(kind, treatment))


def _keys_with_liquid(kind: str | None, tag: str) -> Iterator[_Key]:
    """Nothing is poured off, so that all that is lost is what heat destroys: the same as in a drained pot."""
    for near, heat in places_to_look(kind, "boil_drained"):
        if heat == "boil_drained" and near != ANY:
            yield near, WITH_LIQUID, "total", tag
        if tag in heat_labile():
            yield near, heat, "heat", tag


@lru_cache(maxsize=1024)
def _retention(kind: str | None, treatment: str, counts: Counts) -> Retention:
    factors = tuple(factor(kind, treatment, nutrient.tag, counts) for nutrient in NUTRIENTS)
    low, likely, high = (
        _frozen([getattr(each.kept, part) for each in factors]) for part in ("low", "likely", "high")
    )
    return Retention(low, likely, high, factors)


def _frozen(figures: list[float]) -> Values:
    values = np.array(figures)
    values.setflags(write=False)
    return values


@cache
def _published() -> dict[_Key, Factor]:
    """The handbook's factors, and before them what trials tell of single nutrients."""
    return dict(load("retention_factors", _published_row)) | dict(load("retention_trials", _trial_row))


@cache
def _derived() -> dict[_Key, Factor]:
    return dict(load("retention_derived", _derived_row))


def _published_row(row: Row) -> tuple[_Key, Factor]:
    source = f"USDA Table of Nutrient Retention Factors, Release 6 (2007), code {row['code']}"
    key = (row["kind"], row["treatment"], "total", row["tag"])
    return key, Factor(_share(row), source, row["mark"])


def _trial_row(row: Row) -> tuple[_Key, Factor]:
    key = (row["kind"], row["treatment"], row["counts"], row["tag"])
    return key, Factor(_share(row), row["source"], row["mark"])


def _derived_row(row: Row) -> tuple[_Key, Factor]:
    pairs = int(row["pairs"])
    words = f"derived from {pairs} raw and cooked rows of SR28: {row['kind']}, {row['treatment']}"
    key = (row["kind"], row["treatment"], row["counts"], row["tag"])
    source = Source(words, f"retention_derived:{'/'.join(key)}")
    return key, Factor(_share(row), source, "derived", pairs)


def _share(row: Row) -> Spread:
    spread = Spread.from_mapping(row)
    if spread.low < 0 or spread.high > 1:
        raise ValueError(f"a retention factor must be 0 to 1, got {spread}")
    return spread
