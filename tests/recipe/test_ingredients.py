"""Ingredients: what the caller says wins, what fails is named, what is unsure is said."""

from __future__ import annotations

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from saltledger.core.errors import InvalidRequest
from saltledger.foods.dataset import FoodTable, bundled
from saltledger.foods.remote.second import SecondSource
from saltledger.recipe.ingredients import IngredientRequest, ReadSettings, ingredient_document, resolve

DEFAULTS = ReadSettings()


def resolved(asked, **settings):
    return resolve(asked, bundled(), ReadSettings(**settings))


def codes(ingredient):
    return [notice.code for notice in ingredient.notices]


def faults(asked):
    with pytest.raises(InvalidRequest) as refused:
        resolved(asked)
    return [(fault.pointer, fault.message) for fault in refused.value.faults]


def test_a_line_is_read_mapped_and_weighed():
    salt = resolved("1/4 cup table salt")
    assert ingredient_document(salt) == {
        "line": "1/4 cup table salt",
        "amount": 0.25,
        "unit": "cup",
        "grams": pytest.approx(72),
        "grams_low": pytest.approx(70.8),
        "grams_high": pytest.approx(76.8),
        "grams_basis": "0.25 × 288 g per cup, kind as named",
        "food": {"code": "02047", "name": "Salt, table"},
        "confidence": salt.confidence,
        "alternatives": [{"code": food.code, "name": food.name} for food in salt.alternatives],
        "parts": [],
    }
    assert salt.confidence >= 0.8
    assert salt.notices == ()


def test_the_callers_food_and_grams_win():
    asked = IngredientRequest(line="2 cups flour", food="02047", grams=12.0, eaten_fraction=0.2)
    ingredient = resolved(asked)
    assert ingredient.food.code == "02047"
    assert ingredient.confidence == 1.0
    assert (ingredient.grams.likely, ingredient.grams.is_exact) == (12.0, True)
    assert ingredient.grams_basis == ingredient.grams_source == "stated by the caller"
    assert ingredient.eaten_fraction == 0.2
    assert ingredient.notices == ()


def test_the_callers_food_is_weighed_by_the_line():
    ingredient = resolved(IngredientRequest(line="1 tsp house seasoning", food="02047"))
    assert ingredient.grams.likely == pytest.approx(6.0)


def test_a_food_and_grams_need_no_line():
    ingredient = resolved(IngredientRequest(food="02047", grams=5))
    assert ingredient.line == ""
    assert ingredient.grams.likely == 5


def test_a_food_without_line_or_grams_is_not_weighed():
    ingredient = resolved(IngredientRequest(food="20081"))
    assert ingredient.grams is None
    assert codes(ingredient) == ["no-quantity"]


def test_an_unknown_food_code_is_refused_at_its_field():
    assert faults(IngredientRequest(line="1 cup flour", food="99999")) == [
        (
            "/food",
            "There is no food '99999'; look its code up by GET /v1/foods?query=, "
            "or send it among custom_foods.",
        )
    ]


def test_nothing_to_go_by_is_refused():
    assert faults(IngredientRequest(grams=5)) == [
        ("", "An ingredient needs a line or a food; say what it is.")
    ]


@pytest.mark.parametrize(
    ("asked", "pointer"), [("x" * 501, ""), (IngredientRequest(line="x" * 501), "/line")]
)
def test_a_line_that_is_too_long_is_refused_where_it_stands(asked, pointer):
    assert faults(asked) == [(pointer, "The line has 501 characters, longer than 500 characters; split it.")]


def test_what_fits_nothing_has_no_food_but_may_have_a_weight():
    ingredient = resolved("200 g qwertzuiop")
    assert ingredient.food is None
    assert ingredient.grams.likely == 200
    (notice,) = ingredient.notices
    assert (notice.code, notice.severity) == ("no-match", "check")
    assert notice.message.startswith("No food fits 'qwertzuiop', so it is not counted.")
    assert ingredient_document(ingredient)["food"] is None


def test_alternatives_and_second_foods_are_told():
    assert "alternative-taken" in codes(resolved("1/2 cup butter or margarine"))
    assert "several-foods" in codes(resolved("1 tsp each salt and pepper"))


@pytest.mark.parametrize(
    ("line", "codes"),
    [
        ("salt and pepper", ["02047", "02030"]),
        ("pepper & salt, to taste", ["02030", "02047"]),
        ("2 tbsp olive oil and salt", ["04053", "02047"]),
        ("butter and flour for the tin", ["01001", "20081"]),
        ("1 litre water mixed with a teaspoon of salt", ["14411", "02047"]),
    ],
)
def test_every_food_of_a_line_is_counted_and_salt_is_never_dropped(line, codes):
    foods = resolved(line).foods
    assert [each.food.code for each in foods] == codes
    assert all(each.grams.likely > 0 for each in foods)


