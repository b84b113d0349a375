"""Cooking yields derived from the dataset: the weight, water and fat of cooked food by 1 g of raw food."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal

from ..tables import Row, load
from ..units.spread import Spread
from .treatments import places_to_look

Quantity = Literal["weight", "water_change", "fat_change"]


@dataclass(frozen=True, slots=True)
class CookingYield:
    """A yield from `pairs` pairs of rows. per_g: g per g of raw food; a change below 0 is a loss."""

    per_g: Spread
    source: str
    pairs: int


def cooking_yield(kind: str | None, treatment: str, quantity: Quantity = "weight") -> CookingYield | None:
    """The yield of a kind of food (retention_kinds.csv) under a treatment (heat_treatments.csv).

    quantity: "weight" (g cooked), "water_change" or "fat_change" (g lost, below 0, or taken up). None where
    nothing like it is known. Raises ValueError where there is no such treatment.
    """
    keys = ((near, heat, quantity) for near, heat in places_to_look(kind, treatment))
    return next((_yields()[key] for key in keys if key in _yields()), None)


@cache
def _yields() -> dict[tuple[str, str, str], CookingYield]:
    return dict(load("yields_derived", _row))


def _row(row: Row) -> tuple[tuple[str, str, str], CookingYield]:
    pairs = int(row["pairs"])
    source = f"derived from {pairs} raw and cooked rows of SR28: {row['kind']}, {row['treatment']}"
    key = (row["kind"], row["treatment"], row["quantity"])
    return key, CookingYield(Spread.from_mapping(row), source, pairs)
