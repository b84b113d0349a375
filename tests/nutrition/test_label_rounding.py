"""Declared amounts: bands in order, and an amount is never declared below nothing."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from saltledger.nutrition.label_rounding import bands, declare

RULES = [
    ("fda", rule) for rule in ("calories", "fat", "cholesterol", "sodium", "carbohydrate", "percent_rdi")
] + [("eu", rule) for rule in ("energy", "macronutrient", "saturates", "salt", "three_figures")]


@pytest.mark.parametrize(("scheme", "rule"), RULES)
def test_the_last_band_has_no_end_and_the_ends_rise(scheme, rule):
    ends = [band.reach.end for band in bands(scheme, rule)]
    assert ends[-1] is None
    assert ends[:-1] == sorted(ends[:-1])


@given(st.sampled_from(RULES), st.floats(0, 5000), st.floats(0, 5000))
@settings(max_examples=100)
def test_more_is_never_declared_as_less(rule, a, b):
    low, high = (declare(*rule, amount).amount for amount in sorted((a, b)))
    # "less than 5 mg" stands for 2 to 5 mg, so its figure is the band's upper end.
    assert low <= high


@pytest.mark.parametrize(("scheme", "rule"), RULES)
def test_nothing_is_declared_as_nothing(scheme, rule):
    assert declare(scheme, rule, 0).words == "0"


@pytest.mark.parametrize("amount", [-1, float("nan"), float("inf")])
def test_a_declared_amount_is_finite_and_not_below_nothing(amount):
    with pytest.raises(ValueError, match="amount must be"):
        declare("fda", "sodium", amount)


def test_an_unknown_rule_is_named():
    with pytest.raises(ValueError, match="'colour' of 'fda'"):
        declare("fda", "colour", 1)


def test_less_than_says_so():
    assert declare("fda", "cholesterol", 3).less_than
    assert not declare("fda", "cholesterol", 7).less_than
