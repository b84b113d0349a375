"""What salts the water of a pot, and what keeps it plain."""

from __future__ import annotations

from typing import Any

import pytest

from .test_method_reading import reading


def water_of(lines: list[str], method: str) -> list[Any]:
    """What lies in the pot that a method is read to have."""
    recipe = reading(lines, method).recipe
    pot = next(each for each in recipe["steps"] if each["kind"] == "boil")
    bath = next(each for each in recipe["components"] if each["id"] == pot["bath"])
    return [each if isinstance(each, str) else each["line"] for each in bath["ingredients"]]


@pytest.mark.parametrize(
    "boils",
    [
        "Don't forget to salt the water before you cook the penne. Drain.",
        "Salt the pasta water well. Cook the penne. Drain.",
        "Cook the penne in well salted water, no oil. Drain.",
    ],
)
def test_pasta_boils_in_salted_water_all_the_same(boils: str) -> None:
    assert any("salt" in line for line in water_of(["250 g penne", "1 tin tomatoes"], boils))


@pytest.mark.parametrize(
    "adds",
    [
        "Add the bay leaf, garlic, some pepper and salt.",
        "Toss in the bay leaf and plenty of salt.",
        "Throw in a clove of garlic, the bay leaf and some salt.",
    ],
)
def test_salt_among_herbs_in_cold_water_salts_the_pot(adds: str) -> None:
    lines = ["250 g green lentils", "1 bay leaf", "3 cloves garlic", "1 onion"]
    method = f"Put the lentils in a pot and cover with cold water. {adds} Boil for 20 minutes. Drain."
    assert any(line.endswith("g salt") for line in water_of(lines, method))


def test_salt_that_goes_to_other_food_meanwhile_salts_no_pot() -> None:
    lines = ["1 kg potatoes", "50 g butter", "1 onion", "1 bay leaf"]
    method = "Cover the potatoes with cold water. Fry the onion in a pan, add the bay leaf, pepper and salt. "
    assert not any("salt" in line for line in water_of(lines, method + "Boil the potatoes. Drain."))


def test_food_that_is_blanched_goes_into_the_water_that_waits() -> None:
    lines = ["1 head of cabbage", "500 g minced beef", "Salt and pepper"]
    method = (
        "Core the cabbage. Bring a pot of salted water to a boil. Blanch for about 3 minutes. "
        "Season the beef with salt and pepper and fill the leaves."
    )
    assert any(line.endswith("g salt") for line in water_of(lines, method))
