"""Food that boils in the water that other food was lifted out of, in words that say so in passing."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds

GREENS = ["500 g broccoli", "500 g pasta", "1 tbsp salt"]


@pytest.mark.parametrize(
    "said",
    [
        "Boil the broccoli in water with the salt, then use the same water for the pasta; drain.",
        "Boil the broccoli in water with the salt. Lift it out. Use the same water to cook the pasta. Drain.",
        "Boil the broccoli in water with the salt; scoop it out and put the pasta in. Drain.",
        "Boil the broccoli in water with the salt; scoop it out and add the pasta. Drain.",
        "Boil the broccoli in water with the salt; fish it out and drop in the pasta. Drain.",
        "Boil the broccoli in water with the salt; scoop it out. Same water: pasta. Drain.",
        "Boil the broccoli in the water and salt; lift out. Bring the water back to the boil for the pasta.",
    ],
)
def test_pasta_boils_in_the_water_of_the_broccoli(said: str) -> None:
    found = reading(GREENS, said)
    assert kinds(found) == ["boil", "boil"]
    assert {step["bath"] for step in found.recipe["steps"]} == {"water"}
    assert eaten(found, 2) == 0.0


@pytest.mark.parametrize("water", ["the same water", "the octopus water", "its water"])
def test_salt_that_comes_with_the_second_food_is_in_the_water(water: str) -> None:
    lines = ["1 kg octopus", "1 kg potatoes", "1 tbsp salt"]
    found = reading(
        lines, f"Boil the octopus. Take it out and boil the potatoes in {water} with the salt. Drain."
    )
    assert {step["bath"] for step in found.recipe["steps"]} == {"water"}
    assert eaten(found, 2) == 0.0


@pytest.mark.parametrize(
    "said",
    [
        "Boil the broccoli in water with the salt; scoop it out. Boil the pasta in fresh water and drain.",
        "Boil the broccoli in water with the salt and drain. Fry the broccoli, boil the pasta and drain.",
        "Boil the broccoli in water with the salt; scoop it out. Boil the pasta in another pot and drain.",
    ],
)
def test_pasta_boils_in_water_of_its_own(said: str) -> None:
    assert len({step["bath"] for step in reading(GREENS, said).recipe["steps"]}) == 2


@pytest.mark.parametrize(
    "said",
    [
        "Boil the broccoli in water with the salt. Scoop it out and add the cooked pasta.",
        "Boil the broccoli in water with the salt. Drain. Fry it, take it out and add the pasta.",
        "Boil the broccoli in water with the salt. Drain. Do not use the same water for the pasta.",
    ],
)
def test_nothing_more_boils_in_the_water(said: str) -> None:
    found = reading(["500 g broccoli", "500 g cooked pasta", "1 tbsp salt"], said)
    assert kinds(found) == ["boil"]
