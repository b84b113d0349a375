"""Where solutes are in a piece: shares add up whatever happens, and each act moves what it says alone."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from numpy.testing import assert_allclose
from saltledger.diffusion.geometry import Body
from saltledger.transfer.profile import CLOSED, DEPTH, DRAWN, FILM, JUICE, Profile

SHEET = Body("sheet", 2.0).compartments
BRICK = Body("brick", 2.0, length_cm=6.0, width_cm=3.0).compartments
CLOSED_SHARES = np.array([0.0, 0.2])
"""Of two solutes: one moves freely, a fifth of the other is bound."""

shares = st.floats(0.0, 0.9)


def fresh(closed=CLOSED_SHARES, body=SHEET):
    return Profile(body, closed)


def laden(amount=10.0, gained=5.0, compartment=FILM):
    """A fresh piece that held so much of each solute, and gained some in one compartment."""
    profile = fresh()
    amounts = np.full((2, 1), amount)
    more = np.zeros((2, 3 + len(SHEET), 1))
    more[:, compartment - FILM] = gained
    profile.change(amounts, more)
    return profile


def adds_up(profile):
    assert_allclose(profile.shares.sum(axis=1), 1.0, atol=1e-12)
    assert (profile.shares >= -1e-15).all()


def test_fresh_food_is_even_and_what_is_bound_takes_no_part():
    profile = fresh()
    adds_up(profile)
    assert_allclose(profile.shares[:, CLOSED, 0], CLOSED_SHARES)
    assert_allclose(profile.shares[0, DEPTH:, 0], SHEET.shares)
    assert_allclose(profile.shares[1, DEPTH:, 0], 0.8 * SHEET.shares)
    assert not profile.shares[:, [FILM, DRAWN, JUICE]].any()
    assert_allclose(profile.open_share[:, 0], 1.0 - CLOSED_SHARES)


def test_what_is_held_is_the_amount_by_compartment():
    profile = laden()
    held = profile.held(np.full((2, 1), 15.0))
    assert_allclose(held.sum(axis=1)[:, 0], [15.0, 13.0])
    assert_allclose(held[:, FILM - 1, 0], 5.0)


def test_a_gain_comes_to_lie_where_it_went():
    profile = laden(amount=10.0, gained=5.0)
    adds_up(profile)
    assert_allclose(profile.shares[:, FILM, 0], 5.0 / 15.0)
    assert_allclose(profile.shares[1, CLOSED, 0], 2.0 / 15.0)
    assert_allclose(profile.shares[0, DEPTH:, 0], SHEET.shares * 10.0 / 15.0)


def test_a_change_of_some_rows_leaves_the_others():
    profile = laden()
    before = profile.shares.copy()
    more = np.zeros((1, 3 + len(SHEET), 1))
    more[:, DRAWN - FILM] = 15.0
    profile.change(np.full((1, 1), 15.0), more, slice(1, 2))
    adds_up(profile)
    assert_allclose(profile.shares[0], before[0])
    assert_allclose(profile.shares[1, DRAWN, 0], 0.5)


def test_a_change_of_some_rows_in_many_draws_gives_all_rows_as_many():
    profile = laden()
    more = np.zeros((1, 3 + len(SHEET), 4))
    more[:, FILM - FILM] = np.array([0.0, 5.0, 10.0, 15.0])
    profile.change(np.full((1, 4), 15.0), more, slice(0, 1))
    assert profile.shares.shape == (2, DEPTH + len(SHEET), 4)
    adds_up(profile)
    assert_allclose(profile.shares[0, FILM], (5.0 + np.array([0.0, 5.0, 10.0, 15.0])) / (15.0 + more[0, 0]))


def test_nothing_goes_below_nothing():
    profile = fresh()
    more = np.zeros((2, 3 + len(SHEET), 1))
    more[:, FILM - FILM] = -1e-9
    profile.change(np.full((2, 1), 10.0), more)
    adds_up(profile)
    assert (profile.shares[:, FILM] == 0).all()


def test_what_holds_nothing_is_even():
    profile = laden()
    profile.change(np.zeros((2, 1)), np.zeros((2, 3 + len(SHEET), 1)))
    assert_allclose(profile.shares, fresh().shares)


def test_where_one_solute_is_gone_the_other_stays_where_it_was():
    profile = laden()
    before = profile.shares.copy()
    profile.change(np.array([[15.0], [0.0]]), np.zeros((2, 3 + len(SHEET), 1)))
    assert_allclose(profile.shares[0], before[0])
    assert_allclose(profile.shares[1], fresh().shares[1])


def test_what_comes_in_and_takes_no_part_is_shut_in():
    profile = fresh()
    profile.shut_in(np.full((2, 1), 10.0), np.array([[10.0], [0.0]]))
    adds_up(profile)
    assert_allclose(profile.shares[:, CLOSED, 0], [0.5, 0.2])


def test_what_leaves_is_a_like_part_of_all_that_is_open():
    profile = laden()
    before = profile.shares.copy()
    profile.let_go(np.array([0.5]))
    adds_up(profile)
    open_before = 1.0 - before[:, CLOSED, 0]
    closed = before[:, CLOSED, 0] / (before[:, CLOSED, 0] + 0.5 * open_before)
    assert_allclose(profile.shares[:, CLOSED, 0], closed)
    inner = profile.shares[:, FILM:] / profile.shares[:, FILM:].sum(axis=1, keepdims=True)
    assert_allclose(inner, before[:, FILM:] / before[:, FILM:].sum(axis=1, keepdims=True))


@given(shares)
def test_juice_that_is_set_aside_is_a_like_part_of_what_else_is_open(share):
    profile = laden()
    before = profile.shares.copy()
    profile.reserve(np.array([share]))
    adds_up(profile)
    open_before = 1.0 - before[:, CLOSED]
    assert_allclose(profile.shares[:, JUICE], share * open_before, atol=1e-12)
    assert_allclose(profile.shares[:, FILM], (1 - share) * before[:, FILM], atol=1e-12)
    assert_allclose(profile.shares[:, DEPTH:], (1 - share) * before[:, DEPTH:], atol=1e-12)


def test_juice_that_is_given_back_is_even_in_the_food():
    profile = laden()
    profile.reserve(np.array([0.4]))
    held = profile.shares.copy()
    profile.reserve(np.array([-0.25]))
    adds_up(profile)
    assert_allclose(profile.shares[:, JUICE], 0.75 * held[:, JUICE])
    back = 0.25 * held[:, JUICE][:, np.newaxis] * SHEET.shares[:, np.newaxis]
    assert_allclose(profile.shares[:, DEPTH:], held[:, DEPTH:] + back)
    assert_allclose(profile.shares[:, FILM], held[:, FILM])


def test_setting_nothing_aside_changes_nothing():
    profile = laden()
    before = profile.shares
    profile.reserve(np.zeros(5))
    assert profile.shares is before


def test_some_draws_may_take_while_others_give():
    profile = laden()
    profile.reserve(np.array([0.4, 0.4]))
    profile.reserve(np.array([0.5, -0.5]))
    adds_up(profile)
    assert profile.shares[0, JUICE, 0] > 0.4 > profile.shares[0, JUICE, 1]
    assert_allclose(profile.shares[0, JUICE, 1], 0.2)


def test_measuring_forgets_where_things_are():
    profile = laden()
    profile.even_out()
    assert_allclose(profile.shares, fresh().shares)


def test_opening_frees_what_was_shut_in_and_closing_shuts_a_like_part():
    profile = laden()
    before = profile.shares.copy()
    profile.settle(SHEET, np.array([0.0, 0.1]))
    adds_up(profile)
    assert_allclose(profile.shares[1, CLOSED], 0.5 * before[1, CLOSED])
    freed = 0.5 * before[1, CLOSED, 0]
    assert_allclose(profile.shares[1, DEPTH:, 0], before[1, DEPTH:, 0] + freed * SHEET.shares)
    assert_allclose(profile.shares[1, FILM], before[1, FILM])
    assert_allclose(profile.shares[0], before[0])

    closing = fresh(np.array([0.4]))
    closing.settle(SHEET, np.array([0.55]))
    adds_up(closing)
    assert_allclose(closing.shares[0, CLOSED], 0.55)
    assert_allclose(closing.shares[0, DEPTH:, 0], 0.45 * SHEET.shares)

    profile.settle(SHEET, np.array([0.25, 0.1]))
    adds_up(profile)
    assert_allclose(profile.shares[0, CLOSED], 0.25)
    assert_allclose(profile.shares[0, FILM:], 0.75 * before[0, FILM:])


def test_the_same_size_and_openness_change_nothing():
    profile = laden()
    before = profile.shares
    profile.settle(SHEET, CLOSED_SHARES.copy())
    assert profile.shares is before


def test_another_size_keeps_what_is_held_and_an_even_piece_even():
    even = fresh()
    even.settle(BRICK, CLOSED_SHARES)
    adds_up(even)
    assert_allclose(even.shares[0, DEPTH:, 0], BRICK.shares, rtol=1e-9)

    salty = laden()
    salty.settle(BRICK, CLOSED_SHARES)
    adds_up(salty)
    assert_allclose(salty.shares[:, FILM, 0], 1.0 / 3.0)


def test_another_size_keeps_the_order_from_the_slowest_part_to_the_surface():
    """Salt that has come to the outer parts alone stays in the outer parts, and back again."""
    profile = fresh()
    outer = np.zeros((2, 3 + len(SHEET), 1))
    outer[:, -3:] = 5.0
    profile.change(np.full((2, 1), 1e-6), outer)
    within = (profile.shares[0, DEPTH:, 0] / SHEET.shares)[:2].max()
    assert within < 1e-3
    profile.settle(BRICK, CLOSED_SHARES)
    adds_up(profile)
    brick = profile.shares[0, DEPTH:, 0] / BRICK.shares
    assert brick[0] < 1e-3
    assert brick[-1] == brick.max()
    assert (np.diff(brick) >= -1e-9).all() or brick.argmax() >= len(brick) - 4


def test_another_size_keeps_a_slope_straight():
    """Concentrations that rise evenly from the slowest part to the surface do so in other compartments."""
    before, after = (np.cumsum(each.shares) - 0.5 * each.shares for each in (SHEET, BRICK))
    profile = fresh(np.zeros(2))
    sloping = np.zeros((2, 3 + len(SHEET), 1))
    sloping[:, DEPTH - FILM :] = (SHEET.shares * before)[:, np.newaxis]
    profile.change(np.full((2, 1), 1e-9), sloping)
    profile.settle(BRICK, profile.closed)
    inside = (after > before[0]) & (after < before[-1])
    slope = (profile.shares[0, DEPTH:, 0] / BRICK.shares / after)[inside]
    assert inside.sum() > 3
    assert_allclose(slope, slope[0], rtol=1e-6)


@given(first=shares, second=shares)
def test_opened_cells_hold_a_share_of_what_the_depth_held_once(first, second):
    profile = fresh()
    for share in (first, second):
        profile.open_cells(np.array([share]))
        adds_up(profile)
    most = max(first, second)
    assert_allclose(profile.opened, most)
    assert_allclose(profile.shares[:, FILM, 0], most * (1 - CLOSED_SHARES), atol=1e-12)
    assert_allclose(profile.shares[:, CLOSED, 0], CLOSED_SHARES)


@given(share=shares)
def test_emptying_the_film_takes_of_nothing_else(share):
    profile = laden(amount=10.0, gained=5.0)
    profile.empty_film(np.array([share]))
    adds_up(profile)
    left = 5.0 * (1 - share)
    assert_allclose(profile.shares[:, FILM, 0], left / (10.0 + left))
    assert_allclose(profile.shares[1, CLOSED, 0], 2.0 / (10.0 + left))
