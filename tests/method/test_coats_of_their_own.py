"""Three plates that food is taken through, and flour that the list means for one food; juice of steamed fish;
fat by the bottle, and hot enough to brown bread."""

from __future__ import annotations

from typing import Any

import pytest
from saltledger.method.forms import written_of
from saltledger.method.method_reading import Reading, read

PLATES = ["4 turkey escalopes", "70 g flour", "2 eggs", "120 g breadcrumbs", "250 ml clarified butter"]
NOODLES = [
    "300 g flour",
    "3 eggs",
    "1 tsp salt",
    "90 ml water",
    "2 onions, in rings",
    "1 tbsp flour for the onions",
]
BREAM = ["1 sea bream, 600 g", "1 tsp salt", "5 slices ginger", "3 tbsp soy sauce", "2 tbsp peanut oil"]


def reading_of(lines: list[str], method: str) -> Reading:
    return read(written_of({"title": "Gangway", "servings": 2, "ingredients": lines, "method": [method]}))


def steps(lines: list[str], method: str) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = reading_of(lines, method).recipe.get("steps", [])
    return found


@pytest.mark.parametrize(
    "through",
    [
        "Set up flour, beaten egg and breadcrumbs in three plates and take the turkey through them.",
        "Put the flour, egg and breadcrumbs in three dishes. Pull the turkey through them.",
        "Put the flour, egg and breadcrumbs in three dishes. Take the turkey through these.",
    ],
)
def test_food_is_taken_through_three_plates(through: str) -> None:
    found = steps(PLATES, through + " Fry in the hot butter for 5 minutes.")
    assert [each["kind"] for each in found] == ["dredge", "fry"]


def test_flour_for_the_onions_is_none_of_the_dough() -> None:
    method = "Beat the 300 g flour with the eggs, salt and water to a dough. Turn the onions in the flour."
    reading = reading_of(NOODLES, method)
    coats = [each for each in reading.recipe["components"] if each["id"].startswith("coating")]
    assert all("300 g flour" not in str(each) for each in coats)


@pytest.mark.parametrize(
    "oil",
    [
        "a bottle of corn oil",
        "1 (1 l) bottle corn oil",
        "2 blocks lard",
        "1 carton corn oil",
        "3 cups corn oil",
    ],
)
def test_a_bottle_of_oil_is_deep(oil: str) -> None:
    fat = oil.split()[-2] + " " + oil.rsplit(maxsplit=1)[-1] if "lard" not in oil else "lard"
    found = steps(
        ["8 chicken wings", "1 tsp salt", oil], f"Heat the {fat} to 180C. Fry the wings 9 minutes. Salt."
    )
    assert [each["kind"] for each in found] == ["fry"]


@pytest.mark.parametrize(
    "heats",
    [
        "Heat the oil in a wok until a cube of bread browns in half a minute.",
        "Heat the oil until a drop of batter sizzles.",
        "Heat the oil until bubbles form around a wooden spoon.",
    ],
)
def test_oil_that_browns_bread_is_deep(heats: str) -> None:
    found = steps(
        ["8 chicken wings", "1 tsp salt", "oil to fry"], heats + " Add the wings and fry until crisp."
    )
    assert [each["kind"] for each in found] == ["fry"]


def test_a_pot_is_set_on_the_heat_with_its_oil() -> None:
    method = "Set a heavy pot with the oil over medium heat. Add the wings carefully and cook until crisp."
    assert [each["kind"] for each in steps(["8 chicken wings", "3 cups oil"], method)] == ["fry"]


@pytest.mark.parametrize(
    ("end", "asked"),
    [
        ("There will be a pool of juice on the plate: tip it away. Pour the soy sauce over.", True),
        ("Pour away the liquid on the plate. Pour the soy sauce over.", True),
        ("Pour the soy sauce over.", False),
    ],
)
def test_salt_goes_with_the_juice_of_steamed_fish(end: str, asked: bool) -> None:
    reading = reading_of(
        BREAM, "Rub the bream with the salt and steam it on the ginger for 9 minutes. " + end
    )
    assert any(each.id.startswith("left-") for each in reading.questions) is asked


def test_the_next_coats_stand_behind_what_is_shaken_off() -> None:
    through = "Roll the turkey in the flour, shaking off the excess, then the egg and finally the crumbs."
    reading = reading_of(PLATES, through + " Fry in the hot butter for 5 minutes.")
    coating = next(each for each in reading.recipe["components"] if each["id"] == "coating")
    assert all(word in str(coating) for word in ("eggs", "breadcrumbs"))
    assert [each["food"] for each in reading.recipe["steps"] if each["kind"] == "fry"] == ["turkey-escalopes"]


@pytest.mark.parametrize(
    "tossed",
    [
        "Mix the flour and polenta on a tray, toss the rings, shake off the excess. Fry in the hot oil.",
        "Combine the polenta and flour and coat the rings. Fry in the hot oil for 2 minutes.",
    ],
)
def test_polenta_is_stirred_with_the_flour_of_a_coat(tossed: str) -> None:
    lines = ["500 g squid rings", "140 g flour", "60 g polenta", "900 ml corn oil"]
    reading = reading_of(lines, tossed)
    coating = next(each for each in reading.recipe["components"] if each["id"] == "coating")
    assert "polenta" in str(coating)
    assert "140 g flour" in str(coating)
