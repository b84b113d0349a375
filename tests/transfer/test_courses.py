"""Uptake from dry salt, held to a numerical solution: saturated while it lies, no more once it is used up."""

import math

import numpy as np
import pytest
from saltledger.core.spread import DRAWS
from saltledger.diffusion.geometry import Body
from saltledger.transfer.brine import SATURATED_G_PER_G_WATER
from saltledger.transfer.courses import DryCourse

from tests.transfer.numerical import _after, _cells

FOURIERS = (0.005, 0.02, 0.05, 0.1, 0.2, 0.4, 0.8)
CELLS = 200


def course(room, shape="sheet"):
    """A piece with 700 g of water under so much salt that its water could hold `room` times that."""
    ones = np.ones(DRAWS + 1)
    lying_g = SATURATED_G_PER_G_WATER * 700 / room
    return DryCourse.of(lying_g, 700 * ones, Body(shape, 5.0), ones * 2e-10, ones)


def numerical(room, shape):
    """Mean and centre over equilibrium at FOURIERS: a saturated surface, then a closed one."""
    volumes, flows = _cells(1e9, shape, CELLS)
    weights = volumes[:-1] / volumes[:-1].sum()
    endless = lambda time: _after(time, np.append(np.zeros(CELLS), max(room, 1.0)), volumes, flows)  # noqa: E731
    spent, step = math.inf, 0.0
    if room > 1:
        low, high = 0.0, 5.0
        for _ in range(50):
            step = (low + high) / 2
            low, high = (step, high) if endless(step)[:-1] @ weights < 1 else (low, step)
        spent = high
    closed, closed_flows = _cells(1e-9, shape, CELLS)
    found = []
    for time in FOURIERS:
        state = endless(min(time, spent))
        if time > spent:
            state = _after(time - spent, np.append(state[:-1], 0.0), closed, closed_flows)
        found.append((state[:-1] @ weights, state[0]))
    return np.array(found).T


@pytest.mark.parametrize("shape", ["sheet", "cylinder", "sphere"])
@pytest.mark.parametrize("room", [0.4, 1.5, 3.0, 10.0])
def test_dry_salt_agrees_with_a_numerical_solution(room, shape):
    mean, centre = numerical(room, shape)
    dry = course(room, shape)
    assert [dry.mean(time)[0] for time in FOURIERS] == pytest.approx(mean, abs=0.004)
    assert [dry.centre(time)[0] for time in FOURIERS] == pytest.approx(centre, abs=0.015)


@pytest.mark.parametrize("room", [0.4, 1.5, 10.0])
@pytest.mark.parametrize("share", [0.1, 0.5, 0.8])
def test_the_time_for_a_share_of_the_centre_gives_that_share(room, share):
    dry = course(room)
    fourier = float(dry.centre_fourier(share)[0])
    assert dry.centre(fourier)[0] == pytest.approx(share, abs=0.01)


def test_the_surface_of_lying_salt_is_saturated():
    dry = course(4.0)
    profile = dry.profile(0.5 * float(dry.spent_fourier[0]), [0.0, 1.0])
    assert profile[1] == pytest.approx(np.full(DRAWS + 1, 4.0))
    assert profile[0] == pytest.approx(np.zeros(DRAWS + 1), abs=1e-3)


def test_a_body_with_edges_has_a_centre_and_no_profile():
    ones = np.ones(DRAWS + 1)
    brick = DryCourse.of(30.0, 700 * ones, Body("brick", 5.0, 20.0, 10.0), ones * 2e-10, ones)
    assert brick.profile(0.1, [0.0]) is None
    assert 0 < brick.centre(0.1)[0] < brick.mean(0.1)[0] <= 1
