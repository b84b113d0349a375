"""Effective diffusivities: how fast a solute travels in a class of food at a temperature.

Owns the reading of diffusivities.csv (salt, by food) and solutes.csv (other solutes, over salt). Leaves out
hot pots, whose pieces soften and have their own table (`pots`).
"""

from __future__ import annotations

import math
from bisect import bisect_right
from dataclasses import dataclass, replace
from functools import cache, lru_cache
from itertools import groupby
from typing import TypeVar

from ..core.errors import NotFound
from ..core.sourced import SourcedFigure, figures, spread_of
from ..core.spread import Spread, product
from ..core.tables import Row, load, with_words

T = TypeVar("T")

_GAS_J_MOL_K = 8.314462618
_ZERO_C_K = 273.15
_COLDEST_C, _HOTTEST_C = -2.0, 100.0
"""Outside, food freezes or its water boils; the edge values are used."""


@dataclass(frozen=True, slots=True)
class _Salt:
    water_percent: float
    temperature_k: float
    spread_m2_s: Spread
    activation_j_mol: float
    activation_half_range_j_mol: float
    source: str


@lru_cache(maxsize=1024)
def effective_diffusivity(
    food_class: str,
    solute: str = "salt",
    temperature_c: float | Spread = 5.0,
    water_percent: float | None = None,
) -> SourcedFigure:
    """Effective diffusivity of `solute` (a row of solutes.csv) in `food_class` (a row of diffusivities.csv).

    In m2/s; draws that share food class and solute should share one draw. temperature_c is taken within -2
    to 100, and is a spread where nobody states it; water_percent is the food's, and counts for classes
    whose rows tell it. The range holds the spread over cuts, the ratio to salt and the temperature's, added
    as independent in the logarithm. Raises NotFound for an unknown class or solute.
    """
    salt = _of_water(_found(_salts(), "food class", food_class), water_percent)
    ratio = _found(figures("solutes", "solute"), "solute", solute)
    by_temperature = _warming(salt, temperature_c)
    source = salt.source
    if solute != "salt":
        source = with_words(salt.source, f"{salt.source}; over salt: {ratio.source}")
    return SourcedFigure(product(salt.spread_m2_s, ratio.spread, by_temperature), source)


def _warming(salt: _Salt, temperature_c: float | Spread) -> Spread:
    """How much faster salt goes than at its row's temperature."""
    if isinstance(temperature_c, Spread):
        likely = _warming(salt, temperature_c.likely)
        ends = (_warming(salt, end).likely / likely.likely for end in (temperature_c.low, temperature_c.high))
        return product(likely, Spread(next(ends), 1.0, next(ends)))
    kelvin = _ZERO_C_K + min(max(temperature_c, _COLDEST_C), _HOTTEST_C)
    colder = (1.0 / salt.temperature_k - 1.0 / kelvin) / _GAS_J_MOL_K
    warming = math.exp(salt.activation_j_mol * colder)
    reach = math.exp(salt.activation_half_range_j_mol * abs(colder))
    return Spread(warming / reach, warming, warming * reach)


def ratio_to_salt(solute: str) -> float:
    """The likely pace of a solute (a row of solutes.csv) over salt's. Raises NotFound for an unknown one."""
    return _found(figures("solutes", "solute"), "solute", solute).spread.likely


def pace_over_salt(solute: str) -> SourcedFigure:
    """The pace of a solute (a row of solutes.csv) over salt's, in any food and at any warmth."""
    return _found(figures("solutes", "solute"), "solute", solute)


def food_classes() -> tuple[str, ...]:
    """The food classes that have figures."""
    return tuple(_salts())


def solutes() -> tuple[str, ...]:
    """The solutes that have figures."""
    return tuple(figures("solutes", "solute"))


def _found(table: dict[str, T], kind: str, key: str) -> T:
    if key not in table:
        raise NotFound(kind, key)
    return table[key]


@cache
def _salts() -> dict[str, tuple[_Salt, ...]]:
    """By class: of a food whose water nobody knows, then by water."""
    rows = load("diffusivities", lambda row: (row["of_class"] or row["food_class"], _salt_of(row)))
    return {name: tuple(salt for _, salt in group) for name, group in groupby(rows, key=lambda row: row[0])}


def _of_water(salts: tuple[_Salt, ...], water_percent: float | None) -> _Salt:
    unknown, *told = salts
    if water_percent is None or not told:
        return unknown
    after = bisect_right([each.water_percent for each in told], water_percent)
    if after in {0, len(told)}:
        return told[min(after, len(told) - 1)]
    lower, upper = told[after - 1], told[after]
    part = (water_percent - lower.water_percent) / (upper.water_percent - lower.water_percent)
    nearer = lower if part < 0.5 else upper
    return replace(nearer, spread_m2_s=lower.spread_m2_s.towards(upper.spread_m2_s, part))


def _salt_of(row: Row) -> _Salt:
    return _Salt(
        float(row["water_percent"] or 0.0),
        _ZERO_C_K + float(row["temperature_c"]),
        spread_of(row).scaled(1e-10),
        1000.0 * float(row["activation_kj_mol"]),
        1000.0 * float(row["activation_half_range_kj_mol"]),
        row["source"],
    )
