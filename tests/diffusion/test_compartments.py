"""A piece as compartments, held to Crank's roots and to numerical solutions of Fick's law."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.testing import assert_allclose
from saltledger.diffusion.compartments import PLAIN, lag_at
from saltledger.diffusion.eigenmodes import SHAPES, bessel_j, eigenfunction, roots_and_weights
from saltledger.diffusion.geometry import BODIES, Body
from scipy.special import j0, j1, jn_zeros

from tests.transfer.numerical import DIMENSIONS, coupled_modes, finite_volumes

from .pieces import mean_reached, reached_at

shapes = st.sampled_from(SHAPES)
TIMES = np.array([0.001, 0.005, 0.02, 0.05, 0.1, 0.3, 0.7, 1.5, 3.0])
SHORT = Body("short_cylinder", 2.0, length_cm=3.0)
BRICK = Body("brick", 2.0, length_cm=6.0, width_cm=3.0)
CUBE = Body("brick", 2.0, length_cm=2.0, width_cm=2.0)


def test_bessel_functions_agree_with_scipy():
    x = np.linspace(0.0, 220.0, 997)
    for ours, theirs in zip(bessel_j(x), (j0(x), j1(x)), strict=True):
        assert_allclose(ours, theirs, atol=1e-12)


@pytest.mark.parametrize("shape", SHAPES)
def test_roots_and_weights_of_an_even_piece(shape):
    roots, weights = roots_and_weights(shape, 400)
    expected = {"sheet": (np.arange(400) + 0.5) * np.pi, "sphere": (np.arange(400) + 1) * np.pi}
    assert_allclose(roots, expected.get(shape, jn_zeros(0, 400)), rtol=1e-12)
    still = np.exp(-(roots**2) * 1e-4)  # nothing has come so deep so soon
    assert_allclose((weights * eigenfunction(roots, np.array(0.5), shape) * still).sum(), 1.0, atol=1e-6)
    assert_allclose(PLAIN[shape].rates[:2], roots[:2] ** 2, rtol=1e-5)


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("alpha", [0.05, 0.1, 0.5, 1.0, 3.0, 10.0, 100.0])
def test_agrees_with_a_numerical_solution(shape, alpha):
    mean, centre = finite_volumes(TIMES, alpha, shape)
    assert_allclose(mean_reached(TIMES, alpha, shape), mean, atol=1.5e-3)
    late = TIMES >= 0.05
    assert_allclose(reached_at(TIMES, alpha, shape)[late], centre[late], atol=0.02 if alpha >= 1 else 0.035)


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("position", [0.2, 0.5, 0.8, 1.0])
def test_places_agree_with_their_series_under_a_still_surface(shape, position):
    roots, weights = roots_and_weights(shape, 300)
    late = TIMES[TIMES >= 0.05]
    fading = np.exp(-np.outer(late, roots**2))
    exact = 1 - fading @ (weights * eigenfunction(roots, np.array(position), shape))
    assert_allclose(reached_at(late, np.inf, shape, position), exact, atol=0.01)
    assert lag_at(PLAIN[shape], position).sum() == pytest.approx(1.0 if position < 1 else 0.0, abs=1e-3)


@pytest.mark.parametrize("shape", SHAPES)
def test_early_uptake_follows_the_square_root_law(shape):
    # A flat front in an endless bath: surface to volume ratio times 2 sqrt(T / pi).
    times = np.array([1e-4, 3e-4, 1e-3])
    expected = DIMENSIONS[shape] * 2.0 * np.sqrt(times / np.pi)
    assert_allclose(mean_reached(times, np.inf, shape), expected, rtol=0.04)


def endless(shape, times):
    """Mean uptake in an endless bath by Crank's series, its far terms taken as gone."""
    roots, _ = roots_and_weights(shape, 600)
    terms = {"sheet": 2.0, "cylinder": 4.0, "sphere": 6.0}[shape] / roots**2
    return 1.0 - np.exp(-np.outer(times, roots**2)) @ terms


@pytest.mark.parametrize("shape", SHAPES)
def test_uptake_is_the_series_from_the_first_minutes_on(shape):
    times = np.geomspace(2e-5, 2.0, 60)
    assert_allclose(mean_reached(times, np.inf, shape), endless(shape, times), rtol=7e-4)


@pytest.mark.parametrize("body", [BRICK, SHORT])
def test_a_body_with_edges_lacks_the_product_of_what_its_shapes_lack(body):
    times = np.geomspace(1e-4, 2.0, 60)
    ratios = {"brick": [1.0, 1.5, 3.0], "short_cylinder": [1.5]}[body.shape]
    lack = np.prod([1.0 - endless("sheet", times / ratio**2) for ratio in ratios], axis=0)
    if body.shape == "short_cylinder":
        lack *= 1.0 - endless("cylinder", times)
    assert_allclose(mean_reached(times, np.inf, body.compartments), 1.0 - lack, rtol=0.025)


@pytest.mark.parametrize(
    ("body", "expected"),
    [
        (Body("sheet", 2.0), 1.0),
        (Body("cylinder", 2.0), 2.0),
        (Body("sphere", 2.0), 3.0),
        (SHORT, 2.0 + 2.0 / 3.0),
        (BRICK, 1.0 + 2.0 / 3.0 + 1.0 / 3.0),
    ],
)
def test_surface_over_volume(body, expected):
    assert_allclose(body.surface_per_cm(np.array([2.0, 4.0])), [expected, expected / 2])


@given(shapes, st.floats(0.05, 1e6), st.floats(1e-6, 20.0), st.floats(1.0, 3.0))
@settings(max_examples=100)
def test_rises_with_time_to_equilibrium(shape, alpha, fourier, later):
    first, second, end = mean_reached([fourier, fourier * later, 60.0], alpha, shape)
    assert 0.0 <= first <= second + 1e-8 <= 1.0 + 1e-7
    assert end == pytest.approx(1.0, abs=1e-7)


@pytest.mark.parametrize(
    ("body", "factors"),
    [
        (SHORT, [("cylinder", 1.0), ("sheet", 1.5)]),
        (BRICK, [("sheet", 1.0), ("sheet", 1.5), ("sheet", 3.0)]),
        (CUBE, [("sheet", 1.0)] * 3),
    ],
)
@pytest.mark.parametrize("alpha", [0.3, 1.0, 4.0])
def test_bodies_with_edges_agree_with_every_mode_coupled_to_the_bath(body, factors, alpha):
    times = np.array([0.03, 0.08, 0.2, 0.5, 1.2])
    mean, centre = coupled_modes(factors, alpha, times)
    assert_allclose(mean_reached(times, alpha, body.compartments), mean, atol=0.005)
    assert_allclose(reached_at(times, alpha, body.compartments), centre, atol=0.04)


def test_a_wide_brick_is_a_sheet():
    wide = Body("brick", 2.0, length_cm=4000.0, width_cm=4000.0).compartments
    assert_allclose(mean_reached(TIMES, 2.0, wide), mean_reached(TIMES, 2.0), atol=0.003)


def test_refuses_unknown_shapes_and_missing_lengths():
    with pytest.raises(ValueError, match=", ".join(BODIES)):
        Body("torus", 2.0)
    with pytest.raises(ValueError, match="a brick needs all its lengths"):
        Body("brick", 2.0, length_cm=3.0)
    with pytest.raises(ValueError, match="above 0 cm"):
        Body("sheet", 0.0)
