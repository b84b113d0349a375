import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.testing import assert_allclose
from saltledger.diffusion.curves import mean_reached
from saltledger.diffusion.early_time import mean_at_short_times
from saltledger.diffusion.eigenmodes import SHAPES, modes
from scipy.special import erfcx

SHORT = 2e-3
shapes = st.sampled_from(SHAPES)
fouriers = st.floats(-10.0, 3.0).map(lambda power: 10.0**power)
alphas = st.floats(-8.0, 8.0).map(lambda power: 10.0**power) | st.just(np.inf)


def exact_mean(fourier, alpha, shape):
    """The short-time form, then the sum of 60 modes with roots solved for each bath; `alpha` (baths, 1)."""
    bath = np.minimum(alpha, 1e8)
    found = modes(1.0 / (1.0 + bath[:, 0]), shape, 60)
    late = np.maximum(fourier, SHORT)[..., np.newaxis]
    missing = (found.mean[:, np.newaxis] * np.exp(-(found.roots[:, np.newaxis] ** 2) * late)).sum(axis=-1)
    early = mean_at_short_times(np.minimum(fourier, SHORT), bath, shape)
    return np.where(fourier < SHORT, early, 1.0 - missing)


@pytest.mark.parametrize("alpha", [0.01, 0.3, 1.0, 10.0])
def test_the_short_time_form_is_the_textbook_one_for_a_sheet(alpha):
    # Crank (1975), eq. 4.43, as a share of equilibrium.
    times = np.geomspace(1e-5, 0.01, 30)
    expected = (1.0 + alpha) * (1.0 - erfcx(np.sqrt(times) / alpha))
    assert_allclose(mean_at_short_times(times, np.array(alpha), "sheet"), expected, rtol=1e-8)


@pytest.mark.parametrize("shape", SHAPES)
def test_the_two_exact_forms_meet(shape):
    times, baths = np.geomspace(1e-3, SHORT, 9), np.geomspace(1e-8, 1e8, 33)[:, np.newaxis]
    found = modes(1.0 / (1.0 + baths[:, 0]), shape, 90)
    missing = (
        found.mean[:, np.newaxis] * np.exp(-(found.roots[:, np.newaxis] ** 2) * times[:, np.newaxis])
    ).sum(axis=-1)
    assert_allclose(mean_at_short_times(times, baths, shape), 1.0 - missing, rtol=5e-6)


@pytest.mark.parametrize("shape", SHAPES)
def test_within_a_ten_thousandth_of_the_exact_curve(shape):
    times = np.geomspace(1e-10, 1e3, 1301)
    baths = np.append(np.geomspace(1e-8, 1e8, 321), np.inf)[:, np.newaxis]
    assert_allclose(mean_reached(times, baths, shape), exact_mean(times, baths, shape), rtol=1e-4)


@given(shapes, fouriers, alphas)
@settings(max_examples=200)
def test_within_a_ten_thousandth_wherever_one_looks(shape, fourier, alpha):
    expected = exact_mean(np.array([[fourier]]), np.array([[alpha]]), shape)
    assert_allclose(mean_reached(fourier, alpha, shape), expected[0, 0], rtol=1e-4)


@given(shapes, st.lists(fouriers, min_size=1, max_size=30), alphas | st.just(0.0))
@settings(max_examples=200)
def test_rises_from_nothing_to_the_whole(shape, times, alpha):
    found = mean_reached([0.0, *sorted(times), np.inf], alpha, shape)
    assert found[0] == 0.0
    assert found[-1] == pytest.approx(1.0, abs=1e-13)
    assert np.all(np.diff(found) >= 0.0)
    assert found.max() <= 1.0


@pytest.mark.parametrize("shape", SHAPES)
def test_never_falls_back_from_one_instant_to_the_next(shape):
    times = np.geomspace(1e-6, 30.0, 200_001)
    for alpha in (1e-6, 0.03, 0.7, 12.0, np.inf):
        assert np.all(np.diff(mean_reached(times, alpha, shape)) >= -1e-15)


@given(shapes, fouriers, alphas, st.floats(1.0, 100.0))
@settings(max_examples=100)
def test_a_larger_bath_takes_no_less_time(shape, fourier, alpha, more):
    assert mean_reached(fourier, alpha * more, shape) <= mean_reached(fourier, alpha, shape) * (1 + 1e-4)


def test_times_and_baths_broadcast():
    rng = np.random.default_rng(5)
    times, baths = rng.uniform(0.0, 2.0, (3, 1, 5)), rng.uniform(0.1, 9.0, (4, 1))
    found = mean_reached(times, baths, "cylinder")
    assert found.shape == (3, 4, 5)
    assert found[2, 1, 4] == mean_reached(times[2, 0, 4], baths[1, 0], "cylinder")
    assert mean_reached(0.3, [0.5, np.inf]).shape == (2,)
    assert mean_reached([], 1.0).shape == (0,)


def test_integers_and_plain_numbers_will_do():
    assert mean_reached(1, 2, "sphere") == mean_reached([1.0], np.array([2]), "sphere")[0]


def test_refuses_an_unknown_shape():
    with pytest.raises(ValueError, match="use one of sheet, cylinder, sphere"):
        mean_reached([0.1, 0.2], 1.0, "torus")
