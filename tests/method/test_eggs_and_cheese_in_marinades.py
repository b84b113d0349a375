"""Boiled eggs that lie in soy sauce or simmer in tea, and firm cheese in yogurt: what they lay in is poured
away; flour that squid is tossed in, and fat of so many centimetres."""

from __future__ import annotations

import pytest
from saltledger.method.forms import written_of
from saltledger.method.method_reading import read

SOY = ["5 eggs", "120 ml soy sauce", "60 ml mirin", "150 ml water"]
TEA = ["5 eggs", "800 ml water", "80 ml soy sauce", "1 tsp salt", "2 tbsp black tea leaves"]
PANEER = ["350 g paneer, cubed", "200 g yogurt", "1 tsp salt", "1 tsp turmeric", "2 green peppers"]
SQUID = ["500 g squid rings", "140 g flour", "1 tsp salt", "900 ml corn oil"]
HAKE = ["600 g hake fillet", "80 g flour", "1 tsp salt", "corn oil, to shallow fry"]


def steps(lines: list[str], method: list[str]) -> dict[str, float]:
    """The kinds of the steps, each with how much is eaten of its liquid."""
    recipe = read(written_of({"title": "Pier", "servings": 4, "ingredients": lines, "method": method})).recipe
    eaten = {each["id"]: each.get("eaten_fraction", 1.0) for each in recipe["components"]}
    return {each["kind"]: eaten.get(each.get("bath"), 1.0) for each in recipe.get("steps", [])}


@pytest.mark.parametrize(
    "boiled",
    [
        "Boil the eggs for 7 minutes, chill in cold water and peel.",
        "Cook the eggs 7 minutes in boiling water, cool in cold water, and peel.",
        "Simmer the eggs in a pan of water for 7 minutes. Peel them.",
    ],
)
@pytest.mark.parametrize(
    "lies",
    [
        "Put the eggs in a bag with the soy sauce, mirin and water and chill overnight. Halve and serve.",
        "Mix the soy sauce, mirin and water, add the eggs and refrigerate overnight. Drain and halve.",
    ],
)
def test_peeled_eggs_lie_in_soy_sauce(boiled: str, lies: str) -> None:
    assert steps(SOY, [boiled, lies])["marinate"] == 0.0


@pytest.mark.parametrize(
    "simmers",
    [
        "Put the water, soy sauce, tea and salt in a pot with the eggs and simmer 1 hour. Drain and peel.",
        "Bring the water to the boil with the soy, salt and tea. Add the eggs and simmer 1 hour. Drain.",
    ],
)
def test_cracked_eggs_simmer_again_in_tea(simmers: str) -> None:
    method = ["Hard-boil the eggs. Crack the shells all over, but do not peel.", simmers]
    recipe = read(written_of({"title": "Pier", "servings": 4, "ingredients": TEA, "method": method})).recipe
    last = recipe["steps"][-1]
    bath = next(each for each in recipe["components"] if each["id"] == last["bath"])
    assert last["duration_h"] == pytest.approx(1.0)
    assert bath["eaten_fraction"] == 0.0
    assert any("soy" in str(each) for each in bath["ingredients"])


def test_paneer_lies_in_yogurt() -> None:
    mixed = "Stir the yogurt with the salt and turmeric. Fold in the paneer, cover and chill for 3 hours."
    method = [mixed, "Shake off the excess, skewer with the peppers and grill."]
    assert 0 < steps(PANEER, method)["marinate"] < 1


def test_squid_is_tossed_in_the_flour_of_a_tray() -> None:
    method = ["Mix the flour and salt on a tray, toss the rings, shake off any more.", "Fry in the oil."]
    assert list(steps(SQUID, method)) == ["dredge", "fry"]


def test_a_spoonful_of_starch_that_food_is_tossed_with_is_eaten() -> None:
    lines = ["500 g squid rings", "2 tbsp cornflour", "1 tsp salt", "900 ml corn oil"]
    assert "dredge" not in steps(lines, ["Mix the cornflour and salt. Toss the rings. Fry in the hot oil."])


@pytest.mark.parametrize("depth", ["1cm", "1 cm", "2cm", "about 1cm"])
def test_fat_that_stands_so_many_centimetres_high_stays_behind(depth: str) -> None:
    method = ["Mix the flour and salt. Coat the hake.", f"Heat {depth} of oil in a pan. Fry the hake."]
    assert steps(HAKE, method) == {"dredge": 0.0, "fry": 0.0}


def test_what_is_not_absorbed_is_poured_away() -> None:
    lines = ["600 g chicken thighs, diced", "3 tbsp tamari", "1 tbsp sake", "90 g potato starch"]
    mixed = "Mix the chicken with the tamari and sake and leave for 40 minutes."
    method = [mixed, "Tip off whatever hasn't been absorbed. Dredge in the starch."]
    assert steps(lines, method)["marinate"] == 0.0
