"""Salt of water that food only stands over."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten

LIST = ["500 g cauliflower", "1 tbsp salt", "40 g butter"]


@pytest.mark.parametrize(
    "said",
    [
        "Steam the cauliflower over boiling salted water for 10 minutes.",
        "Steam the cauliflower for 10 minutes above a pan of salted water.",
        "Set the cauliflower in a basket over salted simmering water, cover, 10 minutes.",
        "Bring 3 cm of water with the salt to the boil under a steamer. Steam the cauliflower 10 minutes.",
        "Salt the water of the steamer, bring it to the boil and steam the cauliflower for 10 minutes.",
        "Bring a pan of salted water to the boil, put a colander with the cauliflower on top, "
        "cover and steam for 10 minutes.",
        "Fill the bottom of a steamer with water and the salt. Lay the cauliflower in the top and steam it.",
    ],
)
def test_it_stays_in_the_water(said: str) -> None:
    found = reading(LIST, f"{said} Serve with the butter.")
    assert eaten(found, 1) == 0.0
    assert eaten(found, 2) == 1.0


@pytest.mark.parametrize(
    "said",
    [
        "Steam the cauliflower over boiling water for 10 minutes.",
        "Steam the cauliflower over salted water for 10 minutes. Season with the salt.",
        "Steam the cauliflower in a basket over water. Toss with the salt.",
    ],
)
def test_what_else_is_salted_has_it(said: str) -> None:
    assert eaten(reading(LIST, f"{said} Serve with the butter."), 1) == 1.0


def test_each_of_two_waters_has_its_own_salt() -> None:
    lines = ["500 g cauliflower", "1 tbsp salt", "300 g penne"]
    said = "Boil the penne in salted water, 10 minutes, and drain. Steam the cauliflower over salted water."
    assert eaten(reading(lines, said), 1) == 0.0


@pytest.mark.parametrize("salt", ["1 tbsp salt, plus more to taste", "1 tbsp salt for the water, plus more"])
def test_what_a_line_measures_is_the_pots_and_the_dish_has_more(salt: str) -> None:
    lines = ["400 g penne", salt, "400 g tomatoes"]
    said = "Bring a pot of water with the salt to the boil, cook the penne 10 minutes, drain."
    found = reading(lines, said, "Simmer the tomatoes, season with salt and stir in the penne.")
    assert eaten(found, 1) == 0.0
    dish = next(c for c in found.recipe["components"] if c["id"] == "dish")
    assert any("salt" in str(each) for each in dish["ingredients"])


@pytest.mark.parametrize(
    "bath",
    ["Boil 2 litres of bath water with the soda.", "Bring the bath (2 l water, the soda) to the boil."],
)
def test_a_bath_of_soda_is_a_pot(bath: str) -> None:
    lines = ["500 g flour", "7 g yeast", "300 ml water", "10 g salt", "40 g baking soda"]
    found = reading(
        lines,
        "Knead the flour, yeast, salt and 300 ml water to a dough. Roll and knot into pretzels.",
        f"{bath} Boil the pretzels in it for 30 seconds each side, drain. Bake at 230 °C for 14 minutes.",
    )
    assert [s["kind"] for s in found.recipe["steps"]][:1] == ["boil"]
    assert eaten(found, 4) == 0.0
    assert eaten(found, 3) == 1.0
