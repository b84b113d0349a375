"""Batters that are stirred by their heading, two flours of one coat, and pieces that are beaten flat."""

from __future__ import annotations

from typing import Any

import pytest
from saltledger.method.forms import written_of
from saltledger.method.method_reading import Reading, read


def reading_of(lines: list[str], *method: str) -> Reading:
    return read(written_of({"title": "Supper", "servings": 4, "ingredients": lines, "method": list(method)}))


def coat(reading: Reading) -> set[Any]:
    found = next(c for c in reading.recipe["components"] if c["id"] == "coating")
    return {i if isinstance(i, str) else i["line"] for i in found["ingredients"]}


@pytest.mark.parametrize(
    "stirred", ["Whisk the batter", "Make the batter", "Whisk the batter and let it sit"]
)
@pytest.mark.parametrize("dipped", ["Dip, let drip, fry", "Dip the fish in the batter and fry it"])
def test_a_batter_is_what_the_list_puts_under_it(stirred: str, dipped: str) -> None:
    batter = ["120 g flour", "1 tsp salt", "240 ml beer"]
    lines = ["700 g cod", "# Batter", *batter, "# To serve", "8 tortillas", "1 l oil"]
    said = f"{stirred}. Heat the oil. Cut the fish in strips and pat dry. {dipped} 4 minutes in the oil."
    assert coat(reading_of(lines, said)) == set(batter)


@pytest.mark.parametrize("flour", ["self raising flour", "SR flour"])
@pytest.mark.parametrize("then", ["then dip in the batter", "shake off the extra, then into the batter"])
def test_fish_in_two_flours(flour: str, then: str) -> None:
    coats = [
        "150 g self raising flour, for the batter",
        "50 g plain flour, for dusting",
        "1 tsp salt",
        "375 ml lager",
    ]
    said = f"Whisk the {flour}, salt and the lager. Roll the fish in the plain flour, {then}."
    assert coat(reading_of(["800 g cod", *coats, "2 litres oil"], said, "Fry 4 minutes in the oil.")) == set(
        coats
    )


@pytest.mark.parametrize(
    ("piece", "beaten", "thin"),
    [
        ("pork cutlets", "Beat the cutlets out to 5 mm", True),
        ("pork cutlets", "Pound the cutlets thin between cling film", True),
        ("chicken breasts", "Put each breast in a freezer bag and whack it flat", True),
        ("pork escalopes", "Pat the escalopes dry", True),
        ("pork chops", "Pat the chops dry", False),
        ("chicken thighs", "Pat the thighs dry", False),
    ],
)
def test_what_is_beaten_flat_takes_more_coating(piece: str, beaten: str, thin: bool) -> None:
    lines = [f"4 {piece}, 120 g each", "60 g flour", "2 eggs", "120 g breadcrumbs", "1 tsp salt", "1 l oil"]
    said = f"{beaten}. Mix the flour with the salt. Coat in flour, egg and crumbs. Fry in the hot oil."
    dredge = next(s for s in reading_of(lines, said).recipe["steps"] if s["kind"] == "dredge")
    assert ("thickness_cm" in dredge) is thin


@pytest.mark.parametrize(
    "water", ["in salted water", "in water, which should be salted,", "in water. Salt the water,"]
)
def test_salt_and_pepper_of_the_meat_stays_out_of_the_pot(water: str) -> None:
    lines = ["4 pork cutlets", "salt, pepper", "800 g small potatoes"]
    said = f"Boil the potatoes {water} 20 min. Drain. Season the cutlets with salt and pepper. Fry."
    dish = next(c for c in reading_of(lines, said).recipe["components"] if c["id"] == "dish")
    assert "salt, pepper" in {i if isinstance(i, str) else i["line"] for i in dish["ingredients"]}


@pytest.mark.parametrize("turned", ["Turn the meat through each", "Coat the cutlets in each in turn"])
def test_salt_on_the_meat_is_none_of_the_plates(turned: str) -> None:
    lines = ["4 pork cutlets", "100 g flour", "2 eggs", "150 g breadcrumbs", "salt, pepper", "1 l oil"]
    said = f"Pound the cutlets thin. Salt and pepper. Three plates. Flour, whisked eggs, crumbs. {turned}."
    assert coat(reading_of(lines, said, "Fry in the hot oil.")) == set(lines[1:4])
