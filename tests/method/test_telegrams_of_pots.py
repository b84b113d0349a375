"""Pots told in telegrams: what lies in them is named, and no verb."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds, step

LIST = ["1 kg potatoes", "400 g pasta", "1 tbsp salt", "100 g butter"]


@pytest.mark.parametrize(
    "said",
    [
        "Potatoes, cold water, salt. Bring to the boil, 20 minutes. Drain. Mash with butter.",
        "Cold water, potatoes, salt. Boil 20 minutes. Drain. Mash with butter.",
        "Potatoes and water, salt. Boil 20 minutes. Drain. Mash with butter.",
    ],
)
def test_salt_that_is_named_with_the_water_is_in_it(said: str) -> None:
    found = reading(LIST, said)
    assert step(found, "boil")["food"] == "potatoes"
    assert step(found, "boil")["duration_h"] == pytest.approx(1 / 3, abs=1e-3)
    assert eaten(found, 2) == 0.0


@pytest.mark.parametrize(
    "said",
    [
        "Water on with the salt. Pasta in when it boils, 9 minutes. Drain. Butter.",
        "Water on. Salt. Pasta in once it boils. 9 minutes. Drain. Butter.",
        "Big pot, salted water, boil. Pasta 9 min. Drain. Butter.",
        "Boil salted water. Pasta: 9 minutes. Drain. Butter.",
    ],
)
def test_pasta_goes_into_the_water_that_is_on(said: str) -> None:
    found = reading(LIST, said)
    assert kinds(found) == ["boil"]
    assert step(found, "boil")["food"] == "pasta"
    assert step(found, "boil")["duration_h"] == pytest.approx(0.15)
    assert eaten(found, 2) == 0.0


def test_cold_water_behind_what_was_blanched_cools_it() -> None:
    found = reading(LIST, "Blanch the potatoes in salted water for 4 minutes, cold water, drain.")
    assert kinds(found) == ["boil"]
    assert step(found, "boil")["duration_h"] == pytest.approx(1 / 15, abs=1e-3)


@pytest.mark.parametrize(
    "cook", ["Poach 10 min.", "Poach it for 10 minutes and flake.", "Simmer for 10 minutes."]
)
def test_fish_that_was_soaked_is_poached_in_water(cook: str) -> None:
    found = reading(["500 g salt cod", "4 potatoes"], f"Soak the cod for 24 hours. Drain. {cook}")
    assert kinds(found) == ["soak", "boil"]
    assert step(found, "boil")["duration_h"] == pytest.approx(1 / 6, abs=1e-3)


def test_fish_that_is_poached_in_oil_is_in_no_water() -> None:
    lines = ["500 g salt cod", "200 ml olive oil"]
    assert "boil" not in kinds(
        reading(lines, "Soak the cod for 24 hours. Drain and poach in the oil for 10 minutes.")
    )
