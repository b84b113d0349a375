"""The built tables of USDA's foods, read fast and turned into foods one by one, when they are asked for."""

from __future__ import annotations

import csv
import math
from collections.abc import Collection, Iterator, Mapping

import numpy as np

from ..core.errors import BrokenTable
from .food import Food, Household, Values, group_names
from .nutrients import INDEX


class Shelf(Mapping[str, Food]):
    """Foods by code, from the texts of data/foods.csv and data/values.csv, a line each. names: every name, by
    code."""

    def __init__(self, foods_csv: str, values_csv: str) -> None:
        head, *lines = foods_csv.splitlines()
        self._columns = head.split(",")
        self.names = {code: name for code, _, name, *_ in csv.reader(lines)}
        self._described = dict(zip(self.names, lines, strict=True))
        self._figures = _figures(values_csv, self._described)
        self._made: dict[str, Food] = {}

    def __getitem__(self, code: str) -> Food:
        if code not in self._made:
            row = dict(zip(self._columns, next(csv.reader([self._described[code]])), strict=True))
            self._made[code] = _food(row, _values(self._figures[code]))
        return self._made[code]

    def __iter__(self) -> Iterator[str]:
        return iter(self._described)

    def __len__(self) -> int:
        return len(self._described)


def _figures(text: str, codes: Collection[str]) -> dict[str, str]:
    """Each food's line of values.csv, without its code; BrokenTable where heads or codes disagree.

    Left as text, since a service is asked for few of the foods and turning all into numbers takes longer than
    the rest of its start.
    """
    head, *lines = text.splitlines()
    if head.split(",") != ["code", *INDEX]:
        raise BrokenTable("data/values.csv", 0, "its columns are not those of nutrients.csv: build it again")
    figures = {code: rest for code, _, rest in (line.partition(",") for line in lines)}
    if list(figures) != list(codes):
        raise BrokenTable("data/values.csv", 0, "its codes are not those of foods.csv: build it again")
    return figures


def _values(line: str) -> Values:
    """The figures of one food, shape (nutrients,); a blank cell is not known."""
    values = np.array([float(cell) if cell else math.nan for cell in line.split(",")])
    if len(values) != len(INDEX):
        raise BrokenTable("data/values.csv", 0, f"{line!r} has {len(values)} figures, wanted {len(INDEX)}")
    values.setflags(write=False)
    return values


def _known(text: str) -> float | None:
    return float(text) if text else None


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
        protein_kcal_g=_known(row["protein_kcal_g"]),
        fat_kcal_g=_known(row["fat_kcal_g"]),
        carbohydrate_kcal_g=_known(row["carbohydrate_kcal_g"]),
        source=f"USDA SR28, NDB {row['code']}",
    )
