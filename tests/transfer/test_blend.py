"""Patterns tell where nutrients are as shares by row do, after juice, losses and at rest."""

from __future__ import annotations

import numpy as np
import pytest
from saltledger.core.spread import DRAWS
from saltledger.diffusion.compartments import PLAIN
from saltledger.transfer.blend import Blend, moved, tracers
from saltledger.transfer.profile import DEPTH, OPEN, Profile

CLOSED_SHARES = np.array([0.0, 0.4, 0.9])
PACE_OF = np.array([0, 1, 0])
BODY = PLAIN["sheet"]


def both() -> tuple[Blend, Profile]:
    return Blend(BODY, CLOSED_SHARES, PACE_OF), Profile(BODY, CLOSED_SHARES)


def draws(low: float, high: float) -> np.ndarray:
    return np.linspace(low, high, DRAWS + 1)


def test_juice_and_losses_change_patterns_as_they_change_rows() -> None:
    blend, rows = both()
    for profile in (blend, rows):
        profile.reserve(draws(0.0, 0.6))
        profile.let_go(draws(0.1, 0.9))
        profile.reserve(draws(-0.5, 0.2))
    assert blend.patterns is not None
    np.testing.assert_allclose(blend.open_share, rows.open_share, rtol=1e-12)
    np.testing.assert_allclose(blend.shares, rows.shares, rtol=1e-12, atol=1e-15)


def test_what_leaves_a_row_to_itself_ends_the_patterns() -> None:
    blend, rows = both()
    amounts = np.outer([1.0, 2.0, 3.0], draws(1.0, 2.0))
    for profile in (blend, rows):
        profile.let_go(draws(0.0, 0.5))
        profile.shut_in(amounts, 0.1 * amounts)
    assert blend.patterns is None
    np.testing.assert_allclose(blend.shares, rows.shares, rtol=1e-12, atol=1e-15)


def test_even_again_after_it_is_told_so() -> None:
    blend, rows = both()
    blend.shut_in(np.ones((3, DRAWS + 1)), np.ones((3, DRAWS + 1)))
    blend.even_out()
    assert blend.patterns is not None
    np.testing.assert_allclose(blend.shares, rows.shares)


def test_a_tracer_that_gains_and_one_that_is_emptied() -> None:
    blend, _ = both()
    patterns = blend.patterns
    assert patterns is not None
    held, in_bath = tracers([patterns], DRAWS + 1)
    assert held.sum() == pytest.approx(2 * (DRAWS + 1)), "one pattern a pace, and nothing of the bath"
    assert in_bath.sum() == pytest.approx(2 * (DRAWS + 1)), "the bath is one unit of its own"
    gained = np.zeros_like(held)
    gained[:, 0] = -held[:, 0]
    gained[:, 1, DEPTH - OPEN.start] = 0.25
    gained[:, 1, DEPTH - OPEN.start + 1] = -1e-18  # the last bits of a sum
    places, wholes = moved(BODY, held, gained)
    np.testing.assert_allclose(wholes[:, 0], 0.0, atol=1e-15)
    np.testing.assert_allclose(wholes[:, 1], 0.25)
    np.testing.assert_allclose(places.sum(axis=2), 1.0)
    np.testing.assert_allclose(places[:, 1, DEPTH], 1.0)
    assert (places >= 0).all()


def test_what_holds_nothing_is_closed_as_at_first() -> None:
    blend, _ = both()
    patterns = blend.patterns
    assert patterns is not None
    nothing = np.zeros((3, DRAWS + 1))
    blend.hold(nothing, np.zeros((3, 1, DRAWS + 1)), patterns.places)
    np.testing.assert_allclose(
        blend.open_share, np.broadcast_to(1 - CLOSED_SHARES[:, np.newaxis], nothing.shape)
    )
