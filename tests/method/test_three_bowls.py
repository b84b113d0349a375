"""Flour, egg and crumbs that stand in bowls, meat that is put in egg, and wine that is kept."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds

LINES = ["600 g cod", "150 g flour", "1 tsp salt", "2 eggs", "150 g breadcrumbs", "oil for frying"]


@pytest.mark.parametrize(
    "bowls",
    [
        "First bowl: flour and salt. Second bowl: beaten eggs. Third bowl: breadcrumbs.",
        "Mix flour and salt in one bowl, beat the eggs in a second and put the crumbs in a third.",
        "Get three plates ready: one with the flour and salt, one with beaten eggs, one with breadcrumbs.",
    ],
)
@pytest.mark.parametrize(
    "through",
    [
        "Take the cod through all three and fry.",
        "Run the cod through all of them. Fry.",
        "Pass the cod through the three bowls. Fry.",
        "Dip the cod in each. Fry.",
        "Dip the cod in the flour, then the egg, then the crumbs. Fry.",
    ],
)
def test_food_goes_through_all_that_stands_in_bowls(bowls: str, through: str) -> None:
    found = reading(LINES, f"{bowls} {through}")
    made = next(each for each in found.recipe["components"] if each["id"] == "coating")
    assert set(made["ingredients"]) == set(LINES[1:5])


@pytest.mark.parametrize("said", ["Put the veal in the egg.", "Lay the veal in the egg, then in the crumbs."])
def test_egg_that_meat_is_put_in_is_a_coat_with_its_salt(said: str) -> None:
    lines = ["600 g veal", "2 eggs", "1 tsp salt", "100 g breadcrumbs"]
    found = reading(lines, f"Beat the egg with the salt. {said} Coat with the breadcrumbs and fry.")
    made = next(each for each in found.recipe["components"] if each["id"] == "coating")
    assert set(made["ingredients"]) == set(lines[1:])


def test_what_goes_through_a_sieve_is_no_coat() -> None:
    lines = ["600 g carrots", "50 g flour", "1 tsp salt"]
    assert "dredge" not in kinds(
        reading(lines, "Boil the carrots with the salt. Put them through the two sieves.")
    )


@pytest.mark.parametrize(
    "said", ["Drain, keeping the wine.", "Drain and keep the wine.", "Lift out, reserving the wine."]
)
def test_wine_of_a_marinade_that_is_kept_is_eaten(said: str) -> None:
    lines = ["700 g venison", "500 ml red wine", "1 tbsp salt", "2 carrots"]
    method = f"Marinate the venison in wine, salt and carrots for 24 hours. {said}"
    found = reading(lines, f"{method} Brown the meat, then pour the wine back in and simmer for 2 hours.")
    assert eaten(found, 2) == 1.0


@pytest.mark.parametrize("plates", ["Get three plates", "Prepare three plates", "Set out three plates"])
@pytest.mark.parametrize(
    "rolled",
    [
        "Roll every finger through them in this order.",
        "Roll the hake through them in this order.",
        "Turn the pieces in each.",
        "Coat every piece in that order.",
        "Dip each piece in each in turn.",
    ],
)
def test_plates_hold_the_coats_whatever_the_pieces_are_called(plates: str, rolled: str) -> None:
    found = reading(
        ["400 g hake", "50 g flour", "1 egg", "100 g breadcrumbs", "1/2 tsp salt"],
        f"Cut the hake into fingers, salt them. {plates}: flour, beaten egg, breadcrumbs. {rolled} Fry.",
    )
    coats = [each for each in found.recipe["steps"] if each["kind"] == "dredge"]
    assert [each["food"] for each in coats] == ["hake"]
    coat = next(each for each in found.recipe["components"] if each["id"] == coats[0]["bath"])
    assert len(coat["ingredients"]) == 3


def test_what_is_turned_in_the_pan_in_turn_is_not_coated() -> None:
    found = reading(
        ["200 g flour", "2 eggs", "300 ml milk", "50 g breadcrumbs"],
        "Whisk the flour, eggs and milk. Fry the batter by the ladle, and turn the pancakes in turn.",
    )
    assert all(each["kind"] != "dredge" for each in found.recipe.get("steps", ()))
