"""Meat called by its animal, beside stock that has the animal's name; and its salt, which is no pot's."""

from __future__ import annotations

import pytest

from .test_method_reading import component, reading
from .test_plain_recipes import step

MEATS = [
    ("1 lb sirloin", "beef", "1 cup beef broth"),
    ("4 thighs", "chicken", "2 cups chicken stock"),
    ("4 hake fillets", "fish", "2 tbsp fish sauce"),
    ("1 kg shoulder", "lamb", "500 ml lamb stock"),
    ("800 g belly", "pork", "1 tbsp pork dripping"),
    ("1 ham hock", "ham", "1 ham stock cube"),
]
SALT = "1 tsp salt, divided"


@pytest.mark.parametrize(("line", "called", "beside"), MEATS)
@pytest.mark.parametrize("first", [0, 1])
def test_salt_of_the_meat_goes_into_no_pot(line: str, called: str, beside: str, first: int) -> None:
    found = reading(
        [*([line, beside] if first else [beside, line]), "12 oz noodles", SALT],
        f"Put a large pot of salted water on to boil. Season the {called} with half of the salt. Sear the "
        f"{called}. Add the rest of the salt. Cook the noodles, drain.",
    )
    assert component(found, SALT) == ("dish", None)
    assert step(found, "boil")["food"] == "noodles"


@pytest.mark.parametrize(("line", "called", "beside"), MEATS)
def test_the_meat_is_what_boils(line: str, called: str, beside: str) -> None:
    found = reading([beside, line], f"Simmer the {called} in water for 20 minutes and drain.")
    boiled = step(found, next(s["kind"] for s in found.recipe["steps"]))["food"]
    assert component(found, line)[0] == boiled


def test_salt_that_follows_a_pot_is_still_its_own() -> None:
    found = reading(
        ["1 kg potatoes", "1 tbsp salt"],
        "Bring a pot of water to the boil. Add the salt. Boil the potatoes. Drain.",
    )
    assert component(found, "1 tbsp salt") == (step(found, "boil")["bath"], 0.0)
