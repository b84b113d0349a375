from itertools import islice

import numpy as np
import pytest
from numpy.testing import assert_allclose
from saltledger.diffusion.curves import centre_reached, mean_reached
from saltledger.diffusion.geometry import BODIES, Body

from tests.transfer.numerical import coupled_modes, fresh_waters

TIMES = np.array([0.03, 0.08, 0.2, 0.5, 1.2])
SHORT = Body("short_cylinder", 2.0, length_cm=3.0)
BRICK = Body("brick", 2.0, length_cm=6.0, width_cm=3.0)
CUBE = Body("brick", 2.0, length_cm=2.0, width_cm=2.0)


@pytest.mark.parametrize(
    ("body", "factors"),
    [
        (SHORT, [("cylinder", 1.0), ("sheet", 1.5)]),
        (BRICK, [("sheet", 1.0), ("sheet", 1.5), ("sheet", 3.0)]),
        (CUBE, [("sheet", 1.0)] * 3),
    ],
)
@pytest.mark.parametrize("alpha", [0.3, 1.0, 4.0])
def test_agrees_with_every_mode_coupled_to_the_bath(body, factors, alpha):
    mean, centre = coupled_modes(factors, alpha, TIMES)
    assert_allclose(body.mean_reached(TIMES, alpha), mean, atol=0.004)
    assert_allclose(body.centre_reached(TIMES, alpha), centre, atol=0.02)


def test_the_product_holds_in_an_endless_bath():
    missing = (1 - mean_reached(TIMES, np.inf)) * (1 - mean_reached(TIMES / 1.5**2, np.inf))
    missing *= 1 - mean_reached(TIMES / 9.0, np.inf)
    assert_allclose(BRICK.mean_reached(TIMES, np.inf), 1 - missing, atol=1e-5)


def test_a_wide_brick_is_a_sheet():
    wide = Body("brick", 2.0, length_cm=4000.0, width_cm=4000.0)
    assert_allclose(wide.mean_reached(TIMES, 2.0), mean_reached(TIMES, 2.0), atol=0.002)
    assert_allclose(wide.centre_reached(TIMES, 2.0), centre_reached(TIMES, 2.0), atol=0.002)


@pytest.mark.parametrize("body", [SHORT, BRICK, CUBE])
def test_rises_from_nothing_to_equilibrium(body):
    times = np.concatenate(([0.0], np.geomspace(1e-8, 10.0, 400), [np.inf]))
    for alpha in (0.1, 1.0, np.inf):
        for reached in (body.mean_reached(times, alpha), body.centre_reached(times, alpha)):
            assert np.all(np.diff(reached) >= -1e-6)
            assert reached[0] < 1e-5
            assert reached[-1] == pytest.approx(1.0, abs=1e-6)


@pytest.mark.parametrize("body", [SHORT, BRICK, CUBE, Body("sphere", 4.0)])
@pytest.mark.parametrize("alpha", [0.5, np.inf])
def test_one_time_alone_gives_the_same(body, alpha):
    for reach in (body.mean_reached, body.centre_reached):
        assert_allclose([reach(float(time), alpha) for time in TIMES], reach(TIMES, alpha), atol=1e-6)


@pytest.mark.parametrize("body", [SHORT, BRICK, Body("sphere", 4.0)])
def test_inverse_returns_to_the_share(body):
    time = body.fourier_for([0.3, 0.8], [1.0, 5.0])
    assert_allclose(body.centre_reached(time, [1.0, 5.0]), [0.3, 0.8], atol=1e-4)


@pytest.mark.parametrize("alpha", [0.3, 1.0, 2.0, 10.0, 1e6])
@pytest.mark.parametrize("fourier", [0.003, 0.03, 0.1, 0.3])
def test_waters_in_turn(alpha, fourier):
    exact, left, found = fresh_waters(fourier, 6, alpha, "sheet"), 1.0, []
    for moved in islice(Body("sheet", 2.0).mean_reached_in_turns(fourier, alpha), 6):
        left *= 1.0 - moved * alpha / (1.0 + alpha)
        found.append(left)
    assert_allclose(found, exact, rtol=0.005, atol=2e-4)


@pytest.mark.parametrize("body", [SHORT, BRICK, Body("sphere", 4.0)])
@pytest.mark.parametrize("alpha", [1e-8, 0.5, np.inf])
def test_the_first_water_is_like_any_bath(body, alpha):
    assert_allclose(
        next(body.mean_reached_in_turns(TIMES, alpha)), body.mean_reached(TIMES, alpha), atol=1e-12
    )


def test_waters_in_turn_when_nothing_is_left():
    first, *_, fourth = islice(BRICK.mean_reached_in_turns([50.0, np.inf], np.inf), 4)
    assert first == pytest.approx(1.0)
    assert fourth == pytest.approx(1.0)


def test_half_the_thickness_takes_a_quarter_of_the_time():
    thick, thin = (Body("brick", size, length_cm=3 * size, width_cm=2 * size) for size in (4.0, 2.0))
    hours = [body.fourier_for(0.8, 2.0) * body.half_thickness_m**2 for body in (thick, thin)]
    assert hours[1] == pytest.approx(hours[0] / 4)


def test_refuses_unknown_shapes_and_missing_lengths():
    with pytest.raises(ValueError, match=", ".join(BODIES)):
        Body("torus", 2.0)
    with pytest.raises(ValueError, match="a brick needs all its lengths"):
        Body("brick", 2.0, length_cm=3.0)
    with pytest.raises(ValueError, match="above 0 cm"):
        Body("sheet", 0.0)
