"""What food takes up or loses by handling: frying fat, cans drained and rinsed."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ..core.sourced import Named, SourcedFigure, figure_of, spread_of
from ..core.spread import Spread
from ..core.tables import Row, load
from .food_kinds import kind_of


@dataclass(frozen=True, slots=True)
class Drained:
    """What stays of a listed canned food: `weight` and `sodium` as shares of what was listed, 0 to 1."""

    weight: Spread
    sodium: Spread
    source: str


def fat_uptake(food: Named | None, *, coated: bool = False) -> SourcedFigure:
    """Grams of frying fat taken up per gram of food as it goes into the fat."""
    coating = "coated" if coated else "none"
    table = _fat_uptakes()
    held = table.get((kind_of("fryer", food), coating)) or table["any", coating]
    return held.scaled(0.01)


def drain_and_rinse(food: Named | None, *, rinsed: bool = False) -> Drained | None:
    """What a canned food keeps when its liquid is poured off; None where it is not known to be in liquid."""
    kind = kind_of("can", food)
    return None if kind is None else _cans()[kind, rinsed]


@cache
def _fat_uptakes() -> dict[tuple[str | None, str], SourcedFigure]:
    return dict(load("fat_uptake", lambda row: ((row["kind"], row["coating"]), figure_of(row))))


@cache
def _cans() -> dict[tuple[str, bool], Drained]:
    return dict(load("drained_cans", _can_of))


def _can_of(row: Row) -> tuple[tuple[str, bool], Drained]:
    drained = Drained(spread_of(row, "weight_"), spread_of(row, "sodium_"), row["source"])
    return (row["kind"], row["rinsed"] == "yes"), drained
