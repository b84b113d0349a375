import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.testing import assert_allclose
from saltledger.transfer.brine import (
    SATURATED_G_PER_G_WATER,
    density_g_ml,
    freezing_point_c,
    percent_of_g_per_litre,
    salt_g_per_litre,
    saturation_percent,
    saturation_ratio,
)


def test_a_cold_saturated_brine():
    assert saturation_ratio(4.0) == pytest.approx(SATURATED_G_PER_G_WATER, abs=5e-4)
    assert_allclose(saturation_percent([-20.0, 150.0]), [26.29, 28.12])


def test_cold_brine_is_denser():
    assert density_g_ml(10.0, 4.0) == pytest.approx(1.0707 + 0.37 * 16 / 1000)


@given(st.floats(0.0, 26.0), st.floats(0.0, 30.0))
def test_grams_in_a_litre_come_back_to_percent(percent, temperature_c):
    litre = salt_g_per_litre(percent, temperature_c)
    assert percent_of_g_per_litre(litre, temperature_c) == pytest.approx(percent, abs=0.002)


def test_stronger_is_denser_and_freezes_colder():
    percent = np.linspace(0, 23, 100)
    assert np.all(np.diff(density_g_ml(percent)) > 0)
    assert np.all(np.diff(freezing_point_c(percent)) < 0)
    assert freezing_point_c(0.0) == 0.0
    assert freezing_point_c(26.0) == -21.1
