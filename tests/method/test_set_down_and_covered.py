"""Food that is put into a pot, and what is added to it with the water."""

from __future__ import annotations

from itertools import product

import pytest

from .test_method_reading import reading
from .test_plain_recipes import kinds, step

LIST = ["1.2 kg gammon joint", "8 peppercorns", "1 onion", "2 carrots", "500 g potatoes"]
PUTS = [
    "Put it in a large pan with {} and cover with cold water.",
    "Put it in a pan, cover with cold water and add {}.",
    "Sit it in a stockpot, add {} and plenty of cold water.",
    "Put the gammon in a stockpot. Add {} and plenty of cold water.",
    "Put the gammon in a stockpot. Add {}. Add plenty of cold water.",
    "Lay the gammon in a pot, pour over cold water to cover, add {}.",
    "Put {} and the gammon into a pan of cold water.",
]
ALONG = ["the peppercorns", "the onion", "the onion and the peppercorns", "the onion and carrots"]
ENDS = ["Drain.", "Lift it out and discard the liquid."]


@pytest.mark.parametrize(("put", "along", "end"), list(product(PUTS, ALONG, ENDS)))
def test_a_joint_boils_with_what_is_added(put: str, along: str, end: str) -> None:
    found = reading(LIST, f"Rinse the gammon. {put.format(along)} Simmer for 1 hour. {end}")
    pot = step(found, "boil")
    assert "gammon-joint" in pot["food"]
    assert pot["duration_h"] == 1.0
    shares = {each["id"]: each.get("eaten_fraction", 1.0) for each in found.recipe["components"]}
    assert shares[str(pot["bath"])] == 0.0


@pytest.mark.parametrize("water", ["enough water to cover", "plenty of water", "2 litres of water"])
def test_what_is_added_with_the_water_boils_beside_what_lay_there(water: str) -> None:
    found = reading(
        LIST[2:], f"Put the potatoes in a pan. Add the carrots and {water}. Boil for 20 minutes. Drain."
    )
    assert sorted(step(found, "boil")["food"]) == ["carrots", "potatoes"]


@pytest.mark.parametrize(
    "said",
    [
        "Put the potatoes in a pan. Add the onion and 500 ml water. Simmer for 20 minutes and blend.",
        "Put the potatoes in a hot skillet with oil. Add the carrots and a cup of water. Cook 20 minutes.",
    ],
)
def test_water_that_nobody_pours_away_stays(said: str) -> None:
    assert kinds(reading([*LIST[2:], "2 tbsp oil"], said)) == []


def test_water_saved_from_another_pot_opens_none() -> None:
    found = reading(
        ["400 g orecchiette", "300 g sausage", "2 tbsp oil"],
        "Boil the orecchiette in salted water, drain, saving a cup of it. Crumble the sausage into a skillet"
        " with the oil. Add the pasta and enough of the saved water to moisten.",
    )
    assert kinds(found) == ["boil"]
