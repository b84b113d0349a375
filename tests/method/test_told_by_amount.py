"""Several salts of one list, told by what they hold; water that is no batter's; fat that is deep."""

from __future__ import annotations

from typing import Any

import pytest
from saltledger.method.forms import written_of
from saltledger.method.method_reading import Reading, read


def reading_of(lines: list[str], *method: str) -> Reading:
    return read(written_of({"title": "Supper", "servings": 4, "ingredients": lines, "method": list(method)}))


def inside(reading: Reading, name: str) -> dict[str, float]:
    found = next(c for c in reading.recipe["components"] if c["id"] == name)
    lines: list[Any] = found["ingredients"]
    return {i: 1.0} if isinstance(i := lines[0], str) and len(lines) == 1 else _shares(lines)


def _shares(lines: list[Any]) -> dict[str, float]:
    return {
        i if isinstance(i, str) else i["line"]: 1.0 if isinstance(i, str) else i.get("share", 1.0)
        for i in lines
    }


@pytest.mark.parametrize(
    "one", ["one of the tablespoons of salt", "1 tbsp salt", "one tablespoon of the salt"]
)
@pytest.mark.parametrize("half", ["the half teaspoon of salt", "1/2 tsp salt"])
def test_the_salt_that_holds_so_much(one: str, half: str) -> None:
    lines = ["400 g flour", "1/2 tsp salt", "1 egg", "600 g potatoes", "2 tbsp salt"]
    said = (
        f"Boil the potatoes in 2 litres of water with {one}. Drain and mash. Mix the flour, egg and {half}."
    )
    reading = reading_of(lines, said)
    assert inside(reading, "water")["2 tbsp salt"] == 0.5
    assert "1/2 tsp salt" not in inside(reading, "water")


@pytest.mark.parametrize(
    "spoons", ["the 2 spoons of salt", "the 2 tablespoons of salt", "2 heaped tbsp salt"]
)
@pytest.mark.parametrize(
    "fries", ["fry them in deep hot oil until brown", "deep-fry them", "fry in 5 cm of hot oil"]
)
def test_heaped_spoons_and_deep_oil(spoons: str, fries: str) -> None:
    lines = [
        "800 g aubergines",
        "2 heaped tbsp salt",
        "sunflower oil, for frying",
        "4 tomatoes",
        "1/2 tsp salt",
    ]
    said = f"Put the aubergines in a basin with 1.5 litres of water and {spoons} for half an hour."
    reading = reading_of(
        lines, said, f"Drain, dry them in a towel, and {fries}.", "Cook the tomatoes with 1/2 tsp salt."
    )
    assert [s["kind"] for s in reading.recipe["steps"]] == ["brine", "fry"]
    assert inside(reading, "brine")["2 heaped tbsp salt"] == 1.0
    assert inside(reading, "dish")["1/2 tsp salt"] == 1.0


@pytest.mark.parametrize("pot", ["a pot of fresh water", "a pan of cold water", "plenty of water"])
def test_the_water_of_a_batter_boils_no_fish(pot: str) -> None:
    lines = ["250 g salt cod", "200 g flour", "3/4 cup water"]
    said = f"Put the cod in {pot} and boil it 15 minutes. Drain and flake it."
    reading = reading_of(lines, said, "Mix the flour with the cod, then the water, to a thick batter.")
    assert inside(reading, "dish")["3/4 cup water"] == 1.0


def test_a_measured_litre_is_the_pots() -> None:
    reading = reading_of(
        ["400 g penne", "3 litres water", "1 tbsp salt"],
        "Boil the penne in a pot of water with salt.",
        "Drain.",
    )
    assert "3 litres water" in inside(reading, "water")


@pytest.mark.parametrize("browned", ["Brown the chicken in hot oil", "Sear the chicken in hot oil"])
def test_meat_that_is_browned_lies_in_no_deep_fat(browned: str) -> None:
    reading = reading_of(
        ["1 kg chicken thighs", "oil", "400 g tomatoes"], f"{browned}. Add the tomatoes and simmer."
    )
    assert [s["kind"] for s in reading.recipe.get("steps", ())] == []
