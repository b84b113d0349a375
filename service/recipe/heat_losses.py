"""What heat destroys in a food: the part that neither juice nor pot carried off.

Retention is held per ingredient and heat treatment, then applied to the component by each ingredient's
share of each nutrient as listed. Sodium, water and all elements are never destroyed.
"""

from __future__ import annotations

import numpy as np

from ..foods.dataset import Food
from ..foods.nutrients import INDEX, NUTRIENTS
from ..nutrition.alcohol import SOURCE, alcohol_kept
from ..nutrition.energy import alcohol_kcal_g
from ..nutrition.retention import heat_retention
from ..salt.figures import Figure
from ..salt.food_kinds import kind_of
from ..units.spread import NINETY_FIVE, Draws, Spread, standard_normal
from .kitchen import WEIGHT, Amounts, Flow
from .work import Work

ALCOHOL, ENERGY = INDEX["ALC"], INDEX["ENERC"]

_TREATMENTS = {"simmer": "simmer", "boil": "boil_drained", "steam": "steam", "roast": "roast", "fry": "fry"}


def lose_to_heat(work: Work) -> None:
    """Destroy what the heat of a step destroys in a component."""
    kept = _kept(work)
    rows = np.flatnonzero((kept.min(axis=1) < 1.0) & work.pool[:WEIGHT].any(axis=1))
    if rows.size:
        work.give("lost_to_heat", Flow(rows, work.pool[rows] * (1 - kept[rows])))
    lose_alcohol(work)


def lose_alcohol(work: Work) -> None:
    """Part of the alcohol of a component goes into the air, and its energy with it."""
    if not work.pool[ALCOHOL].any():
        return
    minutes = (work.step.duration_h or 0.0) * 60
    kept = work.assume("alcohol-kept", Figure(alcohol_kept(minutes=minutes), SOURCE), "fraction", ceiling=1.0)
    lost_g = work.pool[ALCOHOL] * (1 - kept)
    rows = np.array([ALCOHOL, ENERGY, WEIGHT])
    work.give("lost_to_heat", Flow(rows, np.stack((lost_g, lost_g * alcohol_kcal_g(), lost_g))))


def _kept(work: Work) -> Amounts:
    """Share (0 to 1) of each nutrient that the heat leaves, shape (len(NUTRIENTS), DRAWS + 1)."""
    foods = work.bench.characters[work.name].foods
    low, likely, high = _weighted(foods, _TREATMENTS[work.step.kind])
    _enter(work, low, likely, high)
    z = standard_normal(f"heat/{work.step.kind}") / NINETY_FIVE
    reach = np.where(z < 0, np.multiply.outer(likely - low, z), np.multiply.outer(high - likely, z))
    kept: Draws = np.clip(likely[:, np.newaxis] + reach, 0.0, 1.0)
    return kept


def _weighted(foods: tuple[tuple[Food, float], ...], treatment: str) -> tuple[Draws, Draws, Draws]:
    """Low, likely and high factors of a mixture, each nutrient's by where the mixture has it from."""
    whole = np.ones(len(NUTRIENTS))
    if not foods:
        return whole, whole, whole
    amounts = np.stack([np.nan_to_num(food.values) * grams for food, grams in foods])
    held = [heat_retention(retention_kind(food), treatment) for food, _ in foods]
    total = amounts.sum(axis=0)
    shares = np.divide(amounts, total, out=np.zeros_like(amounts), where=total > 0)
    low, likely, high = (
        np.where(total > 0, (shares * np.stack([getattr(each, part) for each in held])).sum(axis=0), 1.0)
        for part in ("low", "likely", "high")
    )
    return low, likely, high


def retention_kind(food: Food) -> str | None:
    """The kind of a food as retention factors know it; None for any."""
    if food.group_code.startswith("01"):
        return "egg" if food.name.startswith("Egg") else "dairy"
    return kind_of("pot", food)


def _enter(work: Work, low: Draws, likely: Draws, high: Draws) -> None:
    """Enter the factors into the book; they share one draw, for what one pot does to all of them."""
    for row in np.flatnonzero(low < 0.9995):
        if work.pool[row, 0] > 0:
            work.record(
                f"heat-kept/{NUTRIENTS[row].tag}",
                Spread(*sorted((float(low[row]), float(likely[row]), float(high[row])))),
                "fraction",
                "retention by food and heat treatment, published or derived from SR28 pairs",
            )
