"""What heat leaves of the vitamins of a food: the share of each nutrient that heat does not destroy.

What juice and pot carry off is followed by the calculation itself; a true retention factor, which counts all
losses together, would count that twice.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache, lru_cache
from itertools import product
from typing import Literal, cast, get_args

import numpy as np
from numpy.typing import NDArray

from ..core.name_rules import NameRules
from ..core.spread import Spread
from ..core.tables import Row, Source, load, rows
from ..foods.nutrients import NUTRIENTS

Values = NDArray[np.float64]

NO_HEAT = "none"


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


@lru_cache(maxsize=1024)
def heat_retention(kind: str | None, treatment: str) -> Retention:
    """What heat leaves of a kind of food (retention_kinds.csv) under a treatment (heat_treatments.csv).

    1 for water, sodium, all elements and all else that heat cannot destroy. Raises ValueError where there is
    no such treatment.
    """
    factors = tuple(factor(kind, treatment, nutrient.tag) for nutrient in NUTRIENTS)
    low, likely, high = (
        _frozen([getattr(each.kept, part) for each in factors]) for part in ("low", "likely", "high")
    )
    return Retention(low, likely, high, factors)


def factor(kind: str | None, treatment: str, tag: str) -> Factor:
    """The factor of one nutrient. Raises ValueError where there is no such treatment."""
    if treatment == NO_HEAT:
        return NOT_HEATED
    places = places_to_look(kind, treatment)
    if tag not in heat_labile():
        return UNTOUCHED
    found = (_factors().get((near, heat, tag)) for near, heat in places)
    return next((each for each in found if each), KEPT)


@cache
def heat_labile() -> frozenset[str]:
    """Tags of the nutrients that heat can destroy."""
    return frozenset(row["tag"] for row in rows("heat_labile"))


def _frozen(figures: list[float]) -> Values:
    values = np.array(figures)
    values.setflags(write=False)
    return values


_Key = tuple[str, str, str]


@cache
def _factors() -> dict[_Key, Factor]:
    """What the dataset's pairs tell and, before them, what trials tell of single nutrients."""
    return dict(load("retention_derived", _derived_row)) | dict(load("retention_trials", _trial_row))


def _trial_row(row: Row) -> tuple[_Key, Factor]:
    return _key(row), Factor(_share(row), row["source"], row["mark"])


def _derived_row(row: Row) -> tuple[_Key, Factor]:
    pairs = int(row["pairs"])
    words = f"derived from {pairs} raw and cooked rows of SR28: {row['kind']}, {row['treatment']}"
    source = Source(words, f"retention_derived:{'/'.join(_key(row))}")
    return _key(row), Factor(_share(row), source, "derived", pairs)


def _key(row: Row) -> _Key:
    return row["kind"], row["treatment"], row["tag"]


def _share(row: Row) -> Spread:
    spread = Spread.from_mapping(row)
    if spread.low < 0 or spread.high > 1:
        raise ValueError(f"a retention factor must be 0 to 1, got {spread}")
    return spread


SOURCE = "USDA Table of Nutrient Retention Factors, Release 6 (2007), codes 5002 to 5009"


def alcohol_kept(minutes: float) -> Spread:
    """The share (0 to 1) that stays of alcohol that was stirred in and then simmered or baked so long."""
    times, shares = _course()
    return Spread(*(float(np.interp(minutes, times, each)) for each in shares))


@cache
def _course() -> tuple[list[float], list[list[float]]]:
    """Minutes, and for each of low, likely and high the shares at them."""
    course = load("alcohol_retention", lambda row: (float(row["minutes"]), Spread.from_mapping(row)))
    shares = [[getattr(share, end) for _, share in course] for end in ("low", "likely", "high")]
    return [minutes for minutes, _ in course], shares


ANY = "any"


@cache
def treatments() -> dict[str, tuple[str, ...]]:
    """The treatments whose factors stand in for each heat treatment's own, nearest first, by its id."""
    return {row["treatment"]: tuple(row["instead"].split()) for row in rows("heat_treatments")}


@cache
def kinds() -> dict[str, str]:
    """The kind whose factors stand in for each kind's own, "" where none does but "any"."""
    return {row["kind"]: row["like"] for row in rows("retention_kinds")}


def places_to_look(kind: str | None, treatment: str) -> Iterator[tuple[str, str]]:
    """(kind, treatment) in the order in which factors are looked for: a near treatment before a near kind.

    kind: one of retention_kinds.csv; None or a kind that is not there counts as "any".
    Raises ValueError where there is no such treatment (heat_treatments.csv).
    """
    if treatment not in treatments():
        raise ValueError(f"there is no heat treatment {treatment!r}; it is one of: {', '.join(treatments())}")
    like = [each for each in (kind, kinds().get(kind or "", "")) if each in kinds()]
    return product(dict.fromkeys([*like, ANY]), (treatment, *treatments()[treatment]))


State = Literal["cooked", "canned", "raw"]


@lru_cache(maxsize=4096)
def cooking_state(food_name: str, group_code: str) -> State | None:
    """cooked, canned (heated in the can), raw (not usually eaten so); None for a food that is neither."""
    return _states().first(food_name, group_code)


def is_done(food_name: str, group_code: str) -> bool:
    """Whether a food has had its heat already, so that its row holds what the heat left."""
    return cooking_state(food_name, group_code) in ("cooked", "canned")


def says_done(line: str) -> bool:
    """Whether the words of a line say that they mean a food that was cooked before."""
    lowered = line.lower()
    return any(rule.says(lowered) for rule, state in _states().rows if state != "raw")


@cache
def _states() -> NameRules[State]:
    return NameRules.of("cooking_states", _state)


def _state(row: Row) -> State:
    if row["state"] not in get_args(State):
        raise ValueError(f"state must be one of {get_args(State)}, got {row['state']!r}")
    return cast(State, row["state"])
