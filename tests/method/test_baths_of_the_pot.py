"""Brines that are boiled before food lies in them, waits that follow each other, and what is no bath."""

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds

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


BAKED = ["500 g dried cannellini beans", "300 g salt pork", "1 tbsp salt", "1 onion", "3 tbsp treacle"]


@pytest.mark.parametrize(
    "method",
    [
        "Cover the beans with water and simmer for 40 minutes. Drain, saving the water. Blanch the salt "
        "pork in boiling water and drain. Stir the onion, salt and treacle into 500 ml of the bean water. "
        "Bury the pork in the beans, pour the mixture over and bake at 150 °C for 6 hours.",
        "Boil the beans in water for an hour and drain, keeping the liquid. Scald the salt pork. Drain. "
        "Mix onion, salt and treacle with 2 cups of the bean liquid. Bury the pork in the beans, pour it "
        "over and put in the oven at 150 °C for 6 hours.",
    ],
)
def test_the_water_of_one_pot_is_not_that_of_another_by_a_word_of_the_clause(method: str) -> None:
    found = reading(BAKED, method)
    beans, pork = (each for each in found.recipe["steps"] if each["kind"] in ("boil", "simmer"))
    baths = {each["id"]: each.get("eaten_fraction", 1.0) for each in found.recipe["components"]}
    assert 0.1 < baths[beans["bath"]] < 0.4
    assert baths[pork["bath"]] == 0.0
    assert pork["duration_h"] == 0.05
    assert {"dry_cure", "roast"}.isdisjoint(kinds(found))


@pytest.mark.parametrize(
    ("method", "cm"),
    [
        (
            "Soak the pork in water for a day. Shred it. Steep the pork in the milk for 2 hours, then drain.",
            0.3,
        ),
        (
            "Soak the pork in water for a day. Steep the pork in the milk for 2 hours, drain, then shred it.",
            3.5,
        ),
    ],
)
def test_a_bath_is_of_what_was_cut_before_it(method: str, cm: float) -> None:
    found = reading(["1 kg salt pork belly", "500 ml milk", "1 onion"], method)
    assert [each["thickness_cm"] for each in found.recipe["steps"] if each["kind"] == "soak"] == [3.5, cm]


@pytest.mark.parametrize(
    "rest",
    [
        "Drain water. Put the broccoli in a blender. Add oil, water and salt. Blend.",
        "Drain. Blend the broccoli with oil, water and salt.",
        "Drain well. Return to the pan, pour in the oil and water, add the salt and mash.",
    ],
)
def test_a_little_water_that_goes_in_with_other_things_is_not_what_was_boiled_in(rest: str) -> None:
    lines = ["500 g broccoli", "100 ml water", "60 ml olive oil", "1 tsp salt"]
    found = reading(lines, f"Boil the broccoli in water for 12 minutes. {rest}")
    assert kinds(found) == ["boil"]
    assert eaten(found, 1) == eaten(found, 3) == 1.0


def test_a_little_water_that_something_simmers_in_is_that_of_the_list() -> None:
    lines = ["500 g broccoli", "100 ml water", "60 ml olive oil", "1 tsp salt"]
    found = reading(lines, "Put the broccoli, oil, water and salt in a pan. Simmer for 10 minutes.")
    assert not kinds(found)
    assert eaten(found, 1) == 1.0


@pytest.mark.parametrize(
    "cook",
    [
        "Set the parcels in a hot pan, pour in boiling water to cover the base and steam with the lid on.",
        "Fry the parcels until brown, then half cover with boiling water, close the lid and steam for 8 "
        "minutes.",
    ],
)
def test_parcels_that_steam_in_a_pan_boil_in_no_pot(cook: str) -> None:
    lines = ["100 g minced pork", "4 mushrooms", "2 tbsp soy sauce", "1 tbsp vinegar"]
    mixed = (
        "Chop the mushrooms, mix with the pork and fill the wrappers. Stir soy sauce and vinegar for dipping."
    )
    found = reading(lines, f"{mixed} {cook}")
    assert not kinds(found)
    assert [eaten(found, n) for n in range(4)] == [1.0] * 4
