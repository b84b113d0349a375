"""What heat destroys in a food: the part that neither juice nor pot carried off.

Retention is held per ingredient and heat treatment, then applied to the component by each ingredient's
share of each nutrient as listed. Sodium, water and all elements are never destroyed.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np

from ..findings import Assumption
from ..foods.dataset import Food
from ..foods.nutrients import INDEX, NUTRIENTS
from ..nutrition.alcohol import SOURCE, alcohol_kept
from ..nutrition.cooking_states import is_done
from ..nutrition.retention import NO_HEAT, heat_retention
from ..salt.figures import Figure
from ..salt.food_kinds import kind_of
from ..units.spread import NINETY_FIVE, Draws, Spread, standard_normal
from .rows import ALCOHOL, LABILE, ROW
from .work import Work

RETENTION = "retention by food and heat treatment, published or derived from SR28 pairs"

LABILE_NUTRIENTS = np.array([INDEX[tag] for tag in tuple(ROW)[LABILE]])
"""Places, in an array of NUTRIENTS, of what heat can destroy: in the order of the rows."""

_TREATMENTS = {"simmer": "simmer", "boil": "boil_drained", "steam": "steam", "roast": "roast", "fry": "fry"}


def lose_to_heat(work: Work) -> None:
    """Destroy what the heat of a step destroys in a component."""
    foods = work.character.foods
    if not foods:
        return
    loss = _Loss(work, foods)
    work.kitchen.ride_along(loss.happen)
    work.bench.book.add(loss.entries)
    lose_alcohol(work)


class _Loss:
    """What heat destroys in a component; worked out when what rides along is asked for."""

    def __init__(self, work: Work, foods: Sequence[tuple[Food, float]]) -> None:
        self._work, self._foods = work, foods
        self._present = np.zeros(len(LABILE_NUTRIENTS), dtype=bool)

    @cached_property
    def _factors(self) -> _Factors:
        return _mixed(self._foods, _TREATMENTS[self._work.step.kind])

    def happen(self) -> None:
        work = self._work
        held = work.kitchen.pools[work.name][LABILE]
        self._present = held[:, 0] > 0
        lost = held * (1.0 - self._factors.draws)
        work.kitchen.pass_others(work.name, "lost_to_heat", LABILE, lost, work.step.index)

    def entries(self) -> Iterator[Assumption]:
        """The factors of what the component held and heat destroys, as the book lists them."""
        work, spreads = self._work, self._factors.spreads
        work.kitchen.catch_up()
        step = work.step.index
        for at in np.flatnonzero(self._present & (spreads[0] < 0.9995)).tolist():
            low, likely, high = spreads[:, at].tolist()
            kept = Spread(min(low, likely), likely, max(high, likely))
            tag = NUTRIENTS[LABILE_NUTRIENTS[at]].tag
            yield Assumption(f"step-{step}/{work.name}/heat-kept/{tag}", kept, "fraction", RETENTION, step)


def _mixed(foods: Sequence[tuple[Food, float]], treatment: str) -> _Factors:
    """The factors of a mixture: of each nutrient, each food's by its share of it."""
    factors = [_factors(retention_kind(food), _left_to_do(food, treatment)) for food, _ in foods]
    if len(set(factors)) == 1:
        return factors[0]
    shares = _shares(foods)
    return _Factors(
        np.einsum("fl,fsl->sl", shares, np.stack([each.spreads for each in factors])),
        np.einsum("fl,fln->ln", shares, np.stack([each.draws for each in factors])).clip(0.0, 1.0),
    )


def _left_to_do(food: Food, treatment: str) -> str:
    """The treatment, or none where the row of the dataset holds what heat left already."""
    return NO_HEAT if is_done(food.name, food.group_code) else treatment


def lose_alcohol(work: Work) -> None:
    """Part of the alcohol of a component goes into the air, and its energy with it."""
    if not np.count_nonzero(work.pool[ALCOHOL]):
        return
    minutes = (work.step.duration_h or 0.0) * 60
    kept = work.assume("alcohol-kept", Figure(alcohol_kept(minutes=minutes), SOURCE), "fraction", ceiling=1.0)
    work.kitchen.move_alcohol(work.name, "lost_to_heat", 1 - kept, work.step.index)


@dataclass(frozen=True, slots=True, eq=False)
class _Factors:
    """What heat leaves of the labile nutrients of a kind: (low, likely, high) by nutrient, and its draws."""

    spreads: Draws
    draws: Draws


@lru_cache(maxsize=256)
def _factors(kind: str | None, treatment: str) -> _Factors:
    """All nutrients share one draw: what one pot does to thiamin it does to folate."""
    held = heat_retention(kind, treatment)
    low, likely, high = (part[LABILE_NUTRIENTS] for part in (held.low, held.likely, held.high))
    z = standard_normal(f"heat/{treatment}")
    reach = np.where(z < 0, np.multiply.outer(likely - low, z), np.multiply.outer(high - likely, z))
    draws = np.clip(likely[:, np.newaxis] + reach / NINETY_FIVE, 0.0, 1.0)
    return _Factors(np.stack((low, likely, high)), draws)


def _shares(foods: Sequence[tuple[Food, float]]) -> Draws:
    """Each food's share (0 to 1) of the listed amount of each labile nutrient, shape (foods, nutrients)."""
    amounts = np.stack([np.nan_to_num(food.values[LABILE_NUTRIENTS]) * grams for food, grams in foods])
    total = amounts.sum(axis=0)
    even = np.full_like(amounts, 1 / len(foods))
    return np.asarray(np.divide(amounts, total, out=even, where=total > 0))


def retention_kind(food: Food) -> str | None:
    """The kind of a food as retention factors know it; None for any."""
    if food.group_code.startswith("01"):
        return "egg" if food.name.startswith("Egg") else "dairy"
    return kind_of("pot", food)
