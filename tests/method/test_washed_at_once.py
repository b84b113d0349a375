"""Meat and seafood that are cleaned with salt and rinsed at once: the salt is washed away."""

from __future__ import annotations

from typing import Any

import pytest

from .test_method_reading import reading
from .test_plain_recipes import kinds, step


@pytest.mark.parametrize(
    "said",
    [
        "Rub the squid with the salt, then rinse well.",
        "Rub the salt into the squid and wash it off.",
        "Scrub the squid with the salt and rinse.",
        "Scrub the squid with the salt. Rinse under running water.",
        "Massage the squid with the salt. Wash it away.",
        "Massage the squid with the salt for 5 minutes. Rinse.",
        "Wash the squid with the salt, then rinse well.",
    ],
)
def test_salt_that_food_is_cleaned_with_is_washed_away(said: str) -> None:
    found = reading(["500 g squid", "3 tbsp salt"], said)
    assert kinds(found) == ["dry_cure", "rinse"]
    assert step(found, "dry_cure")["duration_h"] == pytest.approx(0.08, abs=0.01)
    cure = next(each for each in found.recipe["components"] if each["id"] == "cure")
    assert cure["eaten_fraction"] == 0


def test_vinegar_goes_with_it() -> None:
    lines = ["500 g tripe", "3 tbsp salt", "2 tbsp vinegar"]
    found = reading(lines, "Scrub the tripe with the salt and vinegar and rinse in cold water.")
    assert kinds(found) == ["marinate"]
    assert found.recipe["components"][1]["eaten_fraction"] == 0


def test_what_is_rinsed_the_next_day_lay_for_a_night() -> None:
    found = reading(["1 kg pork", "3 tbsp salt"], "Rub the pork with the salt. The next day rinse it.")
    assert step(found, "dry_cure")["duration_h"] == 12.0


def test_what_is_rinsed_of_its_brine_was_not_rubbed_as_well() -> None:
    lines = ["1.5 kg pork loin", "# Brine", "3 l water", "150 g salt"]
    said = "Lay the loin in the brine for a day. (Or skip it and rub the loin with 2 tsp of salt instead.)"
    found = reading(lines, said, "Discard the brine and give the loin a quick rinse. Roast.")
    assert "dry_cure" not in kinds(found)


@pytest.mark.parametrize(
    "said",
    [
        "Rub the chicken with the salt. Rinse the rice and boil it. Roast the chicken.",
        "Rinse the chicken, rub it with the salt and roast.",
        "Scrub the potatoes and rinse. Rub the chicken with the salt and roast with them.",
        "Rub the chicken with the salt and roast. Wash the salad.",
    ],
)
def test_salt_on_food_that_is_not_rinsed_stays(said: str) -> None:
    found = reading(["1 chicken", "1 tbsp salt", "200 g rice", "4 potatoes"], said)
    assert not {"dry_cure", "rinse"} & set(kinds(found))
    assert all(each.get("eaten_fraction", 1) == 1 for each in found.recipe["components"] if salts(each))


def salts(component: dict[str, Any]) -> bool:
    return any("salt" in str(each) for each in component["ingredients"])
