"""The arithmetic of ranges."""

from __future__ import annotations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from saltledger.core.spread import DRAWS, Spread, permutation, product

ENDS = st.just(0.0) | st.floats(1e-6, 1e6)
SPREADS = st.lists(ENDS, min_size=3, max_size=3).map(lambda ends: Spread(*sorted(ends)))


@given(SPREADS, SPREADS, st.floats(0, 1))
def test_between_two_spreads(one: Spread, other: Spread, part: float) -> None:
    found = one.towards(other, part)
    for end in ("low", "likely", "high"):
        ends = sorted((getattr(one, end), getattr(other, end)))
        assert ends[0] * (1 - 1e-9) - 1e-9 <= getattr(found, end) <= ends[1] * (1 + 1e-9) + 1e-9
    assert one.towards(other, 0) == one


@given(SPREADS, SPREADS)
def test_a_product_is_no_wider_than_both_ends_at_once(one: Spread, other: Spread) -> None:
    found, widest = product(one, other), one.times(other)
    assert found.likely == widest.likely
    assert found.low >= widest.low * (1 - 1e-9)
    assert found.high <= widest.high * (1 + 1e-9)


@given(SPREADS, SPREADS)
def test_reaching_as_far_as_either_does(one: Spread, other: Spread) -> None:
    fits = other.low <= one.likely <= other.high
    found = one.reaching(other)
    assert found.likely == one.likely
    assert (found.low, found.high) == (min(one.low, other.low), max(one.high, other.high)) or not fits


@given(SPREADS, st.floats(0, 1e6))
def test_nothing_above_a_cap(one: Spread, most: float) -> None:
    assert one.capped(most).high == min(one.high, most)
    assert one.capped(1e7) == one


@given(st.integers(0, 2**32 - 1))
def test_draws_lie_in_the_frozen_order_of_the_twister(seed: int) -> None:
    assert permutation(seed) == np.random.RandomState(seed).permutation(DRAWS).tolist()
