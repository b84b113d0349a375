"""What was done with a food before it is used, told behind its name or as a participle."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds, step

CUCUMBERS = ["2 cucumbers, sliced", "1 tbsp salt", "150 g sour cream"]


@pytest.mark.parametrize(
    "method",
    [
        "Stir the sour cream into the cucumbers, salted for 40 minutes and squeezed.",
        "Stir the sour cream into the cucumbers that you have salted for 40 minutes and squeezed.",
        "Dress the cucumbers, which stood in the salt for 40 minutes and were squeezed, with it.",
        "Mix the sour cream with the cucumbers (salted for 40 minutes and squeezed).",
    ],
)
def test_vegetables_that_were_salted_before_they_are_dressed(method: str) -> None:
    found = reading(CUCUMBERS, method)
    assert kinds(found)[0] == "dry_cure"
    assert step(found, "dry_cure")["duration_h"] == pytest.approx(2 / 3, abs=0.01)
    assert eaten(found, 1) == 0.0
    assert eaten(found, 2) == 1.0


@pytest.mark.parametrize(
    ("lines", "method", "hours"),
    [
        (
            ["700 g salt cod", "2 onions"],
            "Fry the onions, add the cod that you soaked for a day and stir.",
            24.0,
        ),
        (
            ["700 g salt cod", "2 onions"],
            "Add the cod, which was soaked for 30 hours, to the fried onions.",
            30.0,
        ),
        (
            ["250 g dried beans", "2 onions"],
            "Drain the beans that soaked overnight. Boil 1 hour, drain.",
            12.0,
        ),
    ],
)
def test_food_that_was_soaked_before_it_is_used(lines: list[str], method: str, hours: float) -> None:
    found = reading(lines, method)
    assert kinds(found)[0] == "soak"
    assert step(found, "soak")["duration_h"] == hours


@pytest.mark.parametrize("food", ["200 g salted samphire", "150 g salted plums", "300 g sauerkraut"])
def test_of_what_is_mixed_only_what_is_salty_is_soaked(food: str) -> None:
    name = food.rsplit(maxsplit=1)[-1]
    found = reading(
        [food, "1 onion", "400 g potatoes"],
        f"Mix the potatoes, the onion and the {name}, soaked for 20 minutes and drained.",
    )
    assert kinds(found) == ["soak"]
    assert found.recipe["steps"][0]["food"] == found.lines[0]["component"]


def test_peanuts_that_are_called_salted_are_not_salted() -> None:
    found = reading(
        ["100 g peanuts", "1 cucumber", "1 tsp salt"], "Mix the cucumber with the peanuts, salted."
    )
    assert "dry_cure" not in kinds(found)


def test_what_was_soaked_is_not_soaked_again_where_it_is_named_again() -> None:
    found = reading(
        ["700 g salt cod", "2 onions"],
        "Soak the cod for 24 hours. Drain. Fry the onions and add the cod that you soaked for 24 hours.",
    )
    assert kinds(found).count("soak") == 1


@pytest.mark.parametrize(
    "method",
    [
        "Mix the potatoes, boiled with the salt and drained, with the mayonnaise.",
        "Mix the mayonnaise with the potatoes (boiled with the salt for 20 minutes, drained).",
        "Mix the mayonnaise with the potatoes that you have boiled with the salt and drained.",
        "Peel the potatoes and boil with the salt. Drain. Mix with the mayonnaise.",
    ],
)
def test_potatoes_that_were_boiled_with_the_salt_before(method: str) -> None:
    found = reading(["900 g potatoes", "1 tbsp salt", "80 g mayonnaise"], method)
    assert kinds(found) == ["boil"]
    assert eaten(found, 1) == 0.0


@pytest.mark.parametrize(
    "method",
    [
        "Stir the yogurt into the courgettes, grated, salted with the salt and squeezed dry.",
        "Fold the courgettes (grated, salted for 20 minutes and squeezed) into the yogurt.",
        "Add the courgettes, grated, salted and wrung out, to the yogurt.",
    ],
)
def test_vegetables_that_were_cut_salted_and_wrung_out(method: str) -> None:
    found = reading(["600 g courgettes", "2 tsp salt", "200 g yogurt"], method)
    assert kinds(found)[0] == "dry_cure"
    assert eaten(found, 1) == 0.0


def test_capers_that_are_named_behind_another_food_are_soaked() -> None:
    found = reading(
        ["50 g salted capers", "1 cucumber", "2 tbsp oil"],
        "Mix the cucumber and the oil with the capers, soaked for 10 minutes and drained.",
    )
    assert kinds(found)[0] == "soak"
    assert found.recipe["steps"][0]["food"] == found.lines[0]["component"]


def test_two_bowls_each_with_half_of_the_salt_take_all_of_it() -> None:
    found = reading(
        ["3 cucumbers", "300 g carrots", "2 tbsp salt"],
        "Put the cucumbers and the carrots in separate bowls and sprinkle each with half of the salt. "
        "Leave for an hour. Drain and squeeze.",
    )
    assert eaten(found, 2) == 0.0
