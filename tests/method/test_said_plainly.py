"""Plain things of home kitchens, each in several ways of saying it: stoves, coatings, lists, times."""

from __future__ import annotations

import pytest
from saltledger.method.listed import listed_of

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds, step


@pytest.mark.parametrize(
    "line",
    [
        "Leek (1, sliced)",
        "Stock (2 cups)",
        "Tomato sauce (12 oz can)",
        "Shallot (½, diced)",
        "Parsley (a bunch)",
    ],
)
def test_an_amount_in_brackets_behind_a_name_makes_no_heading(line: str) -> None:
    listed = listed_of([line, "Barley (200 g)", "Olive oil (3 tbsp)"])
    assert [each.text for each in listed] == [line, "Barley (200 g)", "Olive oil (3 tbsp)"]


@pytest.mark.parametrize("head", ["1st coating", "2nd dredge", "Coating (for 8)", "Dressing (makes double)"])
def test_headings_keep_heading(head: str) -> None:
    listed = listed_of(["2 lb turkey", head, "1 cup flour", "1 tsp salt"])
    assert [each.heading for each in listed][1:] == [head.partition(" (")[0]] * 2


@pytest.mark.parametrize(
    "heats",
    [
        "Put a lid on the pan and put on a high heat. Drain as soon as they boil.",
        "Set over a high flame. When they boil, give them 2 minutes and drain.",
        "Turn the heat to high. After the water starts boiling, wait 2 minutes. Drain.",
        "Place over a medium-high heat until tender; drain.",
    ],
)
def test_what_is_put_on_the_heat_boils(heats: str) -> None:
    method = (
        f"Brown the onion in the butter. Tip the peas into an empty saucepan, cover with cold water. {heats}"
    )
    found = reading(["1 onion", "300 g peas", "20 g butter"], method)
    assert kinds(found) == ["boil"]
    assert step(found, "boil")["food"] == "peas"


@pytest.mark.parametrize(
    "waits", ["Put in a bowl of cold water until needed.", "Cover with cold water until ready to use."]
)
def test_cut_potatoes_only_wait_in_water(waits: str) -> None:
    assert (
        kinds(reading(["1 kg potatoes", "1 l stock"], f"Dice the potatoes. {waits} Add to the stock.")) == []
    )


@pytest.mark.parametrize(
    "coats",
    [
        "Batter the cutlets one at a time in the flour, egg and crumbs.",
        "Take each piece through the flour, the egg and the crumbs.",
        "Press the cutlets into the flour, douse them in the egg, then press into the crumbs.",
    ],
)
def test_food_that_goes_through_flour_egg_and_crumbs_is_coated(coats: str) -> None:
    lines = ["4 veal cutlets", "1 cup flour", "2 eggs", "2 cups breadcrumbs", "oil for frying"]
    found = reading(lines, f"{coats} Fry in hot oil for 4 minutes.")
    assert "dredge" in kinds(found)
    assert [eaten(found, n) for n in (1, 2, 3)] == [0.0, 0.0, 0.0]
    assert eaten(found, 0) == 1.0


def test_a_spoonful_of_starch_on_onions_thickens() -> None:
    lines = ["2 onions", "2 tsp cornflour", "20 g butter"]
    assert (
        kinds(reading(lines, "Fry the onions. Stir to coat them in the cornflour, add 200 ml water.")) == []
    )


def test_the_flour_that_is_seasoned_is_that_of_the_coating() -> None:
    lines = ["1 kg veal", "1 cup plain flour", "1 tbsp salt", "1 egg", "2 cups breadcrumbs", "1/4 cup flour"]
    method = (
        "In a bowl mix 3/4 cup flour with the salt. Dredge the veal in flour, then in egg, then in crumbs. "
        "Make the gravy: stir in 1/4 cup flour."
    )
    found = reading(lines, method)
    assert eaten(found, 1) == 0.0
    assert eaten(found, 2) == 0.0
    assert eaten(found, 5) == 1.0


@pytest.mark.parametrize(
    "often", ["Flip it every 12 hours.", "Turn the fish every 8 hours.", "Baste every hour."]
)
def test_how_often_is_not_how_long(often: str) -> None:
    method = (
        f"Rub the salt into the salmon and leave in the fridge. {often} Leave for 36 hours in all. Rinse."
    )
    found = reading(["2 kg salmon", "150 g salt"], method)
    assert step(found, "dry_cure")["duration_h"] == 36.0


@pytest.mark.parametrize("name", ["zucchinis", "broccolis", "kohlrabi"])
def test_plurals_in_i_are_the_food(name: str) -> None:
    method = f"Grate the {name.removesuffix('s')} and salt it. Leave 10 minutes, then squeeze out the juice."
    assert kinds(reading([f"2 {name}, grated", "1 tsp salt"], method)) == ["dry_cure", "squeeze"]


def test_how_fine_the_herbs_are_cut_is_not_how_thick_the_fish_is() -> None:
    method = "Chop the dill into 3 mm pieces. Rub the salmon with the salt and dill. Leave 2 days. Rinse."
    found = reading(["2 kg salmon", "150 g salt", "1 bunch dill"], method)
    assert step(found, "dry_cure").get("thickness_cm", 2.5) > 1.0
