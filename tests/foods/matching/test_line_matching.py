"""Which food a line means: kinds in brackets, and what the line leaves open."""

from __future__ import annotations

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from saltledger.foods.dataset import bundled
from saltledger.foods.matching.everyday_names import (
    MARK,
    everyday_names,
    least_sodium_mg,
    lightly_most_mg,
    salty_words,
)
from saltledger.foods.matching.folding import fold
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


FOODS = sorted(
    " ".join(words)
    for words, name in everyday_names().by_words.items()
    if name.code and not any(word.startswith(MARK) for word in words)
)
SALTY = sorted(salty_words() - {"brine"})
SAYINGS = (
    "100 g {salty} {food}",
    "100 g {food}, {salty}",
    "2 {food} ({salty})",
    "{food}, {salty} and sliced",
)


@settings(max_examples=150, deadline=None)
@example("pork loin", "brined", "100 g {food} ({salty})")
@example("herring", "marinated", "100 g {salty} {food}")
@example("beef", "corned", "100 g {food}, {salty}")
@given(st.sampled_from(FOODS), st.sampled_from(SALTY), st.sampled_from(SAYINGS))
def test_what_is_said_to_be_salted_never_is_surely_something_unsalted(food, salty, saying):
    """It maps to a food that is as salty, to none, or to one that a person is asked to look at."""
    found = matched(saying.format(food=food, salty=salty))
    if found.food is None or found.confidence < SURE:
        return
    sodium = found.food.per_100g("NA")
    named = {salty, "salt"} & set(fold(found.food.name))
    assert sodium is None or named or sodium >= least_sodium_mg(salty, found.food.group_code[:2])


@pytest.mark.parametrize(
    "how", ["lightly salted {}", "slightly salted {}", "{}, lightly salted", "{} (lightly-salted)"]
)
@pytest.mark.parametrize("food", ["cod", "mackerel"])
def test_fish_that_is_lightly_salted_is_never_surely_fish_salted_to_keep(how, food):
    found = matched("200 g " + how.format(food))
    assert found.confidence < SURE or found.food.per_100g("NA") <= lightly_most_mg("salted", "15")


@pytest.mark.parametrize(
    "line", ["50 g lightly salted peanuts", "200 g lightly smoked salmon", "300 g salt cod"]
)
def test_what_may_well_be_lightly_salted_stays_sure(line):
    assert matched(line).confidence >= SURE


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("1 tsp finely ground sea salt", "02047"),
        ("1/2 cup coarsely ground bread crumbs", "18079"),
        ("100 g ground walnuts", "12155"),
        ("500 g ground turkey", "05305"),
        ("1 lb ground shrimp", None),
        ("200 g veggie mince", None),
        ("100 g salt codfish", "15018"),
        ("2 different coloured peppers", "11333"),
    ],
)
def test_ground_makes_another_food_of_flesh_alone(line, code):
    found = matched(line)
    assert (found.food and found.food.code) == code
    assert code is None or found.confidence >= SURE


@pytest.mark.parametrize("line", ["1 tsp ground mole paste", "ground brine", "2 tbsp ground curry sauce"])
def test_what_is_ground_and_no_food_of_the_dataset_is_none(line):
    assert matched(line).food is None


@pytest.mark.parametrize("word", ["saltfish", "saltpork", "saltbeef", "salthering"])
def test_a_slip_never_takes_the_salt_out_of_a_word(word):
    found = matched(f"100 g {word}")
    assert found.food is None or found.food.per_100g("NA") > 1000


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("a piece of salt bacon, about 2 lb", "10123"),
        ("100 g salt butter", "01001"),
        ("500 g salt ling", None),
        ("500 g salted ling", None),
        ("2 salt herrings", None),
        ("200 g salt mackerel", "83110"),
    ],
)
def test_what_salt_stands_before_is_salted(line, code):
    found = matched(line)
    assert (found.food and found.food.code) == code
