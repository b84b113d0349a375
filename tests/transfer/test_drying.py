"""Drying goes towards an end, in time as in halves, and only water leaves."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from saltledger.transfer.drying import drying, water_lost

grams = st.floats(0, 5000)
hours = st.floats(0, 5000)
rates = st.floats(0.001, 1)
cm = st.floats(0.2, 20)


def lost(water_g, dry_g, time_h, *, end=0.3, rate=0.08, thickness=4.0):
    run = rate * time_h / thickness**2
    return float(water_lost(*(np.array([value]) for value in (water_g, dry_g, end, run)))[0])


@given(grams, grams, hours, rates, cm)
def test_two_halves_are_the_whole_and_no_time_is_nothing(water_g, dry_g, time_h, rate, thickness):
    how = {"rate": rate, "thickness": thickness}
    first = lost(water_g, dry_g, time_h / 2, **how)
    second = lost(water_g - first, dry_g, time_h / 2, **how)
    assert first + second == pytest.approx(lost(water_g, dry_g, time_h, **how), rel=1e-9, abs=1e-9)
    assert lost(water_g, dry_g, 0.0, **how) == 0
    assert 0 <= first <= water_g


@given(grams, grams)
def test_it_ends(water_g, dry_g):
    assert water_g - lost(water_g, dry_g, 1e9) == pytest.approx(min(water_g, 0.3 * dry_g), abs=1e-6)


@pytest.mark.parametrize(
    ("food_class", "piece", "least", "most"),
    [
        ("beef", (0.72, 8, 12, 6 * 7 * 24), 0.25, 0.45),
        ("beef", (0.72, 0.5, 65, 6), 0.5, 0.68),
        ("fish_fatty", (0.66, 2.5, 25, 12), 0.05, 0.12),
        ("cheese", (0.40, 12, 12, 30 * 24), 0.0, 0.05),
        ("vegetable", (0.94, 2, 60, 10), 0.6, 0.93),
    ],
)
def test_common_practice(food_class, piece, least, most):
    """Share of the weight that is lost, by water, thickness, °C and hours: common practice, no source."""
    held = drying(food_class)
    water, thickness, celsius, time_h = piece
    rate = held.rate.spread.likely * held.warmth(celsius)
    share = lost(water, 1 - water, time_h, end=held.end.spread.likely, rate=rate, thickness=thickness)
    assert least <= share <= most


def test_a_class_without_a_row_takes_that_of_any():
    assert drying("stone") == drying(None) == drying("pork")
    assert drying("fish_lean") == drying("fish")


@pytest.mark.parametrize("food_class", ["beef", "fish_fatty", "cheese", None])
def test_warmth_quickens_drying_by_its_factor_for_ten_degrees(food_class):
    held = drying(food_class)
    assert held.warmth(20.0) == 1.0
    assert held.warmth(30.0) == pytest.approx(held.q10)
    assert held.warmth(10.0) == pytest.approx(1 / held.q10)
