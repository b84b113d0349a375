"""Quantities that stand behind the food, with or without a word of how it is prepared."""

from __future__ import annotations

import pytest
from saltledger.lines import read_line


@pytest.mark.parametrize(
    ("text", "amount", "unit", "food", "told"),
    [
        ("halloumi 225 g sliced", 225, "gram", "halloumi", "sliced"),
        ("black olives 1/2 cup pitted and halved", 0.5, "cup", "black olives", "halved"),
        ("shallot 2 finely diced", 2, None, "shallot", "finely diced"),
        ("leek 1 large thinly sliced", 1, None, "leek", "thinly sliced"),
        ("coriander 1 small bunch roughly chopped", 1, "bunch", "coriander", "roughly chopped"),
        ("fish sauce 2 tbsp for the dressing", 2, "tablespoon", "fish sauce", "for the dressing"),
        ("parsnips 3 cut into batons", 3, None, "parsnips", "cut"),
    ],
)
def test_words_of_preparation_behind_a_quantity_take_nothing_from_it(text, amount, unit, food, told):
    line = read_line(text)
    assert (line.amount.likely, line.unit, line.food_words) == (amount, unit, food)
    assert told in line.preparation


@pytest.mark.parametrize(
    ("text", "amount", "unit", "food"),
    [
        ("sea salt 2 tsp or to taste", 2, "teaspoon", "sea salt"),
        ("Leek 1 large leek", 1, None, "leek"),
        ("Flour tortillas, 8 tortillas", 8, None, "flour tortillas"),
        ("Chopped green peppers 1 pepper", 1, None, "green peppers"),
        ("Borlotti beans two 400 g tins", 2, "can", "borlotti beans"),
    ],
)
def test_the_food_may_be_named_again_or_its_tins_counted_in_words(text, amount, unit, food):
    line = read_line(text)
    assert (line.amount.likely, line.unit, line.food_words) == (amount, unit, food)


@pytest.mark.parametrize(
    "text",
    [
        "bread 1 day old",
        "ham 1/4 inch thick sliced",
        "omega 3 eggs",
        "spaghetti no. 5 cooked",
        "cream 35% whipped",
    ],
)
def test_other_figures_amid_a_name_are_no_quantity(text):
    assert read_line(text).amount is None


@pytest.mark.parametrize(
    "text", ["bacon cooked", "bacon cooked crumbled", "cooked bacon", "bacon cooked until crisp"]
)
def test_a_state_behind_the_food_is_its_own_as_one_before_it_is(text):
    assert read_line(f"6 slices {text}").food_words == "cooked bacon"


@pytest.mark.parametrize(
    "text",
    [
        "lots of parmesan",
        "A good amount of parmesan",
        "a looot of parmesan",
        "plenty of parmesan",
        "a heap of parmesan",
    ],
)
def test_so_much_is_no_amount_and_no_name(text):
    line = read_line(text)
    assert (line.amount, line.food_words) == (None, "parmesan")


def test_an_optional_amount_is_an_amount():
    line = read_line("optional 1/2 tsp celery salt")
    assert (line.amount.likely, line.unit, "optional" in line.flags) == (0.5, "teaspoon", True)
