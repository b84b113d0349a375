"""Food that goes into a pot after the first, where a clause tells by the clock when."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten

WITH_SALT = "Boil the potatoes in salted water"
LINES = ["1 kg potatoes", "4 frankfurters", "1 tbsp salt", "300 g peas"]


def boils(*method: str) -> list[tuple[object, object]]:
    return [(s["food"], s.get("duration_h")) for s in reading(LINES, *method).recipe["steps"]]


@pytest.mark.parametrize(
    "said",
    [
        f"{WITH_SALT}. After 15 minutes add the frankfurters and cook 5 minutes more. Drain.",
        f"{WITH_SALT} for 20 minutes, adding the frankfurters for the last 5. Drain.",
        f"{WITH_SALT} for 20 minutes, throwing in the frankfurters for the last 5. Drain.",
        f"{WITH_SALT} for 20 minutes, dropping in the frankfurters for the last 5 minutes. Drain.",
        f"{WITH_SALT}. After 15 minutes throw in the frankfurters. Boil for 5 minutes. Drain.",
    ],
)
def test_what_comes_later_boils_for_less(said: str) -> None:
    assert boils(said) == [("potatoes", 0.3333), ("frankfurters", 0.0833)]
    assert eaten(reading(LINES, said), 2) == 0.0


@pytest.mark.parametrize(
    "said",
    [
        "Boil the potatoes in salted water. After 12 minutes add the frankfurters. After another 4 "
        "minutes add the peas and cook 4 minutes. Drain.",
        "Boil the potatoes in salted water. After 12 minutes add the frankfurters, after another "
        "4 add the peas and cook 4 minutes. Drain.",
    ],
)
def test_a_third_comes_later_still(said: str) -> None:
    assert boils(said) == [("potatoes", 0.3333), ("frankfurters", 0.1333), ("peas", 0.0667)]


@pytest.mark.parametrize(
    "said",
    [
        "Boil the potatoes in salted water. Add the peas, cook until soft and drain.",
        "Boil the potatoes and peas in salted water for 15 minutes. Drain.",
    ],
)
def test_with_no_time_of_its_own_all_boils_as_one(said: str) -> None:
    assert len(boils(said)) == 1


def test_a_soup_is_eaten_whole() -> None:
    said = "Boil the potatoes in water with the salt. After 15 minutes add the frankfurters. Serve."
    assert eaten(reading(LINES, said.replace("Serve", "Serve the soup")), 2) == 1.0


def test_what_goes_into_a_boiling_pot_lies_in_no_brine() -> None:
    found = reading(
        ["500 g pasta", "2 tbsp salt", "300 g peas"],
        "Bring 4 litres water with the salt to a boil. Pasta in. After 7 minutes, peas in. Drain.",
    )
    assert {step["kind"] for step in found.recipe["steps"]} == {"boil"}
    assert eaten(found, 1) == 0.0


@pytest.mark.parametrize(
    "said",
    [
        "Put in a pot with vinegar and sugar, cover with water and simmer 2 hours.",
        "Put it in a pot with the vinegar and sugar. Cover with water and simmer 2 hours.",
    ],
)
def test_meat_is_in_the_pot_that_is_covered_with_water(said: str) -> None:
    lines = ["1 kg corned silverside", "1 tbsp vinegar", "1 tbsp brown sugar"]
    steps = reading(lines, f"Rinse the silverside. {said} Take it out and slice.").recipe["steps"]
    assert [(s["kind"], s.get("duration_h")) for s in steps if s["kind"] != "rinse"] == [("boil", 2.0)]


def test_a_longer_pot_of_the_same_food_is_another() -> None:
    found = reading(
        ["8 eggs", "2 tbsp salt", "1 l water", "2 bags tea"],
        "Boil the eggs 8 minutes. Crack the shells. Simmer in the water with tea and salt for an hour. Peel.",
    )
    assert [s["duration_h"] for s in found.recipe["steps"]] == [0.1333, 1.0]
