"""The foods: the bundled dataset, hand-kept foods beside it, and a caller's own on top.

Bundled: USDA SR28 as built into seed_foods/data/, and what kitchens use and SR28 lacks (extra.py). A value
that is not known is NaN, never zero. Loading keeps text and one array; a food is made when asked for.
"""

from __future__ import annotations

import csv
import hashlib
import math
from collections import ChainMap
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from ..errors import BrokenTable, NotFound
from ..tables import document, rows, seed_foods
from .household import Household
from .nutrients import INDEX

Values = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Food:
    """One food.

    values: per 100 g without refuse, shape (len(NUTRIENTS),), each in its nutrient's unit; NaN = not known.
    refuse_percent: share of the food as bought that is not eaten, 0 to 100; None = not known.
    The energy factors are in kcal per g, nitrogen_factor in g protein per g nitrogen; None = not given.
    """

    code: str
    name: str
    group: str
    group_code: str
    values: Values
    household: tuple[Household, ...] = ()
    refuse_percent: float | None = None
    refuse_description: str = ""
    scientific_name: str = ""
    other_names: str = ""
    nitrogen_factor: float | None = None
    protein_kcal_g: float | None = None
    fat_kcal_g: float | None = None
    carbohydrate_kcal_g: float | None = None
    source: str = ""

    def per_100g(self, tag: str) -> float | None:
        """Amount of a nutrient in 100 g, in the nutrient's unit; None = not known. KeyError: no such tag."""
        value = float(self.values[INDEX[tag]])
        return None if math.isnan(value) else value


class Shelf(Mapping[str, Food]):
    """The built tables of USDA's foods, as a mapping that makes each food when it is first asked for."""

    def __init__(self, foods_csv: str, values_csv: str) -> None:
        self._columns, *described = csv.reader(foods_csv.splitlines())
        self._described = {row[0]: row for row in described}
        self._values = _figures(values_csv, self._described)
        self._places = {code: place for place, code in enumerate(self._described)}
        self._made: dict[str, Food] = {}
        self.names = {code: row[2] for code, row in self._described.items()}

    def __getitem__(self, code: str) -> Food:
        if code not in self._made:
            row = dict(zip(self._columns, self._described[code], strict=True))
            self._made[code] = _food(row, self._values[self._places[code]])
        return self._made[code]

    def __iter__(self) -> Iterator[str]:
        return iter(self._described)

    def __len__(self) -> int:
        return len(self._described)


def _figures(text: str, codes: Iterable[str]) -> Values:
    """The figures of values.csv, shape (foods, nutrients); BrokenTable where heads or codes disagree."""
    head, _, body = text.partition("\n")
    if head.split(",") != ["code", *INDEX]:
        raise BrokenTable("data/values.csv", 0, "its columns are not those of nutrients.csv: build it again")
    # Blank cells, also two in a row and at the end of a line, mean "not known".
    filled = body.rstrip("\n").replace("\n", ",\n").replace(",,", ",nan,").replace(",,", ",nan,")
    table = np.fromstring(filled.replace("\n", ""), sep=",").reshape(-1, len(INDEX) + 1)
    if table[:, 0].astype(int).tolist() != [int(code) for code in codes]:
        raise BrokenTable("data/values.csv", 0, "its codes are not those of foods.csv: build it again")
    values = np.ascontiguousarray(table[:, 1:])
    values.setflags(write=False)
    return values


def _known(text: str) -> float | None:
    return float(text) if text else None


@cache
def group_names() -> dict[str, str]:
    """Name of each food group, by code."""
    return {row["code"]: row["name"] for row in rows("food_groups")}


def _food(row: Mapping[str, str], values: Values) -> Food:
    measures = ((row[f"measure_{n}"], row[f"grams_{n}"]) for n in (1, 2))
    return Food(
        code=row["code"],
        name=row["name"],
        group=group_names()[row["group"]],
        group_code=row["group"],
        values=values,
        household=tuple(Household(label, float(grams)) for label, grams in measures if label),
        refuse_percent=_known(row["refuse_percent"]),
        refuse_description=row["refuse"],
        scientific_name=row["scientific_name"],
        other_names=row["other_names"],
        nitrogen_factor=_known(row["nitrogen_factor"]),
        protein_kcal_g=_known(row["protein_kcal_g"]),
        fat_kcal_g=_known(row["fat_kcal_g"]),
        carbohydrate_kcal_g=_known(row["carbohydrate_kcal_g"]),
        source=f"USDA SR28, NDB {row['code']}",
    )


class FoodTable:
    """All foods that a request can use.

    names: every food's name, by code. identity: name, release and sha256 of the data, as answers give them.
    """

    def __init__(
        self, foods: Mapping[str, Food], names: Mapping[str, str], identity: Mapping[str, str]
    ) -> None:
        self._foods = foods
        self.names = names
        self.identity = dict(identity)
        self.custom: tuple[Food, ...] = ()

    @classmethod
    def of(cls, foods: Iterable[Food], identity: Mapping[str, str] | None = None) -> FoodTable:
        """A table of just these foods."""
        by_code = {food.code: food for food in foods}
        return cls(
            by_code, {code: food.name for code, food in by_code.items()}, identity or {"name": "foods"}
        )

    def get(self, code: str) -> Food:
        """The food of that code. Raises NotFound."""
        try:
            return self._foods[code]
        except KeyError:
            raise NotFound("food", code) from None

    def __contains__(self, code: object) -> bool:
        return code in self.names

    def __len__(self) -> int:
        return len(self.names)

    @property
    def codes(self) -> tuple[str, ...]:
        return tuple(self.names)

    def with_custom(self, foods: Iterable[Food]) -> FoodTable:
        """This table with a caller's own foods laid over it; a code that is there already is overruled."""
        custom = {food.code: food for food in foods}
        if not custom:
            return self
        names = {code: food.name for code, food in custom.items()}
        table = FoodTable(ChainMap(custom, self._foods), ChainMap(names, self.names), self.identity)  # type: ignore[arg-type]
        table.custom = tuple(custom.values())
        return table


@cache
def bundled() -> FoodTable:
    """The foods that come with the service."""
    texts = [seed_foods().joinpath(name).read_text("utf-8") for name in ("data/foods.csv", "data/values.csv")]
    shelf = Shelf(*texts)
    manifest = document("manifest")
    identity = {
        "name": manifest["name"],
        "release": manifest["release"],
        "sha256": hashlib.sha256("".join(texts).encode()).hexdigest(),
    }
    return FoodTable(shelf, shelf.names, identity)
