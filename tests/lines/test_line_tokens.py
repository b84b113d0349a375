"""Cutting lines into tokens."""

from __future__ import annotations

import pytest
from saltledger.lines.line_tokens import text_of, tokenize


def values(text):
    return [token.value for token in tokenize(text) if token.kind in {"number", "fraction"}]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("1,5 kg", [1.5]),
        ("1,000 g", [1000]),
        ("1,000.5 g", [1000.5]),
        ("12,345,678", [12345678]),
        (".5 oz", [0.5]),
        ("14.5", [14.5]),
        ("1½", [1, 0.5]),
        ("⅔ cup", [2 / 3]),
        ("٣ ك", [3]),
    ],
)
def test_numbers_are_read_in_every_way_of_writing(text, expected):
    assert values(text) == pytest.approx(expected)


@pytest.mark.parametrize("text", ["1.2.3", "99999999999999999999"])
def test_what_is_no_number_is_a_word(text):
    assert [token.kind for token in tokenize(text)] == ["word"]


def test_number_words_are_parted_from_what_they_count_and_foods_are_not():
    assert [token.text for token in tokenize("eight-ounce half-and-half all-purpose")] == [
        "eight",
        "-",
        "ounce",
        "half-and-half",
        "all-purpose",
    ]


def test_dashes_slashes_and_quotes_of_all_kinds_come_out_alike():
    assert text_of(tokenize("2–3 “big” 1⁄2 cook’s")) == '2-3 "big" 1/2 cook\'s'


def test_text_comes_back_single_spaced():
    assert text_of(tokenize("  80/20   ground\u00a0beef ")) == "80/20 ground beef"
