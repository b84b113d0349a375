"""Food that goes into a pan with water and salt is boiled in it."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds, step


@pytest.mark.parametrize(
    "said",
    [
        "Put the potatoes in a pan with the water and salt. Boil and drain.",
        "Put the potatoes in a pan with water and the salt. Boil until tender. Drain.",
        "Place the potatoes, water and salt in a pan. Bring to the boil and cook for 20 minutes. Drain.",
        "Peel the potatoes. Put them in a pan with the water and salt. Boil and drain.",
        "Put water and the salt in a pan. Boil, add the potatoes, cook 20 minutes. Drain.",
        "Put the water and salt in a pan. Bring to the boil, add the potatoes and cook 20 minutes. Drain.",
    ],
)
def test_potatoes_in_a_pan_of_water_with_the_salt_are_boiled(said: str) -> None:
    found = reading(["1 kg potatoes", "1 tbsp salt"], said)
    assert kinds(found) == ["boil"]
    assert step(found, "boil")["food"] == "potatoes"
    assert eaten(found, 1) == 0.0


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        (
            ["500 g green beans", "20 g butter", "1 tsp salt"],
            "Put the beans in a pan with a little water and the salt. Cook until it is gone. Add the butter.",
        ),
        (
            ["500 g carrots", "20 g butter", "1 tsp salt"],
            "Put the carrots, butter, water and salt in a pan. Boil until the water has gone.",
        ),
        (
            ["800 g chicken", "2 onions", "1 tsp salt"],
            "Put the chicken and onions in a roasting pan with water and the salt. Roast for an hour.",
        ),
        (["200 g sugar", "1 pinch salt"], "Put the sugar, water and salt in a pan. Boil to a syrup."),
    ],
)
def test_what_keeps_its_little_water_keeps_its_salt(lines: list[str], said: str) -> None:
    found = reading(lines, said)
    assert "boil" not in kinds(found)
    assert eaten(found, len(lines) - 1) == 1.0
