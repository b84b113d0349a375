"""Recipe calculation by the book: the mixed method of EuroFIR and INFOODS, from raw rows to a cooked dish.

A second way to a figure, to which published checks hold the factors. The engine itself follows juice and pot,
which this method cannot.

Retention is taken of each ingredient, yield of the whole recipe (EuroFIR D2.2.9, 2008): what 100 g of the
cooked dish hold is sum(grams x amount per 100 g x retention) / cooked weight. The weight that the dish loses
is taken as water, apart from fat that is said to have run off (FAO, Food composition data, 2003).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from saltledger.foods.nutrients import INDEX, NUTRIENTS
from saltledger.nutrition.energy import general_kcal_g

Values = NDArray[np.float64]

_MACRONUTRIENTS = ("PROCNT", "FAT", "CHOCDF")


@dataclass(frozen=True, slots=True, eq=False)
class Part:
    """An ingredient as it goes in: edible grams, amounts per 100 g (NaN: not known), and what is retained.

    values, retained: shape (len(NUTRIENTS),); retained 0 to 1. kcal_g: its own energy factors for protein,
    fat and carbohydrate, None where not given (then its energy per 100 g is taken as it stands).
    """

    grams: float
    values: Values
    retained: Values
    kcal_g: tuple[float | None, float | None, float | None] = (None, None, None)


@dataclass(frozen=True, slots=True, eq=False)
class CookedDish:
    """What 100 g of the cooked dish hold, and for what share (0 to 1) of the raw weight that is known."""

    per_100g: Values
    coverage: Values
    cooked_weight_g: float


def cooked_dish(parts: Sequence[Part], *, cooked_weight_g: float) -> CookedDish:
    """The dish that parts come to. A value that is not known adds nothing and lowers `coverage`.

    cooked_weight_g: above 0. Raises ValueError where it is not, or there are no parts.
    """
    if not parts or not cooked_weight_g > 0:
        raise ValueError(f"a dish needs parts and a cooked weight above 0 g, got {cooked_weight_g}")
    grams = np.array([part.grams for part in parts])
    held = np.array([_retained(part) for part in parts])
    known = ~np.isnan(held)
    totals = np.nansum(held, axis=0)
    totals[INDEX["WATER"]] += cooked_weight_g - float(grams.sum()) + _fat_lost(parts, totals)
    coverage = (known * grams[:, None]).sum(axis=0) / grams.sum()
    return CookedDish(totals * 100 / cooked_weight_g, coverage, cooked_weight_g)


def _retained(part: Part) -> Values:
    held = part.values * part.grams / 100 * part.retained
    held[INDEX["ENERC"]] = _energy_kcal(part, held)
    return held


def _energy_kcal(part: Part, held: Values) -> float:
    """By the food's own factors from what is retained; where it has none, its energy as it stands."""
    amounts = [held[INDEX[tag]] for tag in _MACRONUTRIENTS]
    if np.isnan(amounts).any() or None in part.kcal_g:
        return float(held[INDEX["ENERC"]])
    alcohol = float(np.nan_to_num(held[INDEX["ALC"]])) * general_kcal_g("ALC")
    return alcohol + sum(float(amount) * factor for amount, factor in zip(amounts, part.kcal_g, strict=True))


def _fat_lost(parts: Sequence[Part], totals: Values) -> float:
    went_in = sum(float(np.nan_to_num(part.values[INDEX["FAT"]])) * part.grams / 100 for part in parts)
    return went_in - float(totals[INDEX["FAT"]])


def kept_whole() -> Values:
    """Retention of what is not heated: 1 for every nutrient."""
    return np.ones(len(NUTRIENTS))
