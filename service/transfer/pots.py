"""Food in hot liquid: how far salt passes, where it comes to rest, and what the food weighs after.

Only figures with their spread and source, from the tables; the recipe moves the amounts. All shares are 0 to
1 (water uptake makes a yield larger). A pot is `simmer` or `boil`; times are in hours, temperatures in C.
Frying fat and cans are in `handling_figures`, named here again so that a step asks one place.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import cast, get_args

import numpy as np

from ..core.sourced import Named, SourcedFigure, figures, spread_of
from ..core.spread import Spread
from ..core.tables import Row, load
from ..diffusion.eigenmodes import Shape
from .food_kinds import kind_of
from .handling_figures import Drained, drain_and_rinse, fat_uptake

__all__ = [
    "CookingCourse",
    "CookingYield",
    "Drained",
    "PotKind",
    "cooking_course",
    "cooking_yield",
    "drain_and_rinse",
    "drip_share",
    "fat_uptake",
    "mobile_share",
    "partition",
    "pot_fourier",
    "pot_kind_of",
    "pot_kinds",
    "shrinkage",
    "yield_kind_of",
]

BOILING_C = 95.0
"""The temperature that the table's diffusivities stand for."""

_ACTIVATION_J_MOL = 18_000.0
"""That of the viscosity of water (from memory); see pot_exchange.csv."""

_GAS_J_MOL_K = 8.314462618
_POT = frozenset({"simmer", "boil"})


@dataclass(frozen=True, slots=True)
class PotKind:
    """How a kind of food passes a small solute in hot liquid.

    thickness_cm: of a sheet, or the diameter of a cylinder or sphere. diffusivity_m2_s: at 95 C.
    partition: concentration in the food's water over that in the pot's water, at rest.
    """

    kind: str
    shape: Shape
    thickness_cm: Spread
    diffusivity_m2_s: Spread
    partition: Spread
    source: str


@dataclass(frozen=True, slots=True)
class CookingYield:
    """What is left of a food: `weight` of its raw weight and `fat_kept` of its fat, as shares."""

    weight: Spread
    fat_kept: Spread
    source: str


@dataclass(frozen=True, slots=True)
class CookingCourse:
    """How a food comes to its end in the heat: straight on, half of what is left every `half_h` hours.

    usual: what is left after usual_h hours. Weight goes up where a food drinks.
    """

    usual: CookingYield
    usual_h: float
    half_h: float

    def far(self, duration_h: float) -> float:
        """How far to the end a raw food has come, 0 to 1."""
        return float(-math.expm1(-math.log(2) * duration_h / self.half_h))

    def after(self, duration_h: float) -> CookingYield:
        """What is left of a raw food after so many hours."""
        share = self.far(duration_h) / self.far(self.usual_h)
        usual = self.usual
        return CookingYield(_towards(usual.weight, share), _towards(usual.fat_kept, share), usual.source)


def pot_kind_of(food: Named | None) -> str | None:
    """What a dataset food is in a pot (see `pot_kinds`); None for a liquid, a fat or a powder."""
    return kind_of("pot", food)


def yield_kind_of(food: Named | None) -> str | None:
    """The finer kind that yields know a food as ("meat/lamb"); None where that of the pot stands."""
    return kind_of("yield", food)


@cache
def pot_kinds() -> dict[str, PotKind]:
    return {kind.kind: kind for kind in load("pot_exchange", _pot_kind)}


def partition(kind: str) -> SourcedFigure:
    """Concentration in the food's water over that in the pot's water, once nothing moves any more."""
    held = pot_kinds()[kind]
    return SourcedFigure(held.partition, held.source)


