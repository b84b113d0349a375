"""A line of salt that tells how much goes into each of several things is a line for each of them."""

from __future__ import annotations

import pytest
from saltledger.foods.dataset import bundled
from saltledger.method.salt_for_each import salts_for_each

from ..bench.method_sodium import sodium_mg
from .test_method_reading import component, reading

LINES = ["300 g rigatoni", "400 g turkey mince", "500 g passata"]
METHOD = [
    "Fry the mince with the salt, add the passata and simmer for 25 minutes.",
    "Cook the rigatoni in boiling salted water for 11 minutes and drain. Stir together.",
]
SAID = "Salt the mince and fry it; simmer in the passata. Boil the rigatoni in salted water, drain, stir in."


@pytest.mark.parametrize(
    ("line", "lines"),
    [
        ("1 tsp salt, plus 1 tbsp for the water", ["1 tsp salt", "1 tbsp salt for the water"]),
        ("1 tsp salt (plus 2 tbsp for the water)", ["1 tsp salt", "2 tbsp salt for the water"]),
        ("5 g fine salt + 20 g for the pot", ["5 g fine salt", "20 g fine salt for the pot"]),
        ("1 tsp salt, 1 tbsp salt for the rice", ["1 tsp salt", "1 tbsp salt for the rice"]),
        ("1 tsp salt; 1 tbsp for the rice", ["1 tsp salt", "1 tbsp salt for the rice"]),
        (
            "salt: 1 tsp for the filling, 2 tsp for the dough",
            ["1 tsp salt for the filling", "2 tsp salt for the dough"],
        ),
        (
            "Sea salt - 1 tsp in the filling and 2 tsp in the dough",
            ["1 tsp sea salt in the filling", "2 tsp sea salt in the dough"],
        ),
        (
            "salt (a handful for the water, a pinch for the sauce)",
            ["a handful of salt for the water", "a pinch of salt for the sauce"],
        ),
        (
            "3 tsp salt: 1 tsp for the filling, 2 tsp for the dough",
            ["1 tsp salt for the filling", "2 tsp salt for the dough"],
        ),
        (
            "3 tsp salt (1 for the filling, 2 for the dough)",
            ["1 tsp salt for the filling", "2 tsp salt for the dough"],
        ),
    ],
)
def test_each_amount_has_a_line_of_what_it_is_for(line: str, lines: list[str]) -> None:
    assert salts_for_each(line) == lines


@pytest.mark.parametrize(
    "line",
    [
        "1 tsp salt",
        "1 tbsp salt for the water",
        "1 tsp salt, plus more to taste",
        "1 tsp salt, plus more for sprinkling",
        "1 tsp salt, plus more for the pasta water",
        "1 tsp salt and 1 tsp pepper for the meat",
        "1 tbsp + 1 tsp salt, divided",
        "salt, 2 tsp for every kilo",
        "2 tsp salt, half for the meat",
        "4 tsp salt (1 tsp for the meat)",
        "1 tbsp salt (18 g) for the water",
        "salt and 2 l water for the pot",
        "60 g salt in 1 l water for the brine",
    ],
)
def test_a_line_of_one_amount_or_of_other_food_stays(line: str) -> None:
    assert salts_for_each(line) == []


@pytest.mark.parametrize("method", [METHOD, [SAID]])
@pytest.mark.parametrize(
    "line",
    [
        "1 tsp salt, plus 1 tbsp for the pasta water",
        "1 tbsp salt for the pasta water, 1 tsp for the sauce",
        "salt: 1 tsp for the meat, 1 tbsp in the water",
        "4 tsp salt (1 tsp for the meat, 3 tsp for the pasta water)",
    ],
)
def test_the_salt_of_the_water_is_poured_away_and_that_of_the_sauce_is_eaten(
    line: str, method: list[str]
) -> None:
    found = reading([*LINES, line], *method)
    both = [each for each in found.lines if each["index"] == len(LINES)]
    fates = {each["text"]: component(found, each["text"])[1] for each in both}
    assert sorted(fate == 0.0 for fate in fates.values()) == [False, True]
    assert next(text for text, fate in fates.items() if fate == 0.0).endswith("water")


@pytest.mark.parametrize(
    "line", ["1 tsp salt, plus extra for the pasta water", "1 tsp salt + more for the pot"]
)
def test_what_more_there_is_for_the_water_leaves_the_stated_salt_in_the_dish(line: str) -> None:
    alone, foods = reading([*LINES, "1 tsp salt"], METHOD[0]), bundled()
    assert sodium_mg(reading([*LINES, line], METHOD[0]).recipe, foods) == pytest.approx(
        sodium_mg(alone.recipe, foods)
    )
