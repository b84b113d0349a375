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


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("olivee", "olive"),
        ("oliv", None),
        ("colve", "clove"),
        ("chickn", "chicken"),
        ("chcken", "chicken"),
        ("chkcen", None),
        ("turmmerric", "turmeric"),
        ("turmxyrric", None),
    ],
    ids=[
        "a letter more",
        "four letters",
        "turned",
        "a letter less",
        "one in seven",
        "two in seven",
        "two in ten",
        "three",
    ],
)
def test_one_slip_is_forgiven_and_two_from_eight_letters_on(written, meant):
    assert SPELLER.nearest(written) == meant


def test_a_word_of_the_first_vocabulary_goes_before_a_nearer_one_of_the_second():
    assert Speller(["bananas"], ["banana"]).nearest("bananaa") == "bananas"


def test_of_words_as_near_the_first_of_the_alphabet_is_meant():
    assert Speller(["pearl", "peaar"]).nearest("pears") == "pearl"
    assert Speller(["peart", "pearl"]).nearest("pears") == "pearl"


def test_a_short_word_may_be_meant_by_one_of_five_letters():
    assert Speller(["kale"]).nearest("kalee") == "kale"
    assert Speller(["oat"]).nearest("oatss") is None
