"""Search by whole and half-typed words."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from saltledger.foods.dataset import FoodTable, bundled, custom_food


def names(query, limit=5):
    return [food.name for food in bundled().search(query, limit)]


@pytest.mark.parametrize(
    ("query", "first"),
    [
        ("salt", "Salt, table"),
        ("table salt", "Salt, table"),
        ("SALT, TABLE", "Salt, table"),
        ("milk", "Milk, whole, 3.25% milkfat, with added vitamin D"),
        ("butter unsal", "Butter, without salt"),
        ("brocoli", "Broccoli, raw"),
        ("curing salt", "Curing salt, type 1 (6.25 % sodium nitrite)"),
    ],
)
def test_what_a_kitchen_means_comes_first(query, first):
    assert names(query)[0] == first


@pytest.mark.parametrize(
    ("query", "word"), [("pork loin", "loin"), ("choc", "choc"), ("chicken bre", "breast")]
)
def test_all_the_words_are_in_what_is_found(query, word):
    found = names(query)
    assert len(found) == 5
    assert all(word in name.lower() for name in found)


@pytest.mark.parametrize("query", ["", "   ", "!?", "zzyzxqq", "🧂", "ملح"])
def test_nothing_is_found_where_nothing_fits(query):
    assert bundled().search(query, 5) == []


def test_no_food_is_found_twice():
    found = bundled().search("cheese", 50)
    assert len({food.code for food in found}) == len(found) == 50


def test_the_callers_own_come_first():
    foods = bundled().with_custom([custom_food("x", "House salt", {})])
    assert [food.code for food in foods.search("salt", 2)] == ["x", "02047"]


def test_a_small_table_is_searched_too():
    foods = FoodTable.of([custom_food("x1", "Rye sour", {}), custom_food("x2", "Rye bread, dark", {})])
    assert {food.code for food in foods.search("rye", 5)} == {"x1", "x2"}


@given(st.text(max_size=60), st.integers(1, 100))
@settings(max_examples=60, deadline=None)
def test_any_query_is_answered_within_its_limit(query, limit):
    assert len(bundled().search(query, limit)) <= limit
