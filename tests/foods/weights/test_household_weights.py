"""A food's own household weights, by form and by count."""

from __future__ import annotations

import numpy as np
import pytest
from saltledger.foods.food import Food, Household
from saltledger.foods.nutrients import NUTRIENTS
from saltledger.foods.weights.household_weights import by_count, by_volume
from saltledger.lines import read_line
from saltledger.units.kitchen_units import to_millilitres

CUP, TABLESPOON = to_millilitres("cup"), to_millilitres("tablespoon")


def food(*labels, group="1100"):
    household = tuple(Household(label, grams) for label, grams in labels)
    values = np.full(len(NUTRIENTS), np.nan)
    return Food("X1", "Thing, raw", "Things", group, values, household=household, source="here")


@pytest.mark.parametrize(
    ("forms", "cup_g", "fits"),
    [({"chopped"}, 160, True), ({"sliced"}, 115, True), (set(), 160, True), ({"mashed"}, 160, False)],
)
def test_the_form_asked_for_wins(forms, cup_g, fits):
    own = by_volume(food(("1 cup, chopped", 160.0), ("1 cup, sliced", 115.0)), forms, CUP)
    assert own.figure.spread.likely * CUP == pytest.approx(cup_g)
    assert own.fits is fits


def test_the_nearest_volume_wins_among_equal_forms():
    own = by_volume(food(("1 cup", 205.0), ("1 tbsp", 12.8)), set(), TABLESPOON)
    assert own.figure.spread.likely * TABLESPOON == pytest.approx(12.8)
    assert own.basis == "household weight of Thing, raw (1 tbsp = 12.8 g)"


def test_another_volume_of_the_same_food_is_scaled_and_said_to_be():
    own = by_volume(food((".5 cup", 100.0)), set(), TABLESPOON)
    assert own.figure.spread.likely * TABLESPOON == pytest.approx(12.5)
    assert own.basis == "by household weight of Thing, raw (.5 cup = 100 g)"


def test_whipped_is_not_what_a_plain_line_means():
    assert not by_volume(food(("1 cup, whipped", 120.0)), set(), CUP).fits


def test_shells_do_not_count_as_the_food():
    assert by_volume(food(("1 cup, with hulls, edible yield", 46.0)), set(), CUP) is None


@pytest.mark.parametrize(
    ("text", "unit", "each_g", "fits"),
    [
        ("2 large things", None, 50, True),
        ("2 small things", None, 50, False),
        ("3 cloves thing", "clove", 3, True),
        ("1 stalk thing", "stalk", None, None),
    ],
)
def test_by_count(text, unit, each_g, fits):
    own = by_count(food(("1 large", 50.0), ("5 cloves", 15.0)), unit, read_line(text))
    assert (own and own.figure.spread.likely) == each_g
    assert (own and own.fits) == fits


def test_a_whole_side_of_fish_is_not_a_fillet():
    assert by_count(food((".5 fillet", 198.0)), "fillet", read_line("2 fillets thing")) is None


def test_a_share_of_the_whole_animal_is_not_a_piece():
    label = "1 thing, (yield from 1 lb ready-to-cook duck)"
    assert by_count(food((label, 73.0)), None, read_line("1 thing")) is None


def test_what_is_mini_is_not_taken_where_no_size_is_said():
    things = food(("1 thing, mini", 28.0))
    assert by_count(things, None, read_line("2 things")).fits is False
    assert by_count(things, None, read_line("2 mini things")).fits is True


def give_or_take(own):
    """The share by which a weight may lie off, either way."""
    spread = own.figure.spread
    assert spread.high / spread.likely - 1 == pytest.approx(1 - spread.low / spread.likely)
    return round(spread.high / spread.likely - 1, 4)


@pytest.mark.parametrize(
    ("label", "group", "forms", "share"),
    [
        ("1 cup", "1400", set(), 0.02),
        ("1 cup", "0400", set(), 0.02),
        ("1 cup", "2000", set(), 0.05),
        ("1 cup, chopped", "1100", {"chopped"}, 0.07),
        ("1 cup, chopped", "1100", set(), 0.1),
        ("1 cup, mashed", "1100", {"chopped"}, 0.2),
    ],
    ids=["drink", "oil", "level", "form asked for", "no form asked for", "another form"],
)
def test_a_volume_is_the_surer_the_nearer_its_form(label, group, forms, share):
    own = by_volume(food((label, 150.0), group=group), forms, CUP)
    assert give_or_take(own) == share
    assert own.poured is (group in {"0400", "1400"})


def test_a_piece_may_be_a_fifth_lighter_or_heavier():
    assert give_or_take(by_count(food(("1 large", 50.0)), None, read_line("1 large thing"))) == 0.2


def test_a_piece_of_what_is_drained_says_so():
    assert by_count(food(("1 thing, drained", 30.0)), None, read_line("1 thing")).drained
    assert not by_count(food(("1 thing", 30.0)), None, read_line("1 thing")).drained


def test_a_can_stands_for_canned_pieces_only_where_no_piece_has_a_weight():
    own = by_count(food(("1 can", 200.0)), None, read_line("3 canned things"))
    assert own.figure.spread.likely == pytest.approx(200.0)
    assert own.fits is False
