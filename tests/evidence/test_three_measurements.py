"""Three measurements of one dish, over dishes of many kinds: the range narrows, and holds the fourth."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import pytest
from saltledger.core.assumptions import local_rows
from saltledger.core.spread import NINETY_FIVE, Spread, summarise
from saltledger.evidence.cases import recipe
from saltledger.evidence.local import Measured, local_of
from saltledger.foods.dataset import bundled
from saltledger.recipe.calculation import cook
from saltledger.recipe.outcome import FROM_DAY_TO_DAY
from saltledger.recipe.request import RecipeRequest

DISHES = {
    "brined chicken": ("05062", "brine bath=water:1900,salt:73 duration_h=3 thickness_cm=2.5 | roast"),
    "brined loin": ("10060", "brine bath=water:2000,salt:120 duration_h=24 temperature_c=4"),
    "marinated pork": ("10060", "marinate bath=16424:150,oil:30 duration_h=2 temperature_c=4 | roast"),
    "salted potatoes": ("11352", "boil bath=water:3000,salt:30 duration_h=0.33"),
    "soaked feta": ("01019", "soak bath=water:3000 duration_h=6 temperature_c=6 thickness_cm=2"),
    "simmered ham": ("10142", "simmer bath=water:2000 duration_h=2"),
    "corned brisket": ("13346", "simmer bath=water:2500 duration_h=3"),
    "salt fish": ("15018", "soak bath=water:5000 duration_h=24 temperature_c=5 water_changes=2"),
    "rinsed beans": ("16034", "drain rinsed=true"),
    "salted pasta": ("20120", "boil bath=water:10000,salt:70"),
}
NARROW = ("11109", "dry_cure bath=salt:22.5 duration_h=500 temperature_c=18")
"""At equilibrium: known as well before as a laboratory could tell it."""

GRAMS, UNCERTAINTY = 1000, 0.05


def sodium(dish: tuple[str, str]) -> Spread:
    food, steps = dish
    request = RecipeRequest.from_document(recipe(food, GRAMS, steps))
    return summarise(cook(request, bundled()).sodium_per_100g_mg)


def wide(spread: Spread) -> float:
    """On the logarithm: a saltier truth is as well known as another when its range is as much of it."""
    return math.log(spread.high / spread.low)


def after_three(dish: tuple[str, str], truth: float, offs: Sequence[float] = (0.97, 1.02, 1.01)) -> Spread:
    food, steps = dish
    request = recipe(food, GRAMS, steps)
    told = [Measured(request, "sodium_mg_per_100g", truth * off, UNCERTAINTY) for off in offs]
    with local_rows(local_of([(each, True) for each in told], bundled())):
        return sodium(dish)


@pytest.mark.parametrize("share", [0.15, 0.5, 0.85])
@pytest.mark.parametrize("name", DISHES)
def test_three_measurements_halve_the_range_and_it_holds_the_fourth(name: str, share: float) -> None:
    """The kitchen's truth lies anywhere in the published range: share of the way from its low to its high."""
    before = sodium(DISHES[name])
    truth = before.low + share * (before.high - before.low)
    after = after_three(DISHES[name], truth)
    assert wide(after) <= wide(before) / 2
    assert after.low <= truth * 0.99 <= after.high
    assert after.likely == pytest.approx(truth, rel=0.06)


def drawn_truths(dish: tuple[str, str], rng: np.random.Generator) -> list[float]:
    """Three of the model's own draws, and two from near the ends of the range: a kitchen off the middle."""
    food, steps = dish
    draws = cook(RecipeRequest.from_document(recipe(food, GRAMS, steps)), bundled()).sodium_per_100g_mg
    inside = summarise(draws)
    return [*rng.choice(draws[1:], 3), inside.low * 1.02, inside.high * 0.98]


def test_of_drawn_truths_the_range_holds_the_fourth_measurement_most_times() -> None:
    """Days and laboratories scatter: the fourth lies inside in four of five at the least, whatever the truth.

    A range speaks of the dish, not of a laboratory's error, which keeps it under nine in ten.
    """
    rng = np.random.default_rng(11)
    held, widths = [], []
    for dish in DISHES.values():
        before = sodium(dish)
        for truth in drawn_truths(dish, rng):
            scatter = np.hypot(FROM_DAY_TO_DAY, UNCERTAINTY / NINETY_FIVE)
            *three, fourth = np.exp(rng.normal(0, scatter, 4)).tolist()
            after = after_three(dish, truth, three)
            held.append(after.low <= truth * fourth <= after.high)
            widths.append(wide(after) / wide(before))
    assert np.mean(held) >= 0.8
    assert np.quantile(widths, 0.9) <= 0.5


def test_what_is_known_as_well_as_it_can_be_measured_stays_about_as_wide() -> None:
    before = sodium(NARROW)
    after = after_three(NARROW, before.likely)
    assert after.high / after.low < 1.1 * before.high / before.low
    assert after.low <= 0.99 * before.likely <= after.high
