"""A figure with its range: what it may be, how it is drawn, and that the draws come back to it."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from saltledger.core.spread import (
    DRAWS,
    Spread,
    draw,
    shifted,
    standard_normal,
    summarise,
    summarise_rows,
)

positive = st.floats(0.01, 1e4)


@st.composite
def spreads(draw_: st.DrawFn) -> Spread:
    """Up to five times either way."""
    low, times = draw_(positive), st.floats(1, 5)
    likely = low * draw_(times)
    return Spread(low, likely, likely * draw_(times))


@pytest.mark.parametrize(
    "parts", [(2, 1, 3), (1, 3, 2), (math.nan, 1, 2), (0, 1, math.inf), (-math.inf, 0, 1)]
)
def test_what_does_not_run_from_low_to_high_is_refused(parts):
    with pytest.raises(ValueError, match="a spread must"):
        Spread(*parts)


def test_ways_to_make_one():
    assert Spread.exact(4) == Spread(4, 4, 4)
    assert Spread.exact(4).is_exact
    assert not Spread(3, 4, 4).is_exact
    assert Spread.within(-10, 0.1) == Spread(-11, -10, -9)
    assert Spread(1, 2, 4).scaled(2.5) == Spread(2.5, 5, 10)
    row = {"low": "1", "likely": "2", "high": "4"}
    assert Spread.from_mapping(row).as_dict() == {"low": 1.0, "likely": 2.0, "high": 4.0}


@given(spreads())
def test_draws_hold_the_likely_case_and_come_back_to_the_spread(spread):
    values = draw(spread, "quay")
    assert values[0] == spread.likely
    assert len(values) == DRAWS + 1
    found = summarise(values)
    assert found.likely == spread.likely
    assert found.low == pytest.approx(spread.low, rel=0.03)
    assert found.high == pytest.approx(spread.high, rel=0.03)


@given(spreads())
def test_half_the_draws_lie_on_each_side_and_a_twentieth_beyond_each_end(spread):
    values = draw(spread, "quay")[1:]
    if spread.low < spread.likely * (1 - 1e-6) and spread.high > spread.likely * (1 + 1e-6):
        assert (values < spread.likely).sum() == (values > spread.likely).sum() == DRAWS // 2
        assert (values < spread.low).sum() == pytest.approx(DRAWS / 20, abs=1)
        assert (values > spread.high).sum() == pytest.approx(DRAWS / 20, abs=1)


@given(spreads())
def test_what_is_positive_stays_positive(spread):
    assert draw(spread, "quay").min() > 0


def test_what_may_be_below_nothing_is_drawn_evenly_and_can_be_clipped():
    spread = Spread(-1, 0, 2)
    values = draw(spread, "tern")
    assert values.min() < -1
    assert summarise(values).high == pytest.approx(2, rel=0.03)
    clipped = draw(spread, "tern", floor=0.0, ceiling=1.5)
    assert (clipped.min(), clipped.max()) == (0.0, 1.5)
    assert np.array_equal(clipped, np.clip(values, 0.0, 1.5))


def test_one_name_has_one_set_of_draws_and_another_has_its_own():
    first, again, other = standard_normal("salt"), standard_normal("salt"), standard_normal("water")
    assert np.array_equal(first, again)
    assert not np.array_equal(first, other)
    assert not np.array_equal(first, standard_normal("salt", copy=1))
    assert np.array_equal(np.sort(first[1:]), np.sort(other[1:]))
    assert abs(np.corrcoef(first[1:], other[1:])[0, 1]) < 0.2
    with pytest.raises(ValueError, match="read-only"):
        first[0] = 1.0


def test_shared_draws_cannot_be_written_to():
    with pytest.raises(ValueError, match="read-only"):
        draw(Spread(1, 2, 4), "salt")[0] = 9.0


def test_draws_of_the_callers_own_move_the_likely_case_as_well():
    normal = standard_normal("salt").copy()
    assert np.array_equal(shifted(Spread(1, 2, 4), normal), draw(Spread(1, 2, 4), "salt"))
    normal[0] = 1.6448536269514722
    assert shifted(Spread(1, 2, 4), normal)[0] == pytest.approx(4)
    normal[0] = -1.6448536269514722
    assert shifted(Spread(1, 2, 4), normal)[0] == pytest.approx(1)


@given(st.lists(spreads(), min_size=1, max_size=4))
def test_rows_are_summed_up_one_by_one(listed):
    rows = np.stack([draw(each, f"row {place}") for place, each in enumerate(listed)])
    assert summarise_rows(rows) == [summarise(row) for row in rows]


def test_a_likely_case_outside_its_draws_widens_the_range():
    values = np.concatenate(([10.0], np.linspace(0, 1, DRAWS)))
    found = summarise(values)
    assert (found.low, found.likely, found.high) == pytest.approx((0.05, 10.0, 10.0))


@given(positive, st.integers(0, 3))
def test_percentiles_are_those_of_numpy(scale, place):
    values = draw(Spread(1, 2, 5), f"p{place}") * scale
    found = summarise(values)
    assert (found.low, found.high) == pytest.approx(tuple(np.percentile(values[1:], (5, 95))))
