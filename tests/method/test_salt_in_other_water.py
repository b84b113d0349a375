"""Salt that is stirred into some water of its own once something was scalded or boiled in another."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten

PORK = ["150 g salt pork", "1 kg beans", "1 tsp salt"]


@pytest.mark.parametrize("scald", ["Scald the pork.", "Blanch the pork.", "Scald the pork. Drain."])
@pytest.mark.parametrize(
    "said",
    [
        "Mix salt with a cup of boiling water and pour over.",
        "Mix the salt with a cup of hot water and pour over the beans.",
        "Stir the salt into boiling water and pour over the beans.",
        "Stir the salt into a pint of water and pour it over.",
    ],
)
def test_salt_in_other_water_than_that_of_the_scalding_is_eaten(scald: str, said: str) -> None:
    found = reading(PORK, f"{scald} Put it in the pot with the beans. {said}")
    assert eaten(found, 2) == 1.0
    shares = {c["id"]: c.get("eaten_fraction", 1.0) for c in found.recipe["components"]}
    assert shares["water"] == 0.0


@pytest.mark.parametrize(
    "said",
    [
        "Stir the salt into the water.",
        "Mix the salt into the boiling water.",
        "Stir the salt into their water.",
        "Stir in the salt.",
        "Add the salt to the water.",
    ],
)
def test_salt_in_the_water_of_a_pot_leaves_with_it(said: str) -> None:
    found = reading(["500 g potatoes", "1 tsp salt"], f"Boil the potatoes in water. {said} Drain.")
    assert eaten(found, 1) == 0.0


def test_a_cup_of_boiling_water_is_none_of_the_water_of_a_pot() -> None:
    found = reading(
        ["500 g kidney beans", "1 tbsp salt"],
        "Boil the beans with the salt. Drain. Mash with a cup of boiling water.",
    )
    shares = {c["id"]: c.get("eaten_fraction", 1.0) for c in found.recipe["components"]}
    assert shares["water"] == 0.0
