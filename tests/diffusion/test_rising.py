"""A bath that pieces make of their own water: it rises as they give it, and salt lies until then."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.testing import assert_allclose
from saltledger.diffusion.stirred import PORTIONS, Lying, Rising, Stirred

STRENGTH = 6.0
"""What a gram of water holds of the row that can lie undissolved."""
QUIET = settings(max_examples=60, deadline=None)
seeds = st.integers(0, 10**6)


def system(seed, given_g=4.0, come=0.3, drips=0.0):
    """Two pieces of which the first has given a part of its water; row 0 can lie undissolved."""
    rng = np.random.default_rng(seed)
    to_come = given_g * np.array([[0.5 * (1 - come)], [0.5]])
    rising = Rising(
        to_come,
        np.exp(rng.uniform(-4, 4, (2, 1))),
        np.array([given_g]),
        np.array([1 - drips]),
        np.array([drips]),
        np.array([0.2]),
    )
    return Stirred(
        rng.uniform(0, 2, (2, 5, 1)),
        rng.uniform(0.1, 2, (5, 1)),
        np.exp(rng.uniform(-6, 6, (1, 5, 1))),
        rng.uniform(0, 30, (2, 1)),
        np.full((2, 1), given_g * (1 - drips) + 0.1),
        Lying(0, np.zeros(1), STRENGTH),
        rising,
    )


def after(one, part):
    """The same system when a part of the time has gone, and the rest of the time is to come."""
    shorter = replace(one, paces=one.paces * part, rising=replace(one.rising, paces=one.rising.paces * part))
    (gained, dripped), rest = shorter.gained_and_dripped(), one.rising
    to_come = rest.to_come * np.exp(-rest.paces * part)
    rising = replace(rest, to_come=to_come, paces=rest.paces * (1 - part))
    held, in_bath = one.held + gained, one.bath_held - gained.sum(axis=1) - dripped
    paces = one.paces * (1 - part)
    return gained, dripped, replace(one, held=held, paces=paces, bath_held=in_bath, rising=rising)


@QUIET
@given(seed=seeds, part=st.floats(0.01, 0.99), drips=st.sampled_from([0.0, 0.4, 1.0]))
def test_two_parts_of_the_time_are_the_whole(seed, part, drips):
    one = system(seed, drips=drips)
    first, ran_off, rest = after(one, part)
    more, runs_off = rest.gained_and_dripped()
    whole, all_off = one.gained_and_dripped()
    assert_allclose(first + more, whole, atol=1e-6)
    assert_allclose(ran_off + runs_off, all_off, atol=1e-6)


@QUIET
@given(seed=seeds, drips=st.floats(0, 1))
def test_what_runs_off_was_in_the_bath(seed, drips):
    one = system(seed, drips=drips)
    gained, dripped = one.gained_and_dripped()
    assert (dripped >= 0).all()
    assert (gained.sum(axis=1) + dripped <= one.bath_held + 1e-7).all()
    assert (system(seed).gained_and_dripped()[1] == 0).all()


@QUIET
@given(seed=seeds)
def test_no_time_is_nothing(seed):
    assert_allclose(system(seed).gained(0.0), 0.0, atol=1e-12)


@QUIET
@given(seed=seeds)
def test_the_order_of_the_pieces_changes_nothing(seed):
    one = system(seed)
    turned = replace(one.rising, to_come=one.rising.to_come[::-1], paces=one.rising.paces[::-1])
    other = Stirred(one.held, one.rooms, one.paces, one.bath_held, one.bath_rooms, one.lying, turned)
    assert_allclose(other.gained(), one.gained(), atol=1e-9)


@QUIET
@given(seed=seeds)
def test_once_all_water_has_come_it_is_a_bath_as_any(seed):
    one = system(seed, come=1.0)
    done = replace(one.rising, to_come=0 * one.rising.to_come)
    rows = [one.held[1:], one.rooms, one.paces, one.bath_held[1:], one.bath_rooms[1:]]
    assert_allclose(Stirred(*rows, rising=done).gained(), Stirred(*rows).gained(), atol=1e-12)


@QUIET
@given(seed=seeds)
def test_the_less_water_has_come_the_more_goes_in(seed):
    one = system(seed)
    np.minimum(one.bath_held, 4.1 * STRENGTH, out=one.bath_held)
    at_once = Stirred(*[one.held * 0, one.rooms, one.paces, one.bath_held, one.bath_rooms])
    as_it_comes = Stirred(
        *[one.held * 0, one.rooms, one.paces, one.bath_held, one.bath_rooms], one.lying, one.rising
    )
    assert as_it_comes.gained(0.5)[0].sum() >= at_once.gained(0.5)[0].sum() - 1e-7


def test_what_is_rubbed_on_is_saturated_until_juice_has_dissolved_it():
    """A little time after the rub the pieces are in saturated brine, however much water is to come."""
    rising = Rising(
        np.array([[50.0]]), np.array([[1.0]]), np.array([50.0]), np.ones(1), np.zeros(1), np.array([0.1])
    )
    held, rooms, paces = np.zeros((1, 1, 1)), np.array([[2.0]]), np.full((1, 1, 1), 1.0)
    one = Stirred(
        held, rooms, paces, np.array([[60.0]]), np.array([[50.0]]), Lying(0, np.zeros(1), STRENGTH), rising
    )
    brief = 0.01
    assert one.gained(brief)[0, 0, 0] == pytest.approx(2.0 * STRENGTH * -np.expm1(-brief))


def test_portions_end_by_what_has_come():
    rising = Rising(
        np.array([[8.0]]), np.array([[3.0]]), np.array([8.0]), np.ones(1), np.zeros(1), np.array([0.0])
    )
    for share, end in rising.ends(1.0)[:-1]:
        assert -np.expm1(-3.0 * end[0]) == pytest.approx(min(share, -np.expm1(-3.0)))
    assert [share for share, _ in rising.ends(1.0)] == list(PORTIONS)
