"""A marinade of which what is left is boiled down, whatever it is called; and meat in cubes."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds

LINES = ["600 g chicken thighs", "120 ml soy sauce", "2 tbsp honey"]
LIES = "Mix the soy sauce and honey and pour over the chicken. Leave for 3 hours. Grill the chicken."


@pytest.mark.parametrize(
    "said",
    [
        "Put what is left in a saucepan, boil it down and pour over.",
        "Tip everything that is left into a pan and reduce.",
        "Boil what remains of the soy sauce and spoon over.",
        "Reduce what's left in a pan until sticky and spoon over.",
    ],
)
def test_what_is_left_and_boiled_is_eaten(said: str) -> None:
    assert eaten(reading(LINES, f"{LIES} {said}"), 1) == 1.0


@pytest.mark.parametrize("said", ["Throw away what is left.", "What is left of the chicken keeps a day."])
def test_what_is_left_and_not_boiled_is_not(said: str) -> None:
    assert eaten(reading(LINES, f"{LIES} {said}"), 1) == 0.0


@pytest.mark.parametrize("meat", ["700 g lamb cubes", "1 1/2 lb beef cubes", "700 g pork shoulder cubes"])
def test_meat_in_cubes_is_no_stock(meat: str) -> None:
    lies = f"Mix the {meat.split()[-2]} cubes with the yoghurt and salt. Leave overnight."
    said = f"{lies} Shake off the marinade. Grill."
    found = reading([meat, "100 g yoghurt", "2 tsp salt"], said)
    assert kinds(found)[0] == "marinate"
    assert eaten(found, 2) < 1.0


def test_cubes_of_stock_stay_so() -> None:
    found = reading(["500 g leeks", "2 beef cubes", "1 l water"], "Simmer the leeks in the water with cubes.")
    assert eaten(found, 1) == 1.0
