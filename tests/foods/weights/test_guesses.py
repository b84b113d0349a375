"""Weights that are guesses: broad, and wide enough to matter."""

from __future__ import annotations

import pytest
from saltledger.core.spread import Spread
from saltledger.foods.dataset import bundled
from saltledger.foods.matching.matcher import SURE
from saltledger.foods.weights.weight import BROAD, WIDE_G, is_guess
from saltledger.recipe.ingredients import ReadSettings, resolve


def ingredient(line: str):
    return resolve(line, bundled(), ReadSettings())


def test_a_broad_and_wide_weight_is_a_guess():
    assert is_guess(Spread(10.0, 20.0, 10.0 * BROAD + WIDE_G), Spread.exact(1.0), None)


@pytest.mark.parametrize(
    ("grams", "amount"),
    [
        (Spread(100.0, 120.0, 150.0), Spread.exact(1.0)),
        (Spread(0.1, 0.2, 0.5), Spread.exact(1.0)),
        (Spread(100.0, 250.0, 400.0), Spread(1.0, 2.5, 4.0)),
    ],
    ids=["narrow", "slight", "as wide as the line says"],
)
def test_a_narrow_slight_or_stated_range_is_none(grams, amount):
    assert not is_guess(grams, amount, None)


def test_a_slight_weight_of_much_sodium_is_a_guess():
    salt = bundled().get("02047")
    assert is_guess(Spread(0.5, 3.0, 9.0), None, salt)


@pytest.mark.parametrize(
    "line",
    [
        "1 bowl sweetcorn",
        "1 jar mango pieces",
        "1 jar olives",
        "1 bag frozen spinach",
        "Salt to taste",
        "a handful of diced ham",
    ],
)
def test_a_guessed_weight_makes_a_line_doubtful_but_not_its_food(line):
    found = ingredient(line)
    assert found.grams is not None
    assert found.confidence < SURE <= found.sure_of_food
    assert "low-confidence" not in {notice.code for notice in found.notices}


def test_a_reckoned_density_is_a_guess_sooner():
    grams, one = Spread(60.0, 90.0, 105.0), Spread.exact(1.0)
    assert is_guess(grams, one, None, reckoned=True)
    assert not is_guess(grams, one, None)


@pytest.mark.parametrize("line", ["2 onions, chopped", "1 tsp salt", "a pinch of nutmeg", "200 g ham"])
def test_plain_lines_stay_sure(line):
    assert ingredient(line).confidence >= SURE


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("300 g flour (wholemeal)", "20080"),
        ("200 g sausage (peppered, smoked sausage)", "07074"),
        ("1 cup lentils (red)", "16144"),
        ("80 g cheese (I usually use Gouda)", "01022"),
        ("2 onions (not red)", "11282"),
        ("3 peaches (ripe)", "09236"),
    ],
)
def test_a_bracket_names_the_kind(line, code):
    assert ingredient(line).food.code == code


def test_one_of_several_kinds_is_no_sure_food():
    assert ingredient("100 g grain (rye, spelt)").confidence < SURE


@pytest.mark.parametrize(
    ("line", "code", "grams"),
    [
        ("1. 3 cloves garlic", "11215", 9.0),
        ("100 g un-salted butter", "01145", 100.0),
        ("Salt - a pinch", "02047", 0.375),
        ("gherkins: a dozen", "11937", 240.0),
        ("500 ml sour cream", "01056", 486.0),
        ("1 cup cooked rice", "20045", 158.0),
        ("6 eggs, hard-boiled and halved", "01129", 300.0),
        ("2 tbsp Hollanby's tomato ketchup", "11935", 34.0),
    ],
)
def test_what_stands_around_a_food_is_read_as_it_is_meant(line, code, grams):
    found = ingredient(line)
    assert found.food.code == code
    assert found.grams.likely == pytest.approx(grams, rel=0.02)


def test_a_share_of_weight_is_no_amount_of_salt():
    found = ingredient("2-4 % sea salt by cabbage weight")
    assert found.food.code == "02047"
    assert found.amount is None


@pytest.mark.parametrize(("width", "is_one"), [(2.56, False), (2.60, True)])
def test_a_gram_of_sodium_from_low_to_high_is_worth_a_word(width, is_one):
    """Salt holds 387.58 mg of sodium a gram: 2.58 g of it are a gram of sodium."""
    assert is_guess(Spread(1.0, 2.0, 1.0 + width), None, bundled().get("02047")) is is_one


@pytest.mark.parametrize(
    ("grams", "is_one"),
    [
        (Spread(100.0, 120.0, 146.0), False),
        (Spread(100.0, 120.0, 148.0), True),
        (Spread(20.0, 25.0, 29.9), False),
        (Spread(20.0, 25.0, 30.1), True),
    ],
    ids=["narrow", "broad", "slight", "wide enough"],
)
def test_a_reckoned_weight_is_a_guess_from_half_as_much_again_and_ten_grams_on(grams, is_one):
    assert is_guess(grams, Spread.exact(1.0), None, reckoned=True) is is_one


@pytest.mark.parametrize(("width", "is_one"), [(WIDE_G - 0.1, False), (WIDE_G + 0.1, True)])
def test_twenty_grams_either_way_are_worth_a_word(width, is_one):
    assert is_guess(Spread(5.0, 10.0, 5.0 + width), None, None) is is_one


def test_a_weight_that_may_be_nothing_is_as_broad_as_can_be():
    assert is_guess(Spread(0.0, 10.0, 25.0), Spread(1.0, 2.0, 9.0), None)
