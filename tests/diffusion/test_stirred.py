"""Compartments and their bath, held to scipy's exponential of the same system."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.testing import assert_allclose
from saltledger.diffusion.stirred import Lying, Stirred, change, used_up
from scipy.linalg import expm

COMPARTMENTS = 7


def system(seed, rows=2, is_shared=True, bath_room=3.0):
    rng = np.random.default_rng(seed)
    size = (rows, COMPARTMENTS, 1)
    paces = np.exp(rng.uniform(-6, 8, (1 if is_shared else rows, COMPARTMENTS, 1)))
    rooms = rng.uniform(0, 2, size[1:]) * (rng.random(size[1:]) < 0.8)
    return Stirred(
        rng.uniform(0, 5, size), rooms, paces, rng.uniform(0, 9, (rows, 1)), np.full((rows, 1), bath_room)
    )


def exact(one, row, part=1.0):
    """What is held in the end, by the dense exponential."""
    paces = one.paces[row if len(one.paces) > 1 else 0, :, 0] * part
    rates = np.zeros((COMPARTMENTS + 1,) * 2)
    for at, pace in enumerate(paces):
        drawn = pace * one.rooms[at, 0] / one.bath_rooms[row, 0]
        rates[at, at] -= pace
        rates[-1, at] += pace
        rates[at, -1] += drawn
        rates[-1, -1] -= drawn
    return expm(rates) @ np.append(one.held[row, :, 0], one.bath_held[row])


@settings(max_examples=60, deadline=None)
@given(seed=st.integers(0, 10**6), is_shared=st.booleans(), part=st.just(1.0) | st.floats(0, 1))
def test_agrees_with_the_exponential(seed, is_shared, part):
    one = system(seed, is_shared=is_shared)
    gained = one.gained(part)
    for row in range(2):
        assert_allclose(one.held[row, :, 0] + gained[row, :, 0], exact(one, row, part)[:-1], atol=1e-7)


@settings(max_examples=60, deadline=None)
@given(seed=st.integers(0, 10**6), part=st.floats(0.01, 0.99))
def test_two_parts_of_the_time_are_the_whole(seed, part):
    one = system(seed)
    first = one.gained(part)
    rest = Stirred(
        one.held + first, one.rooms, one.paces * (1 - part), one.bath_held - first.sum(axis=1), one.bath_rooms
    )
    assert_allclose(first + rest.gained(), one.gained(), atol=1e-7)


@settings(max_examples=60, deadline=None)
@given(seed=st.integers(0, 10**6))
def test_in_air_what_one_loses_the_others_gain(seed):
    one = system(seed, bath_room=0.0)
    one = Stirred(one.held, one.rooms + 0.1, one.paces, 0 * one.bath_held, one.bath_rooms)
    assert_allclose(one.gained().sum(axis=1), 0.0, atol=1e-7)


@settings(max_examples=60, deadline=None)
@given(seed=st.integers(0, 10**6), excess=st.floats(0.01, 30))
def test_the_bath_stands_still_while_solute_lies_undissolved(seed, excess):
    one = system(seed, rows=1)
    strength = 6.0
    one = Stirred(
        0 * one.held, one.rooms, one.paces, 3.0 * strength + excess + 0 * one.bath_held, one.bath_rooms
    )
    one = Stirred(
        one.held, one.rooms, one.paces, one.bath_held, one.bath_rooms, Lying(0, np.array([excess]), strength)
    )
    until = used_up(one.rooms * strength, one.paces[0], np.array([excess]))
    still = one.rooms * strength * -np.expm1(-one.paces[0] * until)
    assert still.sum() == pytest.approx(excess, rel=1e-9) if until[0] < 1 else still.sum() <= excess + 1e-9
    first, whole = one.gained(0.3), one.gained()
    left = max(excess - first.sum(), 0.0)
    rest = Stirred(
        one.held + first,
        one.rooms,
        one.paces * 0.7,
        one.bath_held - first.sum(axis=1),
        one.bath_rooms,
        Lying(0, np.array([left]), strength) if left > 0 else None,
    )
    assert_allclose(first + rest.gained(), whole, atol=1e-6)


@settings(max_examples=40, deadline=None)
@given(seed=st.integers(0, 10**6), part=st.floats(0.05, 1.0))
def test_while_solute_lies_its_row_goes_towards_saturation_and_the_others_as_ever(seed, part):
    one, strength = system(seed), 6.0
    lying = Lying(1, np.array([1e6]), strength)
    heaped = Stirred(one.held, one.rooms, one.paces, one.bath_held, one.bath_rooms, lying)
    gained = heaped.gained(part)
    saturated = one.rooms * strength
    assert_allclose(gained[1], (saturated - one.held[1]) * -np.expm1(-one.paces[0] * part), atol=1e-9)
    assert_allclose(gained[0], one.gained(part)[0], atol=1e-9)


def test_what_lies_is_used_up_when_as_much_has_been_taken_up():
    gap, paces = np.array([[4.0, 4.0, 4.0]]), np.array([[2.0, 2.0, 2.0]])
    until = used_up(gap, paces, np.array([0.0, 1.0, 4.0]))
    assert_allclose(until, [0.0, -np.log(0.75) / 2.0, 1.0], atol=1e-12)


@pytest.mark.parametrize("room", [1e-310, 1e-170, 0.0])
def test_a_bath_that_is_next_to_nothing_is_a_rest_in_air(room):
    def gained(bath_room: float) -> np.ndarray:
        one = np.ones((1, 2, 1))
        return change(one * [[1.0], [3.0]], one[0], one, np.zeros((1, 1)), np.array([bath_room]))

    assert gained(room) == pytest.approx(gained(0.0))
    assert gained(room).sum() == pytest.approx(0.0, abs=1e-9)
