"""Batches of a food differ: how that widens what is eaten, and where it does not."""

from __future__ import annotations

import numpy as np
import pytest
from saltledger.core.spread import summarise
from saltledger.foods.dataset import bundled
from saltledger.recipe.batch_variation import composition_spreads, other_excess, sodium_excess
from saltledger.recipe.pool_rows import ROW, WATER, WEIGHT

from . import dishes
from .dishes import answered, brined, cooked, item, part, recipe

CUSTOM = {"code": "mine", "name": "ham of ours", "per_100g": {"NA": 900, "WATER": 70}}


def sodium(document):
    return answered(document)["sodium"]["per_serving_mg"]


def plain(*items, **more):
    return recipe([part("dish", *items)], [], **more)


def test_a_batch_lies_off_the_dataset_by_its_spread_and_weighs_the_same():
    spreads = composition_spreads(bundled().get(dishes.CARROTS))
    others = 1 + other_excess("plant", 0)
    for row, tag in ((sodium_excess(bundled().get(dishes.CARROTS)) + 1, "NA"), (others[ROW["VITC"]], "VITC")):
        found, spread = summarise(row), spreads[tag]
        assert (found.low, found.likely, found.high) == pytest.approx(
            (spread.low, 1.0, spread.high), rel=0.02
        )
    assert (others[WEIGHT] == 1).all()
    assert summarise(others[WATER]).likely == 1


def test_the_range_of_plain_carrots_is_that_of_their_batch():
    found = sodium(plain(item(dishes.CARROTS, 100)))
    spread = composition_spreads(bundled().get(dishes.CARROTS))["NA"]
    assert found["low"] == pytest.approx(found["likely"] * spread.low, rel=0.02)
    assert found["high"] == pytest.approx(found["likely"] * spread.high, rel=0.02)


@pytest.mark.parametrize("food", [dishes.SALT, dishes.WATER, dishes.SUGAR, dishes.CURING_SALT])
def test_salt_is_salt(food):
    found = sodium(plain(item(food, 100)))
    assert found["low"] == found["high"]


def test_a_food_of_the_caller_is_taken_at_its_word():
    found = sodium(plain(item("mine", 100), custom_foods=[CUSTOM]))
    assert found["low"] == found["high"] == 900


def test_two_foods_vary_less_than_one():
    def width(found):
        return found["high"] / found["low"]

    both = sodium(plain(item("11124", 100), item("11090", 209)))
    assert width(both) < width(sodium(plain(item("11124", 100))))


def test_the_sodium_of_a_brine_is_not_widened_by_the_meat_it_is_poured_from():
    outcome = cooked(brined())
    extra = outcome.spread_sodium_per_serving_mg / outcome.sodium_per_serving_mg
    own = dishes.sodium_mg(dishes.PORK, 1000) / outcome.sodium_per_serving_mg[0]
    most = np.abs(sodium_excess(bundled().get(dishes.PORK))).max()
    assert np.abs(extra - 1).max() <= own * most * (1 + 1e-9)


def test_it_is_an_assumption_that_can_carry_the_range():
    carried = answered(plain(item(dishes.CHEESE, 100)))["sodium"]["carried_by"]
    assert [each["assumption"] for each in carried] == ["batch:/components/0/ingredients/0"]
    assert "packet" in carried[0]["measure"]


def test_what_was_measured_after_a_step_is_not_widened():
    measured = sodium(brined(sodium_after_mg_per_100g=700, weight_after_g=1080))
    assert measured["low"] == measured["high"]
