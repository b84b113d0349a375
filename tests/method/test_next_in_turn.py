"""What comes behind a plain soak: a pot, or a brine that lies after it."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import kinds, step

PORK = ["1 kg pork", "100 g salt", "1 l water"]


@pytest.mark.parametrize(
    "said",
    [
        "Soak the ham overnight. Boil it with the bay leaf for two hours.",
        "Soak the ham overnight. Boil it for two hours with the bay leaf and salt.",
        "Soak the ham overnight, drain and boil it with the bay leaf for two hours.",
    ],
)
def test_what_goes_along_into_the_pot_hides_no_boil(said: str) -> None:
    found = reading(["1 kg ham", "1 bay leaf"], said)
    assert kinds(found) == ["soak", "boil"]
    assert step(found, "boil")["duration_h"] == 2.0


def test_the_salt_of_soaked_beans_is_in_their_pot() -> None:
    beans = ["300 g dried white beans", "1 tsp salt"]
    found = reading(beans, "Beans: soaked 12 hrs, drained, boiled with the salt 1 hr, drained.")
    assert kinds(found) == ["soak", "boil"]
    assert [line["component"] for line in found.lines if line["text"] == "1 tsp salt"] == ["water"]


@pytest.mark.parametrize(
    "said",
    [
        "Soak the pork in plain water for an hour. Put it in a brine of the salt and water for two days.",
        "Soak the pork for an hour. Put it in a brine made of the salt and water for two days.",
        "Soak the pork in cold water for an hour. Make a brine of the salt and water. Put the pork in the"
        " brine for two days.",
        "Steep the pork in water for an hour, then lay it in brine of the salt and water for two days.",
    ],
)
def test_a_brine_lies_behind_the_soak_before_it(said: str) -> None:
    found = reading(PORK, said)
    assert kinds(found) == ["soak", "brine"]
    assert [each["duration_h"] for each in found.recipe["steps"]] == [1.0, 48.0]


@pytest.mark.parametrize(
    "said",
    [
        "Leave the pork in a brine made from the water and salt for 4 hours.",
        "Put the pork in a brine made of the salt and water for 4 hours.",
        "Make a brine of the water and salt and keep the pork in it for 4 hours.",
        "The pork spends 4 hours in the salt and water.",
        "Boil the water with the salt. Submerge the pork, fat side down, for 4 hours somewhere cold.",
        "Boil the water with the salt and let it cool. Put the pork in it, covered, for 4 hours.",
    ],
)
def test_a_brine_is_one_whatever_it_is_made_from(said: str) -> None:
    found = reading(PORK, said)
    assert kinds(found) == ["brine"]
    assert step(found, "brine")["duration_h"] == 4.0


def test_a_brine_that_food_is_kept_in_needs_no_time() -> None:
    cheese = ["500 g mozzarella", "30 g salt", "1 l water"]
    assert kinds(reading(cheese, "Make a brine of the water and salt and keep the mozzarella in it.")) == [
        "brine"
    ]
