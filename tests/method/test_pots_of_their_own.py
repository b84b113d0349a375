"""Two pots in one sentence, salt of which a little is left out, and water that only steams."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds

TWO = ["1 kg potatoes", "400 g green beans", "2 tsp salt"]


@pytest.mark.parametrize(
    "said",
    [
        "Boil the potatoes with 1 tsp salt and the beans with 1 tsp salt. Drain both.",
        "Boil the potatoes in water with 1 tsp salt and the beans in water with 1 tsp salt. Drain both.",
        "Boil the potatoes with half the salt and the beans with the other half. Drain both.",
        "Boil the potatoes with the salt and the beans in a separate pan. Drain both.",
        "Boil the potatoes in one pan with the salt and the beans in another. Drain both.",
    ],
)
def test_each_boils_in_its_own_pot(said: str) -> None:
    found = reading(TWO, said)
    assert kinds(found) == ["boil", "boil"]
    assert len({each["bath"] for each in found.recipe["steps"]}) == 2
    assert eaten(found, 2) == 0.0


@pytest.mark.parametrize(
    "said",
    [
        "Boil the potatoes and the beans in water with the salt. Drain.",
        "Boil the potatoes in water with the salt and the beans. Drain.",
        "Boil the potatoes with the salt and drain.",
    ],
)
def test_one_pot_stays_one(said: str) -> None:
    found = reading(TWO, said)
    assert kinds(found) == ["boil"]
    assert eaten(found, 2) == 0.0


@pytest.mark.parametrize(
    ("said", "left"),
    [
        (
            "Cook the penne in water with all but a teaspoon of the salt. Drain. Add the rest of the salt.",
            1 / 6,
        ),
        ("Boil the penne in water with all but 1 tsp of the salt. Drain and sprinkle with the rest.", 1 / 6),
        ("Cook the penne in water with all but a pinch of the salt. Drain. Season with the pinch.", 0.02),
        ("Cook the penne in water with all but a pinch of the salt. Drain. Add the pinch of salt.", 0.02),
    ],
)
def test_a_little_salt_is_left_out_of_the_pot(said: str, left: float) -> None:
    found = reading(["400 g penne", "2 tbsp salt", "1 jar pesto"], said)
    assert eaten(found, 1) == pytest.approx(left, abs=0.01)


def test_all_but_a_line_is_all_the_rest() -> None:
    found = reading(["400 g penne", "2 tbsp salt", "1 jar pesto"], "Mix all but the pesto.")
    assert eaten(found, 1) == 1.0


@pytest.mark.parametrize(
    "said",
    [
        "Bring a little water with the salt to the boil. Steam the broccoli over it for 6 minutes.",
        "Fill a pot with water and the salt. Put the broccoli in a steamer basket over it, cover and steam.",
        "Boil water with the salt in a pan. Steam the broccoli over the water.",
    ],
)
def test_salt_of_steaming_water_stays_there(said: str) -> None:
    assert eaten(reading(["500 g broccoli", "1 tsp salt"], said), 1) == 0.0


@pytest.mark.parametrize(
    "said",
    [
        "Steam the broccoli for 6 minutes and season with the salt.",
        "Bring an inch of water to the boil. Steam the broccoli over it for 6 minutes. Sprinkle with "
        "the salt.",
        "Bring the water to the boil, add the broccoli and the salt, cover and steam 6 minutes.",
    ],
)
def test_salt_on_what_is_steamed_is_eaten(said: str) -> None:
    assert eaten(reading(["500 g broccoli", "1 tsp salt"], said), 1) == 1.0


def test_everything_in_a_pot_that_is_drained_boils() -> None:
    found = reading(
        ["400 g chickpeas", "1 tbsp salt", "1 onion"],
        "Put everything in a pot with water to cover, boil for an hour and drain.",
    )
    assert kinds(found) == ["boil"]
    assert eaten(found, 1) == 0.0
