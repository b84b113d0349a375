"""Rounding: exact steps, half up, on the right side of a limit whatever the binary fraction."""

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from saltledger.core.numbers import exact, is_within, plain, shown, to_figures, to_step, whole, whole_percent

amounts = st.floats(0, 1e6, allow_nan=False).map(lambda value: round(value, 4))
steps = st.sampled_from([Decimal(step) for step in ("0.01", "0.1", "0.5", "1", "5", "10")])


@pytest.mark.parametrize(
    ("amount", "step", "rounded"),
    [
        ("7.5", "5", "10"),
        ("7.4", "5", "5"),
        ("2.5", "1", "3"),
        ("0.25", "0.5", "0.5"),
        ("0.125", "0.01", "0.13"),
    ],
)
def test_half_way_values_go_up(amount, step, rounded):
    assert to_step(Decimal(amount), Decimal(step)) == Decimal(rounded)


def test_binary_noise_does_not_cross_a_limit():
    assert exact(0.1 + 0.2) == Decimal("0.3")
    assert exact(140.00000000000003) == 140
    assert exact(1.005 * 100) == Decimal("100.5")


@pytest.mark.parametrize("amount", [float("nan"), float("inf")])
def test_an_amount_is_finite(amount):
    with pytest.raises(ValueError, match="finite"):
        exact(amount)


@given(amounts, steps)
@settings(max_examples=100)
def test_rounding_moves_at_most_half_a_step_and_does_nothing_twice(amount, step):
    once = to_step(exact(amount), step)
    assert abs(once - exact(amount)) <= step / 2
    assert to_step(once, step) == once


@given(amounts, amounts, steps)
@settings(max_examples=100)
def test_rounding_keeps_order(a, b, step):
    low, high = sorted((a, b))
    assert to_step(exact(low), step) <= to_step(exact(high), step)


@pytest.mark.parametrize(
    ("amount", "figures", "printed"),
    [
        ("123.45", 3, "123"),
        ("0.012345", 2, "0.012"),
        ("999.5", 3, "1000"),
        ("0", 2, "0"),
        ("1250", 2, "1300"),
    ],
)
def test_significant_figures(amount, figures, printed):
    assert plain(to_figures(Decimal(amount), figures)) == printed


@pytest.mark.parametrize(
    ("amount", "printed"), [("1E+3", "1000"), ("2.50", "2.5"), ("0.0", "0"), ("100", "100"), ("0.10", "0.1")]
)
def test_printed_without_exponent_or_idle_zeros(amount, printed):
    assert plain(Decimal(amount)) == printed


def test_a_whole_percent_is_rounded_half_up():
    assert whole_percent(11.5, 2300) == 1
    assert whole_percent(11.4, 2300) == 0
    assert whole_percent(0.575, 1) == 58


@pytest.mark.parametrize(
    ("value", "how", "text"),
    [
        (0.0, {}, "0"),
        (1475.4, {}, "1475"),
        (1234567.8, {"grouped": True}, "1,234,568"),
        (12.345, {}, "12.3"),
        (12.0, {}, "12"),
        (0.0012345, {}, "0.00123"),
        (0.25, {"figures": 1}, "0.3"),
        (12.345, {"figures": 6}, "12.345"),
        (12.34, {"figures": 2, "decimals": 1}, "12"),
        (1.25, {"figures": 2, "decimals": 1}, "1.3"),
        (-0.04, {"decimals": 1}, "0"),
        (-1475.6, {"grouped": True}, "-1,476"),
        (1e-9, {}, "0.000000001"),
    ],
)
def test_a_number_as_people_read_it(value, how, text):
    assert shown(value, **how) == text


@given(st.floats(0, 1e7), st.integers(1, 6))
@settings(max_examples=100)
def test_what_is_shown_is_within_its_figures(value, figures):
    text = shown(value, figures)
    assert float(text) == pytest.approx(value, rel=0.5001 * 10 ** (1 - figures), abs=1e-300)
    assert "e" not in text


@given(st.floats(0, 1e6), st.floats(1e-6, 1e6))
def test_a_whole_percent_is_that_of_the_decimals(amount, of):
    assert whole_percent(amount, of) == int(to_step(exact(amount) * 100 / exact(of), Decimal(1)))


@given(st.integers(0, 2000), st.integers(1, 10_000))
def test_half_a_percent_is_the_next_whole_one_whatever_the_binary_fraction(whole, of):
    assert whole_percent(of * (whole + 0.5) / 100, of) == whole + 1


@given(st.floats(1e-3, 1e5), st.floats(-1e-6, 1e-6))
def test_within_a_limit_as_the_decimals_have_it(limit, off):
    for amount in (limit * (1 + off), limit * 1.5, limit / 2, 0.0):
        assert is_within(amount, limit) == (exact(amount) <= exact(limit))
        assert is_within(amount, limit, strictly=True) == (exact(amount) < exact(limit))


def test_no_binary_fraction_lifts_an_amount_over_a_limit():
    assert is_within(140.00000000000003, 140)
    assert not is_within(139.99999999999997, 140, strictly=True)


def test_what_is_larger_than_its_figures_is_told_as_it_is():
    assert whole(5e114) == f"{5 * 10**114:,}"