@lru_cache(maxsize=1024)
def pot_fourier(
    kind: str, duration_h: float, thickness_cm: float | None = None, temperature_c: float = BOILING_C
) -> SourcedFigure:
    """Dimensionless time D t / l^2 in the pot.

    thickness_cm: measured, else that of the kind. The spreads of diffusivity and thickness are joined as
    independent ones, on logarithms.
    """
    held = pot_kinds()[kind]
    thickness = held.thickness_cm if thickness_cm is None else Spread.exact(thickness_cm)
    hot = _warmth(temperature_c) * duration_h * 3600 / (0.005 * thickness.likely) ** 2
    d = held.diffusivity_m2_s
    below = math.hypot(math.log(d.likely / d.low), 2 * math.log(thickness.high / thickness.likely))
    above = math.hypot(math.log(d.high / d.likely), 2 * math.log(thickness.likely / thickness.low))
    likely = d.likely * hot
    return SourcedFigure(Spread(likely * math.exp(-below), likely, likely * math.exp(above)), held.source)


@lru_cache(maxsize=1024)
def cooking_course(kind: str | None, method: str) -> CookingCourse:
    """How a food by kind (see `pot_kind_of`, `yield_kind_of`; None for others) changes in the heat of a step.

    method: simmer, boil, steam, roast or fry. A finer kind without a row takes that of its kind, a kind
    without one that of any food. Raises KeyError for another method.
    """
    step, table = "pot" if method in _POT else method, _courses()
    names = (kind or "any", (kind or "any").partition("/")[0], "any")
    return table[next((name for name in names if (name, step) in table), "any"), step]


def cooking_yield(kind: str | None, method: str, duration_h: float | None = None) -> CookingYield:
    """Cooked over raw weight after so many hours; None takes the usual doneness. See `cooking_course`."""
    course = cooking_course(kind, method)
    return course.usual if duration_h is None else course.after(duration_h)


@cache
def _shrinkages() -> tuple[tuple[float, ...], tuple[float, ...]]:
    rows = load("shrinkage", lambda row: (float(row["temperature_c"]), float(row["share"])))
    celsius, shares = zip(*rows, strict=True)
    return celsius, shares


def shrinkage(temperature_c: float | None) -> float:
    """Share (0 to 1) of its whole change in the heat that a food comes to at a temperature; 1 if unknown."""
    return 1.0 if temperature_c is None else float(np.interp(temperature_c, *_shrinkages()))


def drip_share(kind: str | None, method: str) -> SourcedFigure:
    """Of the water lost to steam, roast or fry: the share that runs out as juice, with its salts.

    Raises KeyError for another method.
    """
    table = figures("drip", "kind", "method")
    return table.get((kind or "any", method)) or table["any", method]


def mobile_share(tag: str, kind: str | None = None) -> SourcedFigure | None:
    """The share of a nutrient that is free to leave with juice and into the pot; None where it stays put.
    kind: of the food (see `pot_kinds`), where it has shares of its own."""
    table = figures("leaching", "kind", "tag")
    return table.get((kind or "", tag)) or table.get(("", tag))


def _warmth(temperature_c: float) -> float:
    """How much faster diffusion is than at 95 C (Arrhenius)."""
    inverse = 1 / (temperature_c + 273.15) - 1 / (BOILING_C + 273.15)
    return math.exp(-_ACTIVATION_J_MOL / _GAS_J_MOL_K * inverse)


def _pot_kind(row: Row) -> PotKind:
    return PotKind(
        row["kind"],
        _shape_of(row["shape"]),
        spread_of(row, "thickness_cm_"),
        spread_of(row, "d95_").scaled(1e-9),
        spread_of(row, "partition_"),
        row["source"],
    )


def _shape_of(word: str) -> Shape:
    for shape in get_args(Shape):
        if word == shape:
            return cast(Shape, shape)
    raise ValueError(f"unknown shape {word!r}")


@cache
def _courses() -> dict[tuple[str, str], CookingCourse]:
    return dict(load("cooking_yields", _course_of))


def _course_of(row: Row) -> tuple[tuple[str, str], CookingCourse]:
    usual = CookingYield(spread_of(row), spread_of(row, "fat_kept_"), row["source"])
    return (row["kind"], row["method"]), CookingCourse(usual, float(row["usual_h"]), float(row["half_h"]))


def _towards(spread: Spread, share: float) -> Spread:
    """What is left where `share` of the usual loss has happened, never less than nothing."""
    return Spread(*(max(1 - (1 - value) * share, 0.0) for value in (spread.low, spread.likely, spread.high)))
