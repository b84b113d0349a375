"""Misspelt words."""

import pytest
from saltledger.foods.matching.spelling import Speller

SPELLER = Speller(["chicken", "turmeric", "worcestershire", "clove", "olive"], ["chikn", "cinnabar"])


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("chiken", "chicken"),
        ("tumeric", "turmeric"),
        ("worchestersire", "worcestershire"),
        ("cinabar", "cinnabar"),
    ],
)
def test_a_slip_is_forgiven(written, meant):
    assert SPELLER.nearest(written) == meant


@pytest.mark.parametrize("written", ["love", "live", "xolive", "12345", "tumrc", "", "caïman"])
def test_what_is_too_short_or_too_far_stays(written):
    assert SPELLER.nearest(written) is None


@pytest.mark.parametrize(
    ("written", "meant"),
    [("vannila", "vanilla"), ("carot", "carrot"), ("zuchinni", "zucchini"), ("tommato", "tomato")],
)
def test_letters_doubled_or_not_come_before_any_other_slip(written, meant):
    speller = Speller(["carob", "carrot", "tomato", "vanilla", "villain", "zucchini"])
    assert speller.nearest(written) == meant
