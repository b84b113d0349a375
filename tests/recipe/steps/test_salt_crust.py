"""Baked under a crust of salt: seasoned, not cured; the crust keeps the juice."""

from __future__ import annotations

import numpy as np
import pytest
from saltledger.recipe.pool_rows import SODIUM, WATER, WEIGHT

from tests.recipe.dishes import POTATOES, SALT, answered, codes, cooked, item, part, recipe, step

FISH, EGG_WHITE = "15076", "01124"


def crusted(*hours, food=FISH, grams=900, **measures):
    salt = part("crust", item(SALT, 1500), item(EGG_WHITE, 90), eaten_fraction=0)
    baked = [
        step("salt_crust", "piece", "crust", duration_h=each, temperature_c=200, **measures) for each in hours
    ]
    return recipe([part("piece", item(food, grams)), salt], baked)


@pytest.mark.parametrize("food", [FISH, POTATOES])
def test_food_from_a_crust_is_seasoned_and_not_cured(food):
    """0.2 to 2 % of salt: common practice, no source."""
    outcome = cooked(crusted(0.6, food=food))
    percent = outcome.eaten[SODIUM] / 387.58 / outcome.eaten[WEIGHT] * 100
    assert 0.1 < percent[0] < 1.8
    assert np.percentile(percent, 95) < 4.5


def test_it_loses_juice_to_the_crust_and_nothing_is_lost():
    pools = cooked(crusted(0.6)).state.pools
    np.testing.assert_allclose(sum(pools.amounts.values()), pools.brought, rtol=1e-9, atol=1e-9)
    raw = cooked({**crusted(), "steps": []}).eaten
    assert pools.amounts["eaten"][WATER, 0] < 0.95 * raw[WATER, 0]


def test_no_time_is_nothing_and_halves_are_the_whole():
    still, raw = cooked(crusted(0.0)).eaten, cooked({**crusted(), "steps": []}).eaten
    np.testing.assert_allclose(still, raw, rtol=1e-8, atol=1e-8)
    whole, halves = cooked(crusted(0.8)).eaten, cooked(crusted(0.3, 0.5)).eaten
    np.testing.assert_allclose(halves[[SODIUM, WATER, WEIGHT]], whole[[SODIUM, WATER, WEIGHT]], rtol=1e-5)


def test_what_was_measured_goes_before_the_guess():
    assert codes(answered(crusted(0.6)))["crust-salt-assumed"] == "check"
    measured = cooked(crusted(0.6, sodium_after_mg_per_100g=240))
    assert 100 * measured.eaten[SODIUM, 0] / measured.eaten[WEIGHT, 0] == pytest.approx(240, rel=2e-3)
    assert "crust-salt-assumed" not in codes(answered(crusted(0.6, sodium_after_mg_per_100g=240)))


def test_one_face_on_its_skin_takes_less():
    one, both = (cooked(crusted(0.6, open_faces=faces)).eaten[SODIUM, 0] for faces in (1, 2))
    assert one < both
