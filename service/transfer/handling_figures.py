"""What food takes up or loses by handling: frying fat, coats that cling to its faces, cans drained and
rinsed, loose food under running water, gelatine that a pot takes out of bones.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

import numpy as np

from ..core.name_rules import NameRules
from ..core.sourced import Named, SourcedFigure, figure_of, figures, spread_of
from ..core.spread import Draws, Spread
from ..core.tables import Row, load
from .food_kinds import kind_of

FOOD_G_CM3 = 1.06
"""Density of meat and fish, near that of most solid food (from memory)."""

LEFT = 0.05
"""Of what is set out, the least that is left on tray and hands: common practice, no source."""


@dataclass(frozen=True, slots=True)
class Drained:
    """What stays of a listed canned food: `weight` and `sodium` as shares of what was listed, 0 to 1."""

    weight: Spread
    sodium: Spread
    source: str


@dataclass(frozen=True, slots=True)
class Course:
    """What a gram of raw food gives: `most` in g by the end of time, half of it in half_h hours."""

    most: SourcedFigure
    half_h: float


def fat_uptake(food: Named | None, *, coated: bool = False) -> SourcedFigure:
    """Grams of frying fat taken up per gram of food as it goes into the fat."""
    coating = "coated" if coated else "none"
    table = figures("fat_uptake", "kind", "coating")
    held = table.get((kind_of("fryer", food), coating)) or table["any", coating]
    return held.scaled(0.01)


def drain_and_rinse(
    food: Named | None, *, rinsed: bool = False, weighed_drained: bool = False, before: str = ""
) -> Drained | None:
    """What a canned food keeps when its liquid is poured off; None where it is not known to be in liquid.

    weighed_drained: its weight is that of what stays, at the sodium of all that was in the can. before:
    "drained" or "rinsed" where that was done to it already, so that there is little more to take.
    """
    kind, cans = kind_of("can", food), _cans()
    if kind is None:
        return None
    held = cans[kind, rinsed]
    if before:
        again = cans.get((f"{before}_{kind}", rinsed))
        in_liquid = before == "rinsed" or not cans[kind, False].weight.is_exact
        return again or (Drained(Spread.exact(1.0), Spread.exact(1.0), held.source) if in_liquid else held)
    if not weighed_drained or held.weight.high >= 1.0:
        return held
    kept, stays = held.sodium, held.weight
    of_what_stays = Spread(kept.low / stays.low, kept.likely / stays.likely, kept.high / stays.high)
    return Drained(Spread.exact(1.0), of_what_stays, held.source)


@cache
def _cans() -> dict[tuple[str, bool], Drained]:
    return dict(load("drained_cans", _can_of))


def _can_of(row: Row) -> tuple[tuple[str, bool], Drained]:
    drained = Drained(spread_of(row, "weight_"), spread_of(row, "sodium_"), row["source"])
    return (row["kind"], row["rinsed"] == "yes"), drained


def rinse_rate_per_min(food: Named | None) -> SourcedFigure | None:
    """1/min for what is loose (flakes, curds, shreds); None for whole pieces and what is not known."""
    return None if food is None else _rinse_rates().first(food.name, food.group_code)


@cache
def _rinse_rates() -> NameRules[SourcedFigure]:
    return NameRules.of("rinsing", figure_of)


def clinging(coating: Named | None) -> SourcedFigure:
    """g of a coating (flour, crumbs, sugar ...) on 100 cm2 of food."""
    table = figures("coatings", "kind")
    return table.get(kind_of("coating", coating) or "any", table["any"])


def coat(foods: Sequence[tuple[Named, float]]) -> SourcedFigure:
    """g on 100 cm2 of a coating by its foods with their g, heaviest first: a batter, a film of each layer
    (flour, egg, crumbs), or its heaviest food."""
    grams: dict[str, float] = {}
    for food, g in foods:
        kind = kind_of("coating", food) or "any"
        grams[kind] = grams.get(kind, 0.0) + g
    whole_g = sum(grams.values())
    wet = (grams.get("egg_wash", 0.0) + grams.get("any", 0.0)) / whole_g if whole_g else 0.0
    layers = [kind for kind in _LAYERS if grams.get(kind, 0.0) > _A_LAYER * whole_g]
    if "flour" in layers and "crumbs" not in layers and wet >= _WET:
        return figures("coatings", "kind")["batter"]
    if len(layers) < 2 or "egg_wash" not in layers:
        return clinging(foods[0][0] if foods else None)
    films = [figures("coatings", "kind")[kind] for kind in layers]
    spreads = [film.spread for film in films]
    whole = Spread(*(sum(getattr(s, end) for s in spreads) for end in ("low", "likely", "high")))
    return SourcedFigure(whole, max(films, key=lambda film: film.spread.likely).source)


_LAYERS = ("flour", "egg_wash", "crumbs", "cheese", "nuts")
_A_LAYER = 0.05
"""Share of the weight of a coating from which on a kind makes a layer of its own."""
_WET = 0.5
"""Share of what is no flour, from which on it is a batter: common practice, no source."""


def wanted_g(weight_g: Draws, surface_per_cm: Draws, film_g_100_cm2: Draws) -> Draws:
    """g that the faces of a food would take. surface_per_cm: cm2 of surface per cm3 of food."""
    return np.asarray(weight_g / FOOD_G_CM3 * surface_per_cm * film_g_100_cm2 / 100)


def clings_g(wanted_g: Draws, set_out_g: Draws) -> Draws:
    """g that cling of what is set out: what is wanted, as long as there is enough of it."""
    return np.minimum(wanted_g, (1 - LEFT) * set_out_g)


def gelatine_of(kind: str | None) -> Course | None:
    """Protein that a pot takes out, by the food's kind as yields know it; None where it is not worth
    counting."""
    table = courses("gelatine")
    return table.get(kind or "") or table.get((kind or "").partition("/")[0])


@cache
def courses(table: str) -> dict[str, Course]:
    """The rows of such a table, by their kinds."""
    return dict(load(table, lambda row: (row["kind"], Course(figure_of(row), float(row["half_h"])))))
