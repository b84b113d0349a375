"""Salt without an amount: what one pinch of it says of the rest."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten

LIST = ["800 g braising steak", "2 onions", "300 ml cream", "Salt and pepper"]


def salts(*method: str) -> list[str]:
    """The salt of the dish, as it is read."""
    found = reading(LIST, *method)
    dish = next(each for each in found.recipe["components"] if each["id"] == "dish")
    lines = [each if isinstance(each, str) else each["line"] for each in dish["ingredients"]]
    return [line for line in lines if "salt" in line.lower()]


@pytest.mark.parametrize(
    "method",
    [
        "Rub salt and pepper into the steak and brown it. Soften the onions with a pinch of salt.",
        "Salt the steak all over, then fry it. Add the onions with a dash of salt, pour in the cream.",
        "Give the onions a pinch of salt and fry them. Season the steak and add it with the cream.",
    ],
)
def test_a_pinch_for_one_food_is_not_all_the_salt_of_a_dish_that_is_seasoned(method: str) -> None:
    assert salts(method) == ["Salt and pepper"]


@pytest.mark.parametrize(
    "method",
    [
        "Soften the onions with a pinch of salt. Add the steak and the cream and bake.",
        "Fry the onions with a pinch of salt, put in the steak and cook gently. Season with pepper.",
        "Braise the steak with the onions and cream. Taste and season, a pinch of salt will do.",
    ],
)
def test_a_pinch_is_all_the_salt_where_nothing_else_is_said_of_salt(method: str) -> None:
    assert salts(method) == ["1 pinch salt"]


def test_a_pinch_stands_beside_the_salt_of_a_pot() -> None:
    lines = ["500 g potatoes", "3 eggs", "Salt"]
    found = reading(lines, "Boil the potatoes in water with salt, drain. Beat the eggs with a pinch of salt.")
    dish = next(each for each in found.recipe["components"] if each["id"] == "dish")
    assert [each if isinstance(each, str) else each["line"] for each in dish["ingredients"]] == [
        "3 eggs",
        "1 pinch salt",
    ]


@pytest.mark.parametrize(
    "method",
    [
        "Salt and squeeze the marrow. Stir it into the mince.",
        "Salt, rest and drain the marrow. Add it to the mince.",
        "Grate the marrow. Salt and wring out, then knead it into the mince.",
        "Salt the marrow and pat dry. Lay it on the mince.",
    ],
)
def test_vegetables_that_are_salted_and_wrung_out_lose_a_part_of_usual_salt(method: str) -> None:
    found = reading(["1 kg marrow", "400 g minced lamb"], method)
    cure = next(each for each in found.recipe["components"] if each["id"] == "cure")
    assert found.recipe["steps"][0]["food"] == "marrow"
    assert cure["ingredients"] == [{"line": "10 to 30 g salt"}]
    assert "strewn" in found.questions[0].message


@pytest.mark.parametrize("method", ["Salt and pat dry the lamb. Fry it.", "Salt and fry the lamb with it."])
def test_meat_that_is_salted_and_dried_is_only_seasoned(method: str) -> None:
    assert not found_steps(["1 kg marrow", "400 g lamb"], method)


def found_steps(lines: list[str], method: str) -> list[object]:
    return list(reading(lines, method).recipe.get("steps", ()))


@pytest.mark.parametrize(
    "dries",
    [
        "Mix it all, shape into sticks, and dehydrate for 9 hours.",
        "Combine everything and press on to trays. Dry at 65 °C for 9 hours.",
        "Work the salt into the mince. Roll out, and leave in the dehydrator for 9 hours.",
    ],
)
def test_seasoned_mince_dries_with_its_salt(dries: str) -> None:
    found = reading(["1 kg minced venison", "20 g salt", "1 tsp pepper"], dries)
    assert [(s["kind"], s["duration_h"]) for s in found.recipe["steps"]] == [("dry", 9.0)]
    assert [eaten(found, n) for n in range(3)] == [1.0, 1.0, 1.0]


@pytest.mark.parametrize("before", ["", " Leave for 30 minutes."])
def test_salted_vegetables_that_dry_out_keep_their_salt(before: str) -> None:
    found = reading(
        ["500 g tomatoes", "1 tsp salt"],
        f"Sprinkle the tomatoes with the salt.{before} Dehydrate for 8 hours.",
    )
    assert not found.recipe.get("steps")
    assert eaten(found, 1) == 1.0


@pytest.mark.parametrize(
    "said", ["Salt the carrots.", "Lightly salt the carrots.", "Season the carrots with salt."]
)
def test_salt_that_food_is_given_and_no_line_names_is_in_the_dish(said: str) -> None:
    found = reading(["1 kg carrots", "2 tbsp oil"], f"{said} Roast for 30 minutes with the oil.")
    texts = [i["line"] for c in found.recipe["components"] for i in c["ingredients"] if isinstance(i, dict)]
    assert texts == ["salt, to taste"]


@pytest.mark.parametrize(
    "said",
    [
        "Do not salt the carrots.",
        "The carrots should taste only faintly salt.",
        "Taste it before you even think of adding salt.",
    ],
)
def test_salt_that_is_only_spoken_of_is_not_in_the_dish(said: str) -> None:
    found = reading(["1 kg carrots", "2 tbsp oil"], f"Roast the carrots with the oil. {said}")
    assert not any(isinstance(i, dict) for c in found.recipe["components"] for i in c["ingredients"])
