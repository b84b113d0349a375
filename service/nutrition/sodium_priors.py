"""What a line may hold of sodium where its food, weight or amount is not known, by its words
(sodium_priors.csv)."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache, lru_cache
from typing import Literal

from ..core.name_rules import NameRules
from ..core.spread import Spread
from ..core.tables import Row, with_words
from .usual_amounts import usual

Dish = Literal["savoury", "sweet"]


_HALF = 0.5
"""From this sweetness on a dish is called sweet."""


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

    @property
    def is_nothing(self) -> bool:
        """Whether it is for lines that bring no sodium: tools, water that is poured away."""
        return self.kind.startswith("nothing")


def sweetness(sugars: float) -> float:
    """How far a dish with that share of sugars in its weight (0 to 1) is a sweet one: 0 savoury, 1 sweet.

    Between the ends of the row `sweet_dish` of usual_amounts.csv it is something of both, so that a little
    more sugar changes what salt "to taste" is taken for by a little.
    """
    ends = usual("sweet_dish").spread
    return min(max((sugars - ends.low) / (ends.high - ends.low), 0.0), 1.0)


def short_of(in_dish: Spread, rest_mg: float) -> float:
    """The share of what salt "to taste" usually brings (`Prior.in_dish`) that a dish is short of which holds
    rest_mg of sodium in 100 g by its other lines: 1 in a plain one, least where it is salty already."""
    spare = max(rest_mg - usual("unsalted_food").spread.likely, 0.0)
    return max(in_dish.likely - spare, in_dish.low) / in_dish.likely


def prior_of(text: str, sweet: float = 0.0) -> Prior:
    """The first row that fits a line in a dish of that sweetness (0 to 1); the last rows fit any.

    Where it is something of both, the figures lie as far between those of the two rows.
    """
    savoury, other = _in(text, "savoury"), _in(text, "sweet")
    if sweet in (0.0, 1.0) or savoury is other:
        return other if sweet == 1.0 else savoury
    return replace(
        other if sweet > _HALF else savoury,
        per_100g=_between(savoury.per_100g, other.per_100g, sweet),
        in_dish=_between(savoury.in_dish, other.in_dish, sweet),
    )


@lru_cache(maxsize=4096)
def _in(text: str, dish: Dish) -> Prior:
    fitting = _rules().all(text.replace("’", "'"))
    return next(prior for prior in fitting if prior.dish in ("any", dish))


def _between(first: Spread, second: Spread, share: float) -> Spread:
    ends = zip((first.low, first.likely, first.high), (second.low, second.likely, second.high), strict=True)
    return Spread(*((1 - share) * one + share * other for one, other in ends))


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
        source=with_words(row["source"], f"{row['source']} ({row['mark']})"),
        mark=row["mark"],
    )
