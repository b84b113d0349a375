"""Brines that are boiled before food lies in them, waits that follow each other, and what is no bath."""

import pytest

from .test_method_reading import reading

SALT = ["4 tbsp salt", "7 small cucumbers", "2 tbsp fish sauce"]


def told(lines, *method):
    return reading(lines, *method).recipe


@pytest.mark.parametrize(
    "made",
    [
        "Boil 800 ml water and add the salt. Once it boils, tip the salted water on the cucumbers.",
        "Bring 800 ml water to the boil. Stir in the salt. Pour it over the cucumbers.",
    ],
)
def test_salted_boiling_water_poured_over_food_is_its_brine(made):
    recipe = told(SALT, made + " Leave for 30 minutes. Rinse and mix with the fish sauce.")
    assert [each["kind"] for each in recipe["steps"]] == ["brine", "rinse"]
    brine = next(each for each in recipe["components"] if each["id"] == recipe["steps"][0]["bath"])
    assert "4 tbsp salt" in brine["ingredients"]


@pytest.mark.parametrize("dash", ["-", "–", "−", "‑"])
def test_one_wait_follows_the_other(dash):
    recipe = told(
        ["700 g salmon", "4 tbsp salt"],
        "Sprinkle the salt on the salmon. Leave it at room temperature for 3 hours. "
        f"Then refrigerate for 24{dash}48 hours. Brush off the salt.",
    )
    assert recipe["steps"][0]["duration_h"] == pytest.approx(39)


@pytest.mark.parametrize(
    "said",
    [
        "Leftovers keep well in the fridge for up to 3 days.",
        "Store any leftovers in the refrigerator for 4 days.",
        "Refrigerate leftovers up to 3 days.",
    ],
)
def test_leftovers_lie_in_no_bath(said):
    recipe = told(
        ["500 g shrimp", "1 tsp salt", "2 tbsp soy sauce"],
        "Mix the shrimp with the salt and soy. Fry. " + said,
    )
    assert not {"dry_cure", "marinate", "brine"} & {each["kind"] for each in recipe.get("steps", ())}


def test_milk_that_soaks_into_crumbs_is_no_bath():
    lines = ["1 cup crumbs", "200 ml milk", "1 tsp salt", "800 g beef mince"]
    recipe = told(lines, "Mix crumbs, salt and milk. Let the milk soak into the crumbs. Stir in the mince.")
    assert "steps" not in recipe


@pytest.mark.parametrize(
    "kept",
    [
        "Drain all but 1 cup of the water.",
        "Drain, but keep a cup of the water.",
        "Drain all but 250 ml water.",
    ],
)
def test_a_cup_of_the_water_is_kept(kept):
    recipe = told(
        ["170 g noodles", "200 ml cream"], f"Boil the noodles in salted water. {kept} Add the cream to both."
    )
    water = next(each for each in recipe["components"] if each["id"] == "water")
    assert 0.05 < water["eaten_fraction"] < 0.4


def test_many_chillies_are_a_food_that_lies_in_the_hot_pickle():
    recipe = told(
        ["20 jalapenos, sliced", "1 cup vinegar", "1 cup water", "2 tbsp salt"],
        "Boil the water, vinegar and salt in a pot. Add the jalapenos, turn the heat off and let sit.",
        "Put them in a jar and top up with the pickling juice.",
    )
    step = recipe["steps"][0]
    bath = next(each for each in recipe["components"] if each["id"] == step["bath"])
    assert {"1 cup vinegar", "1 cup water", "2 tbsp salt"} <= set(bath["ingredients"])


@pytest.mark.parametrize(
    ("said", "boils"),
    [
        ("Cook the potatoes. Cool, peel and cube them.", True),
        ("Fry the onion. Cook the potatoes, turning, until brown.", False),
    ],
)
def test_potatoes_alone_are_cooked_in_water(said, boils):
    recipe = told(["800 g potatoes", "1 onion", "100 g mayonnaise"], said)
    assert ("boil" in {each["kind"] for each in recipe.get("steps", ())}) == boils
