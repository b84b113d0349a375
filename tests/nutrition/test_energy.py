"""Energy, salt and available carbohydrate: by the factors named, and not known where an amount is not."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from saltledger.nutrition.energy import available_carbohydrate, energy_by, salt_g, with_derived

FOOD = {"PROCNT": 10.0, "FAT": 5.0, "CHOCDF": 20.0, "FIBTG": 3.0, "ALC": 1.0, "NA": 400.0}
grams = st.floats(0, 100)


def test_general_factors():
    energy = energy_by("atwater_general", FOOD)
    assert energy.kcal == 4 * 10 + 4 * 20 + 9 * 5 + 7
    assert energy.kj == 17 * 10 + 17 * 20 + 37 * 5 + 29


def test_eu_factors_count_fibre_apart():
    energy = energy_by("eu", FOOD)
    assert energy.kcal == 4 * 17 + 4 * 10 + 9 * 5 + 7 + 2 * 3
    assert energy.kj == 17 * 17 + 17 * 10 + 37 * 5 + 29 + 8 * 3


@pytest.mark.parametrize("tag", ["PROCNT", "FAT", "CHOCDF"])
def test_energy_is_not_known_where_its_parts_are_not(tag):
    part = {key: amount for key, amount in FOOD.items() if key != tag}
    assert energy_by("atwater_general", part) is None
    assert energy_by("eu", part) is None


def test_food_that_says_nothing_of_alcohol_has_none():
    without = {key: amount for key, amount in FOOD.items() if key != "ALC"}
    assert energy_by("atwater_general", without).kcal == energy_by("atwater_general", FOOD).kcal - 7


def test_fibre_that_is_not_known_leaves_carbohydrate_not_known():
    assert available_carbohydrate({"CHOCDF": 5.0}) is None
    assert available_carbohydrate({"CHOCDF": 5.0, "FIBTG": 6.0}) == 0
    assert "CHOAVL" not in with_derived({"CHOCDF": 5.0})


def test_salt_of_an_eu_label_is_less_than_the_salt_weighed():
    """1 g of pure salt holds 393.4 mg of sodium, which an EU label calls 0.983 g of salt."""
    assert salt_g(393.37) == pytest.approx(0.983, abs=5e-4)


@given(grams, grams, grams, grams)
def test_energy_of_eu_labels_is_never_above_the_general_one(protein, fat, carbohydrate, fibre):
    amounts = {"PROCNT": protein, "FAT": fat, "CHOCDF": carbohydrate + fibre, "FIBTG": fibre}
    assert energy_by("eu", amounts).kcal <= energy_by("atwater_general", amounts).kcal + 1e-9
