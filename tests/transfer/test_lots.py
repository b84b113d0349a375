"""Lots of a food: what nobody states of them has a range of its own, and is one cause in all cold steps."""

from __future__ import annotations

import numpy as np
import pytest
from saltledger.core.spread import NINETY_FIVE
from saltledger.transfer.diffusivity import food_classes
from saltledger.transfer.usual import lot_pace, usual_size

from tests.recipe import dishes
from tests.recipe.dishes import brined, cooked, item, part, recipe, step

COLD = ("brine", "marinate", "soak", "dry_cure")


@pytest.mark.parametrize("kind", COLD)
@pytest.mark.parametrize("food_class", food_classes())
def test_every_class_has_a_range_in_every_cold_step(kind, food_class):
    lot = lot_pace(kind, food_class).spread
    assert 0 < lot.low < 1 < lot.high


@pytest.mark.parametrize("food_class", food_classes())
def test_dry_salt_is_likely_no_better_than_brine(food_class):
    """It lies unevenly, and has to melt first."""
    assert lot_pace("dry_cure", food_class).spread.likely <= 1.0


def test_a_lot_that_is_slow_in_brine_is_slow_in_water():
    parts = [
        part("loin", item(dishes.PORK, 1000)),
        part("brine", item(dishes.WATER, 2000), item(dishes.SALT, 120)),
        part("water", item(dishes.WATER, 3000)),
    ]
    steps = [step("brine", "loin", "brine", duration_h=24), step("soak", "loin", "water", duration_h=6)]
    log = cooked(recipe(parts, steps)).state.log
    first, second = (log.draws_of(f"step-{at}/loin/lot") for at in (0, 1))
    assert np.array_equal(np.argsort(first[1:]), np.argsort(second[1:]))
    assert first[0] == second[0] == 1.0


def test_a_lot_tells_nothing_where_all_is_at_rest():
    """After half a year the range is that of what the food holds at rest."""
    outcome = cooked(brined(duration_h=4400))
    salt = np.log(outcome.sodium_per_serving_mg[1:])
    lot = np.log(outcome.state.log.draws_of("step-0/loin/lot")[1:])
    reach = NINETY_FIVE * np.abs(np.polyfit(lot, salt, 1)[0]) * lot.std()
    assert reach < 0.02


def test_vegetables_under_dry_salt_are_cut_thin_where_no_name_tells_it():
    plain, salted = (usual_size("vegetable", "Radishes, raw", treated) for treated in ("", "salted"))
    assert salted.thickness_cm.spread.likely < plain.thickness_cm.spread.likely
    assert usual_size("vegetable", "Cabbage, raw", "salted") == usual_size("vegetable", "Cabbage, raw")


def test_whole_fruit_takes_salt_more_slowly_than_what_is_cut():
    def in_brine(**measures):
        parts = [
            part("plums", item("09279", 500)),
            part("brine", item(dishes.WATER, 1000), item(dishes.SALT, 150)),
        ]
        size = {"duration_h": 4, "thickness_cm": 2.8, "shape": "sphere"}
        outcome = cooked(recipe(parts, [step("brine", "plums", "brine", **size, **measures)]))
        return outcome.sodium_per_serving_mg[0]

    assert in_brine() == in_brine(food_class="fruit")
    assert in_brine() < 0.7 * in_brine(food_class="vegetable")
