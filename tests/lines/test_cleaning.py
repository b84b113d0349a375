"""Marks, addresses and look-alike letters come off a line; its words stay."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from saltledger.lines import read_line
from saltledger.lines.cleaning import cleaned


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("2 tsp [ras el hanout](/spice-blends)", "2 tsp ras el hanout"),
        ("1 lb **lean** beef", "1 lb lean beef"),
        ("Honey *3 tablespoons*", "Honey 3 tablespoons"),
        ("200 ml stock*", "200 ml stock"),
        ("<i>2</i> eggs", "2 eggs"),
        ("1 &frac12; cups rye flour", "1 ½ cups rye flour"),
        ("1 cup rice https://example.org/rice", "1 cup rice"),
        ("Optional: a bay leaf", "a bay leaf (optional)"),
        ("s&p", "salt and pepper"),
        ("2 сarrots", "2 carrots"),
        ("2 * 400 g tins beans", "2 x 400 g tins beans"),
    ],
)
def test_what_is_no_words_comes_off(text, words):
    assert cleaned(text).split() == words.split()


@pytest.mark.parametrize(
    "text", ["соль 10 г", "2 x 400 g tins", "half_and_half", "crème fraîche", "fish & chips"]
)
def test_other_words_stay_as_they_are(text):
    assert cleaned(text) == text


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=120))
def test_any_text_is_cleaned(text):
    assert isinstance(cleaned(text), str)


@pytest.mark.parametrize(
    ("text", "amount", "unit", "food"),
    [
        ("Rice syrup *2 tbsp*", 2, "tablespoon", "rice syrup"),
        ("leeks (600 gramms)", 600, "gram", "leeks"),
        ("2 EL olive oil", 2, "tablespoon", "olive oil"),
        ("1 TL paprika", 1, "teaspoon", "paprika"),
        ("1 c. à s. honey", 1, "tablespoon", "honey"),
        ("3 twigs of dill", 3, "sprig", "dill"),
        ("1 table spoon of malt", 1, "tablespoon", "malt"),
        ("6/7 juniper berries", 6.5, None, "juniper berries"),
        ("5/6 cup milk", 5 / 6, "cup", "milk"),
        ("from 40 g to 60 g of oats", 50, "gram", "oats"),
        ("a stick or two of margarine", 1.5, "stick", "margarine"),
        ("250 g orzo. You can also use small shells", 250, "gram", "orzo"),
        ("1 crab that weighs about 900 g", 1, None, "crab"),
    ],
)
def test_units_and_figures_as_people_write_them(text, amount, unit, food):
    line = read_line(text)
    assert line.amount.likely == pytest.approx(amount)
    assert (line.unit, line.food_words) == (unit, food)


def test_an_unknown_word_behind_a_number_makes_no_count():
    assert read_line("leeks (600 gramzz)").amount is None
    assert read_line("leeks (4 or so)").amount.likely == 4


@pytest.mark.parametrize(
    ("text", "food", "alternatives"),
    [
        ("2 tbsp date syrup, honey, or treacle", "date syrup", ("honey", "treacle")),
        ("500 g veal / lamb", "veal", ("lamb",)),
        ("capers, or something similar", "capers", ()),
    ],
)
def test_alternatives_of_a_list(text, food, alternatives):
    line = read_line(text)
    assert (line.food_words, line.alternatives) == (food, alternatives)


@pytest.mark.parametrize(
    ("text", "food"),
    [
        ("500 g cod, washed and dried", "cod"),
        ("1 bunch parsley, rinsed, dried and chopped", "parsley"),
        ("200 g rocket washed & dried", "rocket"),
        ("1 lettuce (washed and well dried)", "lettuce"),
    ],
)
def test_water_that_is_dried_off_dries_no_food(text, food):
    line = read_line(text)
    assert line.food_words == food
    assert "dried off" in " ".join(line.preparation).replace("-", " ")


@pytest.mark.parametrize(
    "text", ["2 cups apricots, dried", "50 g dried shrimp, rinsed", "100 g washed dried figs"]
)
def test_dried_food_stays_dried(text):
    assert cleaned(text) == text


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("4 thighs of chicken", "4 chicken thighs"),
        ("6 wings of turkey, jointed", "6 turkey wings, jointed"),
        ("3 leg-and-thighs of duck", "3 duck leg-and-thighs"),
        ("2 shanks of lamb", "2 lamb shanks"),
        ("1 leg of lamb", "1 lamb leg"),
        ("3 stalks of celery", "3 stalks of celery"),
    ],
)
def test_counted_parts_of_a_bird_are_no_whole_birds(text, words):
    assert cleaned(text) == words


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("2 hocks the original recipe calls for shanks, cut up", "2 hocks"),
        ("1 tsp thyme, though my recipe says two", "1 tsp thyme"),
        ("1 recipe pie crust", "1 recipe pie crust"),
    ],
)
def test_what_a_recipe_says_beside_a_food_is_none_of_its_name(text, words):
    assert cleaned(text) == words