def test_a_quantity_of_each_is_each_ones():
    salt, pepper = resolved("1 tsp each table salt and pepper").foods
    assert (salt.grams.likely, pepper.amount, pepper.unit) == (6, 1, "teaspoon")


def test_a_line_whose_food_the_caller_states_is_that_food_alone():
    assert resolved(IngredientRequest(line="salt and pepper", food="02047")).parts == ()


def test_no_quantity_is_assumed_or_left_out_as_set():
    assumed = resolved("salt to taste")
    assert assumed.grams.likely > 0
    assert codes(assumed) == ["default-quantity"]
    left_out = resolved("salt to taste", no_quantity="leave_out")
    assert left_out.grams is None
    assert codes(left_out) == ["left-out"]
    assert resolved("1 tsp table salt", no_quantity="leave_out").grams.likely == 6


def test_the_cup_setting_reaches_the_grams():
    us, metric = (resolved("1 cup milk", cup=cup).grams.likely for cup in ("us", "metric"))
    assert metric > us


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=80))
def test_any_line_is_answered_and_its_answer_is_json(text):
    ingredient = resolve(IngredientRequest(line=text or "-"), bundled(), DEFAULTS)
    document = ingredient_document(ingredient)
    assert json.loads(json.dumps(document, allow_nan=False)) == document
    if ingredient.food is None or ingredient.grams is None:
        assert any(notice.severity == "check" for notice in ingredient.notices)


def test_one_amount_for_several_foods_is_shared_and_said_to_be_unsure():
    ingredient = resolved("2 lb onions, carrots and celery")
    assert [each.food.code for each in ingredient.foods] == ["11282", "11124", "11143"]
    assert "shared-amount" in codes(ingredient)
    assert all(each.confidence < 0.8 for each in ingredient.foods)
    assert 700 < sum(each.grams.likely for each in ingredient.foods) <= 907.2
    assert ingredient.line == "2 lb onions, carrots and celery"


@pytest.mark.parametrize(
    "line",
    ["1 bunch parsley, leaves and stems", "3 eggs, whites and yolks separated", "1 cup peas and carrots"],
)
def test_parts_of_one_food_share_nothing(line):
    ingredient = resolved(line)
    assert ingredient.parts == ()
    assert "shared-amount" not in codes(ingredient)


@pytest.mark.parametrize("line", ["2 tomatoes per person", "1/4 stick of butter per chicken breast"])
def test_an_amount_for_one_of_something_is_never_sure(line):
    ingredient = resolved(line)
    assert ingredient.confidence < 0.8 <= ingredient.sure_of_food
    assert "amount-per" in codes(ingredient)


def test_a_missing_space_is_put_in_only_where_that_names_a_food_for_sure():
    flour = resolved("200gplain flour")
    assert (flour.grams.likely, flour.line) == (200, "200gplain flour")
    assert "run-together" in codes(flour)
    assert resolved("5ginger").unit is None
    assert resolved("200gxyzzy").food is None


@pytest.mark.parametrize(
    "line", ["Salz und Pfeffer", "sel et poivre", "sal y pimienta", "S & P", "sale e pepe"]
)
def test_salt_and_pepper_are_salt_in_any_tongue(line):
    assert resolved(line).food.code == "02047"


def test_stock_powder_never_becomes_broth():
    for line in ("2 tsp veggie stock powder", "2 tsp house-blend stock powder"):
        food = resolved(line).food
        assert food is None or food.per_100g("NA") > 5000


def test_lines_that_differ_in_their_amount_alone_are_matched_once():
    foods = FoodTable.of([bundled().get("02047")])
    settings = ReadSettings()
    grams = [resolve(f"{amount} g table salt", foods, settings).grams for amount in (1, 2, 30)]
    assert [each.likely for each in grams if each] == [1, 2, 30]
    assert (len(foods.lines), len(foods.matches)) == (3, 1)
    assert resolve("2 g table salt", foods, settings) is resolve("2 g table salt", foods, settings)
    assert resolve("2 g table salt", foods, ReadSettings(cup="metric")).grams == grams[1]


def test_what_nobody_knows_is_asked_about_each_time():
    told = []
    foods = FoodTable.of([bundled().get("02047")]).with_second(
        SecondSource(unknown=lambda words: told.append(words) or "waiting")
    )
    for _ in range(2):
        assert resolve("1 g zzyzx", foods, ReadSettings()).food is None
    assert told == ["zzyzx", "zzyzx"]
