"""Food that is put on in cold water with salt and cooked there: a pot, and no cold brine."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds, step


@pytest.mark.parametrize(
    "said",
    [
        "The pork is put on in cold water with the salt and cooked for two hours.",
        "The pork is put on in cold water with the salt and simmered for two hours.",
        "Put the pork on in cold water with the salt and cook for two hours.",
        "Put the pork in cold water with the salt. Cook for two hours.",
        "Pork, salt and water to cover, 2 hours at a simmer.",
        "Pork, salt and cold water to cover, 2 hours at a gentle simmer.",
        "Put on in cold water with the salt and boil for two hours.",
    ],
)
def test_what_is_put_on_in_salted_water_and_cooked_boils(said: str) -> None:
    found = reading(["1 kg pork shoulder", "1 tbsp salt"], f"{said} Lift out and slice.")
    assert [kind.replace("simmer", "boil") for kind in kinds(found)] == ["boil"]
    assert found.recipe["steps"][0]["duration_h"] == 2.0
    assert eaten(found, 1) == 0.0


@pytest.mark.parametrize(
    "begins",
    [
        "Put on in cold water, with the salt,",
        "Put in cold water with the salt",
        "Place in cold water with the salt",
    ],
)
def test_the_only_food_of_a_list_is_put_on_where_none_is_named(begins: str) -> None:
    found = reading(["1 kg cod", "3 tbsp salt"], f"{begins} and boil gently for twenty minutes. Drain.")
    assert step(found, "boil")["food"] == "cod"
    assert eaten(found, 1) == 0.0


@pytest.mark.parametrize(
    "said",
    [
        "The pork is put in cold water with the salt and left for two hours. Roast.",
        "Put the pork in cold water with the salt. Leave for 2 hours. Cook on the grill for an hour.",
        "Put the pork in cold water with the salt and leave overnight. Cook for two hours.",
    ],
)
def test_what_is_left_in_salted_water_lies_in_a_brine(said: str) -> None:
    assert kinds(reading(["1 kg pork shoulder", "1 tbsp salt"], said))[0] == "brine"
