"""Lines as home cooks write them: which food they mean and what they weigh, where that was once far off."""

from __future__ import annotations

import pytest
from saltledger.foods.dataset import bundled
from saltledger.recipe.ingredients import ReadSettings, resolve


def resolved(line: str):
    return resolve(line, bundled(), ReadSettings())


@pytest.mark.parametrize(
    ("line", "code", "grams"),
    [
        ("3 tbsp dark soy", "16123", 48),
        ("100 ml soy", "16123", 108),
        ("2 tsp beef bouillon", "06076", 10),
        ("1 chicken bouillon", "06081", 4.8),
        ("2 cups beef bouillon", "06008", 480),
        ("1 packet sazon", "02074", 5),
        ("1 small can sliced black olives", "09193", 64),
        ("2 turkey escalopes", "05219", 200),
        ("3 paprikas, sliced", "11821", 357),
        ("1 tsp paprika", "02028", 2.3),
        ("4 slices bacon fried until crisp", "10862", 46),
        ("1 cube fermented bean curd", "16132", 11),
        ("1 cup toor dhal", "16101", 205),
        ("24 wonton wrappers", "18368", 192),
        ("6 egg roll wrappers", "18368", 192),
        ("2 courgettes, bite-size pieces", "11477", 392),
    ],
)
def test_the_food_and_its_weight(line: str, code: str, grams: float):
    found = resolved(line)
    assert found.food is not None
    assert found.grams is not None
    assert found.food.code == code
    assert found.grams.likely == pytest.approx(grams, rel=0.03)


@pytest.mark.parametrize(
    "line", ["Shallot, medium, chopped", "duck legs, large pieces", "Sherry vinegar, small dash"]
)
def test_a_size_or_shape_behind_a_comma_is_no_other_food(line: str):
    assert resolved(line).parts == ()


@pytest.mark.parametrize("line", ["cinnamon, cloves, nutmeg", "parsley, thyme"])
def test_foods_behind_a_comma_stay_foods(line: str):
    assert len(resolved(line).foods) == line.count(",") + 1


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("500 ml chicken, beef, or vegetable stock", "06194"),
        ("1 litre beef or chicken broth for the braise", "06008"),
        ("Sunflower, rapeseed, or other neutral oil", "04506"),
        ("2 tbsp corn or vegetable oil for the wok", "04518"),
        ("1 envelope onion soup", "06094"),
        ("600 g of small to medium carrots", "11124"),
        ("2 standard size tins tomatoes", "11531"),
        ("butter the size of an egg", "01001"),
    ],
)
def test_a_choice_of_kinds_lends_its_noun_and_a_size_names_no_food(line: str, code: str):
    food = resolved(line).food
    assert food is not None
    assert food.code == code


@pytest.mark.parametrize("line", ["To taste: salt & pepper", "to taste: salt, pepper"])
def test_what_stands_before_a_colon_may_say_how_much(line: str):
    assert [food.food and food.food.code for food in resolved(line).foods] == ["02047", "02030"]
