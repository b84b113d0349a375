"""What is known of one food, and how it is written in answers."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ..core.tables import rows
from .nutrients import INDEX, NUTRIENTS


@dataclass(frozen=True, slots=True)
class Household:
    """A measure of one food and what it weighs, without refuse: label as written, grams > 0."""

    label: str
    grams: float

    @property
    def amount(self) -> float:
        """How many of `unit` weigh `grams`: 0.5 for ".5 cup, slices"; 1 where the label has no number."""
        return parse(self.label)[0]

    @property
    def unit(self) -> str:
        """The unit's words, lower case: "cup", "fl oz", "large", "slice"."""
        return parse(self.label)[1]

    @property
    def form(self) -> str:
        """What follows the unit, lower case: "chopped", "(8 fl oz)"; often ''."""
        return parse(self.label)[2]


@lru_cache(maxsize=4096)
def parse(label: str) -> tuple[float, str, str]:
    """Amount, unit and form of a label.

    >>> parse(".5 cup, slices")
    (0.5, 'cup', 'slices')
    >>> parse("1 large (2-1/4 per lb)")
    (1.0, 'large', '(2-1/4 per lb)')
    """
    head, _, form = re.sub(r"\s*,?\s*\(", ", (", label.lower().strip(), count=1).partition(",")
    number, unit = re.fullmatch(r"(\d*\.?\d+)?\s*(.*)", head, re.DOTALL).groups()  # type: ignore[union-attr]
    return float(number or 1), unit.strip(), form.strip()


Values = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Sugars:
    """What somebody states of the sugars of a food: how many of them were added, g in 100 g; None: not
    known."""

    added_g: float | None


@dataclass(frozen=True, slots=True, eq=False)
class Food:
    """One food.

    values: per 100 g without refuse, shape (len(NUTRIENTS),), each in its nutrient's unit; NaN = not known.
    refuse_percent: share of the food as bought that is not eaten, 0 to 100; None = not known.
    sugars: what is stated of added ones, None for foods of the dataset, whose names tell.
    The energy factors are in kcal per g; None = not given.
    """

    code: str
    name: str
    group: str
    group_code: str
    values: Values
    household: tuple[Household, ...] = ()
    refuse_percent: float | None = None
    refuse_description: str = ""
    protein_kcal_g: float | None = None
    fat_kcal_g: float | None = None
    carbohydrate_kcal_g: float | None = None
    source: str = ""
    sugars: Sugars | None = None

    def per_100g(self, tag: str) -> float | None:
        """Amount of a nutrient in 100 g, in the nutrient's unit; None = not known. KeyError: no such tag."""
        value: float = self.values.item(INDEX[tag])
        return None if math.isnan(value) else value


@cache
def group_names() -> dict[str, str]:
    """Name of each food group, by code."""
    return {row["code"]: row["name"] for row in rows("food_groups")}


def food_document(food: Food) -> dict[str, Any]:
    """A food as GET /v1/foods/{code} answers it; a nutrient that is not known is null."""
    return {
        "code": food.code,
        "name": food.name,
        "group": food.group,
        "source": food.source,
        "refuse_percent": food.refuse_percent,
        "per_100g": {n.tag: _amount(food.per_100g(n.tag), n.unit) for n in NUTRIENTS},
        "household": [{"label": measure.label, "grams": measure.grams} for measure in food.household],
    }


def _amount(value: float | None, unit: str) -> dict[str, Any] | None:
    return None if value is None else {"amount": value, "unit": unit}
