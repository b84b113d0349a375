"""The handbook's method that other checks use: weight that is lost is water, what is not known is not
nothing.

Consistency checks: they hold the tests' own helper, not the service.
"""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from saltledger.foods.nutrients import INDEX, NUTRIENTS

from .by_the_book import Part, cooked_dish, kept_whole


def food(**amounts):
    values = np.zeros(len(NUTRIENTS))
    for tag, amount in amounts.items():
        values[INDEX[tag]] = amount
    return values


MEAT = food(WATER=70.0, PROCNT=20.0, FAT=10.0, NA=60.0, ENERC=170.0)


def test_weight_that_is_lost_is_water():
    dish = cooked_dish([Part(200, MEAT, kept_whole())], cooked_weight_g=150)
    assert dish.per_100g[INDEX["WATER"]] == pytest.approx((140 - 50) / 150 * 100)
    assert dish.per_100g[INDEX["PROCNT"]] == pytest.approx(40 / 150 * 100)


def test_fat_that_runs_off_is_not_counted_as_water():
    retained = kept_whole()
    retained[INDEX["FAT"]] = 0.5
    dish = cooked_dish([Part(200, MEAT, retained)], cooked_weight_g=150)
    assert dish.per_100g[INDEX["WATER"]] == pytest.approx((140 - 40) / 150 * 100)


def test_energy_is_of_what_is_retained():
    retained = kept_whole()
    retained[INDEX["FAT"]] = 0.5
    dish = cooked_dish([Part(100, MEAT, retained, (4.0, 9.0, 4.0))], cooked_weight_g=100)
    assert dish.per_100g[INDEX["ENERC"]] == pytest.approx(20 * 4 + 5 * 9)


def test_what_is_not_known_lowers_the_coverage():
    unknown = food(WATER=90.0, NA=np.nan)
    dish = cooked_dish([Part(300, MEAT, kept_whole()), Part(100, unknown, kept_whole())], cooked_weight_g=400)
    assert dish.coverage[INDEX["NA"]] == pytest.approx(0.75)
    assert dish.per_100g[INDEX["NA"]] == pytest.approx(45)


@given(st.floats(1, 1000), st.floats(1, 1000), st.floats(0.5, 3))
def test_sodium_is_neither_made_nor_lost(meat_g, salt_g, gained):
    salt = food(NA=38758.0)
    parts = [Part(meat_g, MEAT, kept_whole()), Part(salt_g, salt, kept_whole())]
    weight = (meat_g + salt_g) * gained
    dish = cooked_dish(parts, cooked_weight_g=weight)
    assert dish.per_100g[INDEX["NA"]] * weight / 100 == pytest.approx(0.6 * meat_g + 387.58 * salt_g)


@pytest.mark.parametrize("weight", [0, -1, float("nan")])
def test_a_cooked_weight_is_above_nothing(weight):
    with pytest.raises(ValueError, match="cooked weight above 0 g"):
        cooked_dish([Part(1, MEAT, kept_whole())], cooked_weight_g=weight)
