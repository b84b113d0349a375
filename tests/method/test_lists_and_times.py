"""Parts of a list named by their ends, what a sentence is about before its colon, and times that lead it."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds, step

_PORK = [
    "700 g pork neck",
    "80 ml soy sauce",
    "60 ml lime juice",
    "2 cloves garlic",
    "2 cobs corn",
    "10 g salt",
]


@pytest.mark.parametrize(
    "said",
    [
        "Whisk everything from the soy sauce to the garlic in a bowl.",
        "Stir together all the ingredients from soy sauce through garlic.",
        "Mix everything from soy sauce down to garlic.",
    ],
)
def test_everything_from_one_line_to_another_ends_there(said: str) -> None:
    method = f"{said} Marinate the pork in it for 4 hours. Discard the marinade. Grill the pork and the corn."
    found = reading(_PORK, method)
    assert kinds(found)[0] == "marinate"
    assert [eaten(found, n) for n in range(6)] == [1.0, 0.0, 0.0, 0.0, 1.0, 1.0]


def test_everything_from_the_larder_names_no_part_of_the_list() -> None:
    found = reading(
        ["700 g pork neck", "80 ml soy sauce"], "Put everything from the list in a bag for 4 hours."
    )
    assert kinds(found) == ["marinate"]


@pytest.mark.parametrize(
    "said",
    [
        "Peas: boil for 4 minutes in plain water, drain.",
        "Peas - cook for 4 minutes in plain water and drain.",
        "The peas: simmer 4 minutes in a pot of plain water. Drain.",
        "For the peas: boil 4 minutes in plain water, drain.",
    ],
)
def test_what_stands_before_a_colon_boils_and_no_batter_stirred_before(said: str) -> None:
    lines = ["4 pollock fillets", "200 g flour", "300 ml ale", "1.5 l oil", "400 g peas"]
    method = f"Whisk the ale into the flour. Dip the fish in the batter and deep-fry for 6 minutes.\n{said}"
    found = reading(lines, *method.split("\n"))
    assert [step["food"] for step in found.recipe["steps"]] == ["pollock", "pollock", "peas"]
    assert kinds(found)[:2] == ["dredge", "fry"]


@pytest.mark.parametrize(
    "when", ["In the evening mix", "The night before mix", "On the day before stir", "Next morning combine"]
)
def test_a_time_may_lead_what_is_mixed(when: str) -> None:
    lines = ["800 g chicken thighs", "150 g yoghurt", "8 g salt"]
    found = reading(lines, f"{when} the yoghurt and salt. The chicken goes inside for 10 hours. Grill.")
    assert step(found, "marinate")["duration_h"] == 10
    assert eaten(found, 2) < 1.0


@pytest.mark.parametrize(
    "said",
    [
        "The potatoes are cooked apart, in cubes, in salted water.",
        "Potatoes you cook by themselves, in lightly salted water.",
        "Cook the potatoes, in chunks, in salted water (they stay hard in sour soup).",
    ],
)
def test_food_cooks_in_the_water_behind_a_comma(said: str) -> None:
    lines = ["500 g sauerkraut", "500 g potatoes", "100 g sour cream"]
    found = reading(lines, f"{said} Pour away this water. Serve with sour cream and bread.")
    assert kinds(found) == ["boil"]
    assert step(found, "boil")["food"] == "potatoes"
    assert eaten(found, 2) == 1.0


def test_half_a_spoon_is_no_name_of_a_line_of_a_kilo_and_a_half() -> None:
    lines = ["1 kg and a half chicken thighs", "1 onion", "salt"]
    found = reading(
        lines, "Slice the onion, rub with half a spoon of salt, wait 10 minutes, wash and squeeze."
    )
    assert kinds(found) == ["dry_cure", "rinse", "squeeze"]
    assert step(found, "dry_cure")["food"] == "onion"
