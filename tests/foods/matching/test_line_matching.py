"""Which food a line means: kinds in brackets, and what the line leaves open."""

from __future__ import annotations

import pytest
from saltledger.foods.dataset import bundled
from saltledger.foods.matching.line_matching import match_line
from saltledger.foods.matching.matcher import SURE
from saltledger.lines import read_line


def matched(text):
    return match_line(read_line(text), bundled(), ())[0]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("1 cup milk (skim)", "nonfat"),
        ("1 cup milk, skim", "nonfat"),
        ("500 g mince (beef, 5% fat)", "95% lean"),
        ("200 g fish (cod)", "cod"),
    ],
)
def test_what_stands_behind_the_food_may_name_it_closer(text, words):
    assert words in matched(text).food.name


@pytest.mark.parametrize(
    ("text", "first"),
    [
        ("100 g butter (salted or unsalted)", "01001"),
        ("100 g butter, unsalted or salted", "01145"),
        ("2 lb tomatoes (fresh or canned)", "11529"),
        ("Garlic, chopped or powder", "11215"),
        ("20 g yeast (fresh or dried)", "18374"),
    ],
)
def test_where_a_line_leaves_two_foods_open_the_first_is_taken_and_not_for_sure(text, first):
    found = matched(text)
    assert found.food.code == first
    assert found.confidence < SURE
    assert found.alternatives


@pytest.mark.parametrize("text", ["2 onions, chopped or sliced", "1 cup carrots (diced or cubed)"])
def test_a_choice_that_changes_no_food_leaves_it_sure(text):
    assert matched(text).confidence >= SURE
