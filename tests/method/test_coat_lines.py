"""Oatmeal, polenta, ground nuts and their like as coats, and none where nothing is turned in them."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import kinds


@pytest.mark.parametrize(
    ("food", "coat", "said"),
    [
        ("600 g squid", "150 g semolina", "Mix the semolina and salt. Toss the squid in it and fry."),
        ("600 g squid", "150 g semolina", "Roll the squid in the semolina mixed with the salt. Fry."),
        ("600 g herrings", "100 g oatmeal", "Mix the oatmeal and salt. Press the herrings into it. Fry."),
        ("600 g herrings", "100 g oatmeal", "Stir salt and oatmeal. Coat the herrings in the oatmeal. Fry."),
        (
            "600 g aubergines",
            "100 g polenta",
            "Mix polenta and salt. Dip the aubergines in the polenta. Fry.",
        ),
        (
            "700 g chicken breasts",
            "150 g ground almonds",
            "Mix almonds and salt. Press the chicken into the almonds. Bake.",
        ),
        (
            "600 g tuna",
            "100 g sesame seeds",
            "Mix the sesame seeds and salt. Roll the tuna in the sesame seeds. Sear.",
        ),
        (
            "600 g cod",
            "120 g crushed pretzels",
            "Mix the pretzels and salt. Coat the cod in the pretzels. Fry.",
        ),
    ],
)
def test_what_food_is_turned_in_is_a_coat_with_its_salt(food: str, coat: str, said: str) -> None:
    found = reading([food, coat, "2 tsp salt"], said)
    assert "dredge" in kinds(found)
    made = next(each for each in found.recipe["components"] if each["id"] == "coating")
    assert {coat, "2 tsp salt"} <= {
        each if isinstance(each, str) else each["line"] for each in made["ingredients"]
    }


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        (
            ["600 g chicken", "200 g polenta", "2 tsp salt"],
            "Boil the polenta with the salt. Serve with the chicken.",
        ),
        (
            ["600 g carrots", "50 g sesame seeds", "1 tsp salt"],
            "Roast the carrots with salt. Toss with the sesame seeds.",
        ),
        (
            ["600 g beans", "80 g hazelnuts", "1 tsp salt"],
            "Boil the beans. Toss with the chopped hazelnuts and salt.",
        ),
    ],
)
def test_what_is_stirred_in_or_served_is_no_coat(lines: list[str], said: str) -> None:
    assert "dredge" not in kinds(reading(lines, said))
