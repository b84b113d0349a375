import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.testing import assert_allclose
from saltledger.diffusion.curves import centre_reached, fourier_for, mean_reached, profile, reached
from saltledger.diffusion.eigenmodes import modes

from tests.transfer.numerical import DIMENSIONS, finite_volumes

shapes = st.sampled_from(sorted(DIMENSIONS))
alphas = st.floats(0.01, 1e6) | st.just(np.inf)
fouriers = st.floats(1e-6, 20.0)


@pytest.mark.parametrize("shape", DIMENSIONS)
@pytest.mark.parametrize("alpha", [0.01, 0.1, 0.5, 1.0, 3.0, 10.0, 100.0])
def test_agrees_with_a_numerical_solution(shape, alpha):
    times = np.array([0.001, 0.005, 0.013, 0.016, 0.02, 0.05, 0.1, 0.3, 0.7, 1.5, 3.0])
    mean, centre = finite_volumes(times, alpha, shape)
    assert_allclose(mean_reached(times, alpha, shape), np.minimum(mean, 1.0), rtol=5e-4)
    assert_allclose(centre_reached(times, alpha, shape), np.minimum(centre, 1.0), atol=5e-4)


@pytest.mark.parametrize("shape", DIMENSIONS)
def test_early_uptake_follows_the_square_root_law(shape):
    # An infinite bath, a flat front: surface to volume ratio times 2 sqrt(T / pi).
    times = np.array([1e-8, 1e-6, 1e-5])
    expected = DIMENSIONS[shape] * 2.0 * np.sqrt(times / np.pi)
    assert_allclose(mean_reached(times, np.inf, shape), expected, rtol=3e-3)


@pytest.mark.parametrize("shape", DIMENSIONS)
def test_ends_at_equilibrium(shape):
    for reach in (mean_reached, centre_reached):
        assert_allclose(reach([50.0, 1e9, np.inf], [[0.1], [1.0], [np.inf]], shape), 1.0, rtol=1e-9)
        assert reach(0.0, 2.0, shape) == 0.0


@given(shapes, alphas, fouriers, st.floats(1.0, 3.0), st.sampled_from(["mean", "centre"]))
@settings(max_examples=100)
def test_rises_with_time_and_stays_a_share(shape, alpha, fourier, later, where):
    first, second = reached([fourier, fourier * later], alpha, shape, where)
    assert 0.0 <= first <= second <= 1.0


@given(shapes, fouriers, alphas, alphas)
@settings(max_examples=100)
def test_a_smaller_bath_is_done_sooner(shape, fourier, alpha, other):
    small, large = sorted((alpha, other))
    assert mean_reached(fourier, small, shape) >= mean_reached(fourier, large, shape) - 1e-4


@given(shapes, alphas, st.floats(1e-3, 0.999), st.sampled_from(["mean", "centre"]))
@settings(max_examples=60)
def test_inverse_returns_to_the_share(shape, alpha, share, where):
    time = fourier_for(share, alpha, shape, where)
    assert_allclose(reached(time, alpha, shape, where), share, rtol=1e-5)


def test_inverse_at_its_edges():
    assert list(fourier_for([0.0, -1.0, 1.0, 2.0], 1.0)) == [0.0, 0.0, np.inf, np.inf]


def test_curves_have_no_step_where_the_two_forms_meet():
    times = np.linspace(0.01, 0.025, 4000)
    for shape in DIMENSIONS:
        for alpha in (0.05, 1.0, np.inf):
            steps = np.diff(mean_reached(times, alpha, shape))
            assert steps.min() > 0
            assert np.abs(np.diff(steps)).max() < 0.01 * steps.min()


def test_draws_come_through_one_by_one():
    rng = np.random.default_rng(3)
    times, baths = rng.uniform(0.001, 2.0, 201), rng.uniform(0.1, 30.0, 201)
    together = mean_reached(times, baths, "cylinder")
    alone = [mean_reached(time, bath, "cylinder") for time, bath in zip(times, baths, strict=True)]
    assert_allclose(together, alone, rtol=1e-8)


@pytest.mark.parametrize("shape", DIMENSIONS)
@pytest.mark.parametrize("fourier", [1e-4, 0.01, 0.1, 1.0])
def test_profile_holds_the_mean_and_the_centre(shape, fourier):
    positions = (np.arange(1000) + 0.5) / 1000
    d = DIMENSIONS[shape]
    heights = profile(fourier, 2.0, shape, positions)
    mean = np.average(heights, weights=positions ** (d - 1))
    assert mean == pytest.approx(mean_reached(fourier, 2.0, shape), rel=0.01 if fourier < 1e-3 else 2e-3)
    assert profile(fourier, 2.0, shape, [0.0])[0] == pytest.approx(
        centre_reached(fourier, 2.0, shape), abs=2e-4
    )
    assert np.all(np.diff(heights) > -1e-9)


def test_profile_at_the_start():
    assert list(profile(0.0, 1.0, "sheet", [0.0, 0.5, 1.0])) == [0.0, 0.0, 2.0]


@pytest.mark.parametrize("shape", DIMENSIONS)
def test_the_centre_follows_the_sum_of_modes(shape):
    times, alphas = np.geomspace(0.02, 20.0, 200), np.append(np.geomspace(1e-8, 1e8, 161), np.inf)
    found = modes(1.0 / (1.0 + np.minimum(alphas, 1e8)), shape, 30)
    missing = found.centre[:, np.newaxis] * np.exp(-(found.roots[:, np.newaxis] ** 2) * times[:, np.newaxis])
    expected = 1.0 - missing.sum(axis=-1)
    assert_allclose(centre_reached(times, alphas[:, np.newaxis], shape), expected, atol=3e-5)


@given(shapes, fouriers | st.sampled_from([0.0, np.inf]), alphas | st.just(0.0))
@settings(max_examples=100)
def test_the_centre_is_the_same_alone_and_among_others(shape, fourier, alpha):
    alone = centre_reached(fourier, alpha, shape)
    assert alone.shape == ()
    assert_allclose(alone, centre_reached([fourier, 1.0], alpha, shape)[0], atol=1e-8)


@pytest.mark.parametrize("reach", [mean_reached, centre_reached])
@pytest.mark.parametrize(("fourier", "alpha"), [(-1.0, 1.0), (np.nan, 1.0), (1.0, -0.1), (1.0, np.nan)])
def test_refuses_what_is_not_a_time_or_a_ratio(reach, fourier, alpha):
    for times in (fourier, [0.5, fourier, 0.7]):
        with pytest.raises(ValueError, match="0 or more"):
            reach(times, alpha)
    with pytest.raises(ValueError, match="0 or more"):
        profile(fourier, alpha, "sheet", [0.5])


def test_refuses_unknown_shapes_and_places():
    with pytest.raises(ValueError, match="use one of sheet, cylinder, sphere"):
        centre_reached(1.0, 1.0, "torus")
    with pytest.raises(ValueError, match="use one of sheet, cylinder, sphere"):
        centre_reached([1.0], 1.0, "torus")
    with pytest.raises(ValueError, match="0 \\(centre\\) to 1"):
        profile(1.0, 1.0, "sheet", [1.5])
    with pytest.raises(ValueError, match="share is not a number"):
        fourier_for(np.nan, 1.0)
