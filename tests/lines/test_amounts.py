"""Amounts: figures, words, ranges, exactness."""

from __future__ import annotations

import pytest
from saltledger.lines.amounts import Cursor, read_amount
from saltledger.lines.line_tokens import tokenize


def amount(text):
    found = read_amount(Cursor(tokenize(text)))
    return None if found is None else (found[0].low, found[0].likely, found[0].high)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("1", 1),
        ("1½", 1.5),
        ("1 ½", 1.5),
        ("1 1/2", 1.5),
        ("1-1/2", 1.5),
        ("1 and 1/2", 1.5),
        ("1 & 1/2", 1.5),
        ("3/4", 0.75),
        ("1⁄4", 0.25),
        ("a", 1),
        ("an", 1),
        ("half a", 0.5),
        ("a half", 0.5),
        ("one half", 0.5),
        ("one-half", 0.5),
        ("two-thirds", 2 / 3),
        ("three quarters of a", 0.75),
        ("one and a half", 1.5),
        ("two and a half", 2.5),
        ("twenty-four", 24),
        ("a dozen", 12),
        ("half a dozen", 6),
        ("2 dozen", 24),
        ("1,5", 1.5),
        ("1,000", 1000),
    ],
)
def test_one_number(text, expected):
    assert amount(text) == pytest.approx((expected,) * 3)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("2 to 3", (2, 2.5, 3)),
        ("2-3", (2, 2.5, 3)),
        ("2–3", (2, 2.5, 3)),
        ("2 or 3", (2, 2.5, 3)),
        ("1/2-3/4", (0.5, 0.625, 0.75)),
        ("1 to 1 1/2", (1, 1.25, 1.5)),
        ("1–1½", (1, 1.25, 1.5)),
        ("4- to 5", (4, 4.5, 5)),
        ("two to three", (2, 2.5, 3)),
        ("3-2", (2, 2.5, 3)),
        ("about 2", (1.8, 2, 2.2)),
        ("~2", (1.8, 2, 2.2)),
        ("scant 1", (0.85, 0.93, 1)),
        ("a couple of", (2, 2, 3)),
        ("a few", (2, 3, 5)),
    ],
)
def test_ranges_and_exactness_give_a_spread(text, expected):
    assert amount(text) == pytest.approx(expected)


@pytest.mark.parametrize(
    "text", ["", "salt", "the salt", "half and half", "2% milk", "a little oil", "-", "/2"]
)
def test_no_amount(text):
    assert amount(text) is None
