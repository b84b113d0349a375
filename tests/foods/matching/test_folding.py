"""Folding of the words of names."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from saltledger.foods.matching.folding import fold, singular


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Tomatoes", "tomato"),
        ("gruyère", "Gruyere"),
        ("jalapeños", "jalapeno"),
        ("all-purpose flour", "all purpose flour"),
        ("baker's ammonia", "bakers ammonia"),
        ("baker\u2019s ammonia", "baker's ammonia"),
        ("yoghurt", "yogurt"),
        ("wholemeal flour", "whole wheat flour"),
        ("chillies", "chiles"),
        ("prawns", "shrimp"),
        ("self-raising", "self-rising"),
        ("no-salt-added", "unsalted"),
        ("without salt", "unsalted"),
        ("reduced-sodium", "low sodium"),
        ("2 % milk", "2% milk"),
        ("2 percent milk", "2% milk"),
        ("berries", "berry"),
        ("bay leaves", "bay leaf"),
        ("olives", "olive"),
        ("peaches", "peach"),
        ("anchovies", "anchovy"),
    ],
)
def test_ways_of_writing_one_word_come_out_alike(one, other):
    assert fold(one) == fold(other)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("salted butter", "unsalted butter"),
        ("milk chocolate", "chocolate milk"),
        ("low-fat milk", "fat-free milk"),
        ("80% lean", "90% lean"),
    ],
)
def test_what_differs_stays_apart(one, other):
    assert fold(one) != fold(other)


@pytest.mark.parametrize(
    "word", ["asparagus", "hummus", "couscous", "molasses", "swiss", "bass", "watercress", "gas", "egg"]
)
def test_words_that_are_singular_stay(word):
    assert singular(word) == word


@given(st.text(max_size=80))
@settings(max_examples=100)
def test_any_text_folds_to_words_without_blanks(text):
    assert all(word and not any(map(str.isspace, word)) for word in fold(text))


@given(st.sampled_from(["Crème fraîche", "Brussels sprouts", "Bird's eye chillies", "half-and-half", "Oats"]))
def test_folding_what_is_folded_changes_nothing(text):
    assert fold(" ".join(fold(text))) == fold(text)


@pytest.mark.parametrize("text", ["2 % milk", "2 percent milk", "2 per cent milk", "2% milk"])
def test_a_share_is_one_word_however_it_is_written(text):
    assert fold(text) == fold("2% milk")
    assert fold("2%")[0] in fold(text)
