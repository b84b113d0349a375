"""What a line may hold of sodium where its food, weight or amount is not known, by its words
(sodium_priors.csv)."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Literal

from ..core.name_rules import NameRules
from ..core.spread import Spread
from ..core.tables import Row

Dish = Literal["savoury", "sweet"]

SWEET_FROM = 0.08
"""The share of sugars in the weight of a dish from which on it is taken to be a sweet one; our own
judgement."""


@dataclass(frozen=True, slots=True)
class Prior:
    """A row of the table. per_100g: mg of sodium in 100 g of the thing; in_dish: what it brings to 100 g of
    dish."""

    kind: str
    dish: str
    is_named: bool
    """Whether words of the line choose the row, rather than that nothing else fits."""
    per_100g: Spread
    in_dish: Spread
    source: str
    mark: str


@lru_cache(maxsize=4096)
def prior_of(text: str, dish: Dish = "savoury") -> Prior:
    """The first row that fits a line; the last rows fit any."""
    fitting = _rules().all(text.replace("’", "'"))
    return next(prior for prior in fitting if prior.dish in ("any", dish))


def priors() -> tuple[Prior, ...]:
    """The rows of sodium_priors.csv."""
    return tuple(prior for _, prior in _rules().rows)


@cache
def _rules() -> NameRules[Prior]:
    return NameRules.of("sodium_priors", _prior)


def _prior(row: Row) -> Prior:
    if row["dish"] not in ("any", "savoury", "sweet"):
        raise ValueError(f"dish must be any, savoury or sweet, got {row['dish']!r}")
    return Prior(
        kind=row["kind"],
        dish=row["dish"],
        is_named=bool(row["words"]),
        per_100g=Spread.from_mapping(row),
        in_dish=Spread(*(float(row[f"dish_{end}"]) for end in ("low", "likely", "high"))),
        source=row["source"],
        mark=row["mark"],
    )
