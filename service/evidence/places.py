"""Where the figure of a measurement stands in what the service works out, as a spread in its unit.

weight             weight after over weight before
gain_percent       weight gained, percent of the raw weight
kept TAG           share of a nutrient of the raw food that is still in it
ratio TAG          amount in 100 g after over amount in 100 g before
batches TAG        the same, where another batch of the food was analysed before
per_100g TAG       amount in 100 g after, in the nutrient's unit
gained TAG         amount taken up for 100 g of raw food, in the nutrient's unit
salt_percent       sodium chloride in 100 g after, in g
water_salt_percent the same in 100 g of its water and salt
share NA           of the bath's sodium, the share that is in the food
figure ENDING      an assumption by the end of its name, in its own unit
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from ..core.spread import Draws, Spread, summarise
from ..recipe.outcome import Outcome
from ..recipe.pool_rows import ROW, SODIUM, WATER, WEIGHT
from ..recipe.pools import SALT_PER_SODIUM


class NoSuchPlace(ValueError):
    """A case names a place that is none."""


def spread_at(outcome: Outcome, place: str) -> Spread:
    """The figure at a place. Raises NoSuchPlace."""
    what, _, detail = place.partition(" ")
    if what == "figure":
        return _figure(outcome, detail)
    if what not in _DRAWN:
        raise NoSuchPlace(place)
    return summarise(_DRAWN[what](outcome, detail))


def _figure(outcome: Outcome, ending: str) -> Spread:
    for assumption in outcome.state.log:
        if assumption.id.endswith(ending):
            return assumption.value
    raise NoSuchPlace(f"no assumption ends in {ending!r}")


def _raw(outcome: Outcome, tag: str) -> float:
    """Amount that the food held before, in the nutrient's unit."""
    first = outcome.listed[0]
    food = first.ingredient.food
    return ((food.per_100g(tag) if food else None) or 0.0) * first.grams / 100


def _weight(outcome: Outcome) -> Draws:
    return np.asarray(outcome.eaten[WEIGHT] / outcome.listed[0].grams)


def _kept(outcome: Outcome, tag: str) -> Draws:
    return np.asarray(outcome.eaten[ROW[tag]] / _raw(outcome, tag))


def _batches(outcome: Outcome, tag: str) -> Draws:
    """The food was bought twice, and each batch lies off what foods of its name hold."""
    return np.asarray(outcome.per_100g[ROW[tag]] * outcome.listed[0].grams / 100 / _raw(outcome, tag))


def _gained(outcome: Outcome, tag: str) -> Draws:
    """What came to a food is told against a control of its own batch: how batches differ has no part."""
    eaten = outcome.state.pools.amounts["eaten"][ROW[tag]]
    return np.asarray((eaten - _raw(outcome, tag)) / outcome.listed[0].grams * 100)


def _salt_percent(outcome: Outcome) -> Draws:
    return np.asarray(outcome.per_100g[SODIUM] / 1000 * SALT_PER_SODIUM)


def _water_salt_percent(outcome: Outcome) -> Draws:
    salt_g = _salt_percent(outcome)
    return np.asarray(100 * salt_g / (salt_g + outcome.per_100g[WATER]))


def _share(outcome: Outcome) -> Draws:
    bath_mg = sum(each.sodium_mg or 0.0 for each in outcome.listed[1:])
    return np.asarray(_gained(outcome, "NA") * outcome.listed[0].grams / 100 / bath_mg)


_DRAWN: dict[str, Callable[[Outcome, str], Draws]] = {
    "weight": lambda outcome, _: _weight(outcome),
    "gain_percent": lambda outcome, _: 100 * (_weight(outcome) - 1),
    "kept": _kept,
    "ratio": lambda outcome, tag: _kept(outcome, tag) / _weight(outcome),
    "batches": _batches,
    "per_100g": lambda outcome, tag: np.asarray(outcome.per_100g[ROW[tag]]),
    "gained": _gained,
    "added": lambda outcome, tag: _gained(outcome, tag) / _weight(outcome),
    "salt_percent": lambda outcome, _: _salt_percent(outcome),
    "water_salt_percent": lambda outcome, _: _water_salt_percent(outcome),
    "share": lambda outcome, _: _share(outcome),
}
