import numpy as np
import pytest
from numpy.testing import assert_allclose
from saltledger.transfer.brine import SATURATED_G_PER_G_WATER, freezing_point_c, saturation_percent


def test_a_cold_saturated_brine():
    share = saturation_percent(4.0) / 100
    assert share / (1 - share) == pytest.approx(SATURATED_G_PER_G_WATER, abs=5e-4)
    assert_allclose(saturation_percent([-20.0, 150.0]), [26.29, 28.12])


def test_stronger_freezes_colder():
    percent = np.linspace(0, 23, 100)
    assert np.all(np.diff(freezing_point_c(percent)) < 0)
    assert freezing_point_c(0.0) == 0.0
    assert freezing_point_c(26.0) == -21.1
