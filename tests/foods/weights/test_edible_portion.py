"""Refuse, part for part."""

from __future__ import annotations

import pytest
from saltledger.foods.dataset import bundled
from saltledger.foods.matching.headwords import Phrase
from saltledger.foods.weights.edible_portion import edible_share, refuse_parts
from saltledger.lines import read_line


@pytest.mark.parametrize(
    ("code", "parts"),
    [
        ("09040", [(36.0, "skin")]),
        ("09004", [(10.0, "core and stem"), (13.0, "skin")]),
        ("10028", [(18.0, "bone"), (8.0, "connective tissue")]),
        ("11333", [(18.0, "stem ends, seeds and core")]),
    ],
)
def test_the_parts_of_refuse(code, parts):
    assert refuse_parts(bundled().get(code)) == parts


def share(text, code):
    line = read_line(text)
    found = edible_share(line, bundled().get(code), Phrase.of_line(line.food_words, line.preparation))
    return found and round(found.grams.likely, 3)


@pytest.mark.parametrize(
    ("text", "code", "likely"),
    [
        ("1 kg bananas", "09040", 0.64),
        ("1 kg peeled bananas", "09040", None),
        ("2 lb potatoes", "11352", None),
        ("2 lb potatoes, peeled", "11352", 0.75),
        ("1 lb onions, chopped", "11282", 0.9),
        ("1 lb chopped onions", "11282", None),
        ("1 lb boneless pork chops", "10028", None),
        ("1 lb mussels", "15164", 0.25),
        ("1 lb butter", "01145", None),
        ("1 (15 oz) can bananas", "09040", None),
    ],
)
def test_what_is_taken_off(text, code, likely):
    assert share(text, code) == likely


def test_a_bone_that_may_be_there_widens_the_range_downwards_only():
    line = read_line("2 lb pork chops")
    found = edible_share(line, bundled().get("10028"), Phrase.of_line(line.food_words))
    assert (found.grams.low, found.grams.likely, found.grams.high) == pytest.approx((0.82, 1, 1))
    assert found.basis == "bone or trimmings of up to 18 % not taken off"
