"""Added sugars: what is a sugar counts whole, what is made with some stays open, the rest adds none."""

import pytest
from saltledger.nutrition.added_sugars import Sweet, added_sugars, how_added


@pytest.mark.parametrize(
    ("name", "group", "added"),
    [
        ("Sugars, granulated", "1900", "all"),
        ("Honey", "1900", "all"),
        ("Syrups, maple", "1900", "all"),
        ("Sweetener, syrup, agave", "1900", "all"),
        ("Molasses", "1900", "all"),
        ("Syrups, sugar free", "1900", "none"),
        ("Sweeteners, tabletop, saccharin (sodium saccharin)", "1900", "none"),
        ("Apples, raw, with skin", "0900", "none"),
        ("Peaches, canned, heavy syrup, drained", "0900", "part"),
        ("Milk, whole, 3.25% milkfat", "0100", "none"),
        ("Milk, canned, condensed, sweetened", "0100", "part"),
        ("Sugar-apples, (sweetsop), raw", "0900", "none"),
        ("Bread, white, commercially prepared", "1800", "part"),
        ("Jams and preserves", "1900", "part"),
        ("Catsup", "1100", "part"),
        ("Carrots, raw", "1100", "none"),
    ],
)
def test_how_the_sugars_of_a_food_are_added(name, group, added):
    assert how_added(name, group) == added


def test_a_recipe_of_sugar_and_milk_is_known():
    found = added_sugars(
        [Sweet("Sugars, granulated", "1900", 99.8), Sweet("Milk, whole, 3.25% milkfat", "0100", 5.05)]
    )
    assert found.is_known
    assert found.at_least_g == found.at_most_g == 99.8
    assert found.of_all == pytest.approx(99.8 / 104.85)


def test_a_bought_food_leaves_it_open():
    found = added_sugars([Sweet("Honey", "1900", 10.0), Sweet("Jams and preserves", "1900", 5.0)])
    assert (found.at_least_g, found.at_most_g) == (10.0, 15.0)
    assert found.open_foods == ("Jams and preserves",)


def test_sugars_that_are_not_known_leave_it_open():
    assert not added_sugars([Sweet("Syrups, table blends, corn", "1900", None)]).is_known
    assert added_sugars([Sweet("Beef, raw", "1300", None)]).is_known


def test_no_sugar_at_all():
    assert added_sugars([]).of_all == 0
