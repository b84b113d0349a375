import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.testing import assert_allclose
from saltledger.core.errors import NotFound
from saltledger.transfer.absorption import dry_salt_reached, table_reached
from saltledger.transfer.brine import SATURATED_G_PER_G_WATER
from saltledger.transfer.diffusivity import food_classes

amounts = st.floats(0.0, 5000.0)


@pytest.mark.parametrize("food_class", food_classes())
@pytest.mark.parametrize("bath", ["brine", "marinate", "soak", "pickle", "dry_cure"])
def test_every_food_and_bath_has_a_broad_figure(food_class, bath):
    figure = table_reached(food_class, bath)
    assert 0 < figure.spread.low < figure.spread.likely < figure.spread.high <= 1
    assert figure.spread.high / figure.spread.low >= 1.5
    assert "no source" in figure.source


def test_a_class_without_a_row_has_that_of_any_food():
    assert table_reached("fish_fatty", "pickle") is table_reached("beef", "pickle")
    assert table_reached("granite", "brine").spread.likely == 0.5


def test_an_unknown_bath_is_refused():
    with pytest.raises(NotFound, match="kind of bath 'sauna'"):
        table_reached("beef", "sauna")


@given(st.floats(0, 20), amounts, amounts, amounts)
@settings(max_examples=100)
def test_dry_salt_goes_in_only_as_far_as_there_is_salt_and_water(fourier, salt_g, held_g, water_g):
    reached = float(dry_salt_reached(fourier, salt_g, held_g, water_g, "sheet"))
    assert 0.0 <= reached <= 1.0
    assert held_g + reached * salt_g <= max(held_g, SATURATED_G_PER_G_WATER * water_g) + 1e-6


@given(st.floats(1e-6, 5), st.floats(1, 4), amounts, amounts)
@settings(max_examples=100)
def test_dry_salt_goes_in_more_the_longer_it_lies(fourier, later, salt_g, water_g):
    first, second = dry_salt_reached([fourier, fourier * later], salt_g, 0.0, water_g, "sheet")
    assert second >= first


def test_a_weighed_rub_is_gone_long_before_it_is_even():
    # 3 % of salt on meat: all in at a Fourier number where an endless bath would be an eighth done.
    share = dry_salt_reached([0.004, 0.013, 0.05], 30.0, 0.0, 700.0, "sheet")
    assert_allclose(share, [0.6, 1.0, 1.0], atol=0.02)


def test_draws_come_through_and_no_salt_is_no_share():
    draws = dry_salt_reached(np.full(201, 0.1), np.linspace(0, 900, 201), 0.0, 700.0, "sheet")
    assert draws.shape == (201,)
    assert draws[0] == 0.0
    assert np.all(np.diff(draws[1:]) <= 0)
