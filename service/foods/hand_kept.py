"""Foods that SR28 lacks: the hand-kept ones (seed_foods/extra_foods.csv) and those a caller brings along."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np

from ..core.errors import Fault, InvalidRequest
from ..core.notices import STATED
from ..core.tables import Row, load, rows
from ..transfer.brine import KCL_G_PER_MOL, NACL_G_PER_MOL
from ..units.nutrient_amounts import grams_of
from .food import Food, Household, Values, group_names
from .nutrients import INDEX

SODIUM_IN_NACL = 22.98977 / NACL_G_PER_MOL
SODIUM_IN_NANO2 = 22.98977 / 68.9953
SODIUM_IN_NANO3 = 22.98977 / 84.9947
POTASSIUM_IN_KCL = 39.0983 / KCL_G_PER_MOL
"""Mass fractions, from the standard atomic weights."""


@dataclass(frozen=True, slots=True)
class _Chloride:
    mg_per_100g: float


CUSTOM_GROUP = "Custom food"


def extra_foods() -> tuple[Food, ...]:
    """The hand-kept foods, in the order of their table."""
    return load("extra_foods", _extra)


def cure_values(kind: str) -> dict[str, float]:
    """mg of sodium, nitrite (as NaNO2) and nitrate (as NaNO3) in 100 g of a curing salt.

    What is neither nitrite nor nitrate is sodium chloride. KeyError: no such kind.
    """
    row = next((row for row in rows("curing_salts") if row["kind"] == kind), None)
    if row is None:
        raise KeyError(kind)
    nitrite_g, nitrate_g = float(row["nitrite_percent"]), float(row["nitrate_percent"])
    sodium_g = (
        (100 - nitrite_g - nitrate_g) * SODIUM_IN_NACL
        + nitrite_g * SODIUM_IN_NANO2
        + nitrate_g * SODIUM_IN_NANO3
    )
    return {"NA": round(1000 * sodium_g), "NITRI": 1000 * nitrite_g, "NITRA": 1000 * nitrate_g}


def chloride_mg_per_100g(code: str) -> float:
    """Chloride of a salt by its code (chlorides.csv); 0 of foods, whose own is not known."""
    salt = _chlorides().get(code)
    return salt.mg_per_100g if salt else 0.0


@cache
def _chlorides() -> dict[str, _Chloride]:
    return dict(load("chlorides", lambda row: (row["code"], _Chloride(float(row["mg_per_100g"])))))


def _extra(row: Row) -> Food:
    named = {tag: float(amount) for tag, amount in _entries(row["per_100g"])}
    values = values_of(
        {"NITRI": 0.0, "NITRA": 0.0} | named | (cure_values(row["cure"]) if row["cure"] else {}),
        rest=0.0 if row["rest"] == "zero" else math.nan,
    )
    return Food(
        code=row["code"],
        name=row["name"],
        group=group_names()[row["group"]],
        group_code=row["group"],
        values=values,
        household=tuple(Household(label, float(grams)) for label, grams in _entries(row["household"])),
        refuse_percent=0.0,
        source=f"{row['source']} ({row['mark']})",
    )


def _entries(cell: str) -> list[tuple[str, str]]:
    """'1 tsp=6; 1 tbsp=18' -> [('1 tsp', '6'), ('1 tbsp', '18')]."""
    pairs = (entry.rpartition("=") for entry in cell.split("; ") if entry)
    return [(key, value) for key, _, value in pairs]


def values_of(per_100g: Mapping[str, float], rest: float = math.nan) -> Values:
    """Amounts by tag as an array, shape (len(NUTRIENTS),); rest: what the others are, NaN for not known."""
    values = np.full(len(INDEX), rest)
    for tag, amount in per_100g.items():
        values[INDEX[tag]] = amount
    values.setflags(write=False)
    return values


def custom_food(
    code: str,
    name: str,
    per_100g: Mapping[str, float],
    household: Iterable[Mapping[str, Any]] = (),
    *,
    pointer: str = "",
) -> Food:
    """A food as a caller describes it: amounts by tag in the units of nutrients.csv, the rest not known.

    household: objects with `label` and `grams`. Raises InvalidRequest with every unknown tag, each at its
    pointer below `pointer`, the food's place in the request.
    """
    unknown = [tag for tag in per_100g if tag not in INDEX]
    if unknown:
        raise InvalidRequest(_unknown_tag(tag, f"{pointer}/per_100g/{tag}") for tag in unknown)
    return Food(
        code=code,
        name=name,
        group=CUSTOM_GROUP,
        group_code="",
        values=values_of({"NITRI": 0.0, "NITRA": 0.0} | dict(per_100g), rest=math.nan),
        household=tuple(Household(str(m["label"]), grams_of(m["grams"])) for m in household),
        refuse_percent=0.0,
        source=STATED,
    )


def _unknown_tag(tag: str, pointer: str) -> Fault:
    return Fault(pointer, f"{tag!r} is not a nutrient tag; use one of {_listed(list(INDEX))}")


def _listed(tags: Sequence[str]) -> str:
    return f"{', '.join(tags[:-1])} or {tags[-1]}"
