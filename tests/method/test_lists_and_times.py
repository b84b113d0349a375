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


@pytest.mark.parametrize(
    ("said", "part"), [("half a teaspoon of salt", 0.25), ("a teaspoon of the salt", 0.5), ("salt", 0.5)]
)
def test_what_is_measured_out_of_a_salt_is_not_in_what_it_was_mixed_into_before(
    said: str, part: float
) -> None:
    lines = ["1 kg chicken thighs", "100 g yoghurt", "2 tsp salt", "1 onion"]
    first = (
        "Mix the yoghurt and salt. Marinate the chicken in it overnight. Grill the chicken with all of it."
    )
    found = reading(lines, f"{first} Slice the onion, rub with {said}, wait 10 minutes, wash and squeeze.")
    assert kinds(found)[-3:] == ["dry_cure", "rinse", "squeeze"]
    shares = [line.get("share", 1.0) for line in found.lines if line["index"] == 2]
    assert sorted(shares) == sorted([part, 1 - part])


@pytest.mark.parametrize("other", ["for the onion", "(for onion)", "for the sliced onion"])
def test_salt_that_the_list_means_for_a_food_goes_on_that(other: str) -> None:
    lines = ["1 kg pork shoulder", "2 tsp salt", "1 onion", f"1 tsp salt {other}"]
    first = "Rub the pork with the salt and leave overnight. Roast it."
    found = reading(lines, f"{first} Slice the onion, mix with the salt, wait 10 minutes, rinse and squeeze.")
    assert [eaten(found, n) for n in (1, 3)] == [1.0, 0.0]


@pytest.mark.parametrize(
    "said",
    [
        "Boil the potatoes in plenty of water, no salt, for 20 minutes.",
        "Boil the potatoes for 20 minutes in water with no salt.",
        "Put the potatoes in a big pot of water, never any salt, and boil for 20 minutes.",
    ],
)
def test_no_salt_of_the_list_is_in_water_that_has_none(said: str) -> None:
    found = reading(
        ["500 g potatoes", "1 tsp salt", "300 g mince"], f"{said} Drain. Mix the mince with the salt."
    )
    assert kinds(found) == ["boil"]
    assert eaten(found, 1) == 1.0
    assert [line for line in found.recipe["components"] if "salt" in str(line["ingredients"])] == [
        line for line in found.recipe["components"] if line["id"] == "dish"
    ]
