"""What a line may hold of sodium where its food, weight or amount is not known, by its words
(sodium_priors.csv)."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Literal

from ..core.spread import Spread
from ..core.tables import Row, load
from .name_patterns import words_pattern

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
    words: re.Pattern[str] | None
    unless: re.Pattern[str] | None
    per_100g: Spread
    in_dish: Spread
    source: str
    mark: str

    @property
    def is_named(self) -> bool:
        """Whether words of the line chose the row, rather than that nothing else fitted."""
        return self.words is not None

    def fits(self, text: str, dish: Dish) -> bool:
        return (
            self.dish in ("any", dish)
            and (self.words is None or self.words.search(text) is not None)
            and (self.unless is None or self.unless.search(text) is None)
        )


@lru_cache(maxsize=4096)
def prior_of(text: str, dish: Dish = "savoury") -> Prior:
    """The first row that fits a line; the last rows fit any."""
    lowered = text.lower().replace("’", "'")
    return next(prior for prior in priors() if prior.fits(lowered, dish))


@cache
def priors() -> tuple[Prior, ...]:
    """The rows of sodium_priors.csv."""
    return load("sodium_priors", _prior)


def _prior(row: Row) -> Prior:
    if row["dish"] not in ("any", "savoury", "sweet"):
        raise ValueError(f"dish must be any, savoury or sweet, got {row['dish']!r}")
    return Prior(
        kind=row["kind"],
        dish=row["dish"],
        words=words_pattern(row["words"]),
        unless=words_pattern(row["unless"]),
        per_100g=Spread.from_mapping(row),
        in_dish=Spread(*(float(row[f"dish_{end}"]) for end in ("low", "likely", "high"))),
        source=row["source"],
        mark=row["mark"],
    )
