"""Pots of plain sentences: salt at the end, food beside, what only soaks, and what is softened in hot
water."""

from __future__ import annotations

import pytest

from .test_method_reading import component, reading
from .test_plain_recipes import eaten, kinds


@pytest.mark.parametrize(
    "soaks",
    [
        "Soak the chipped potatoes in salted water for 30 minutes.",
        "Cut the potatoes into sticks and soak in cold salted water for an hour.",
        "Leave the sliced potatoes in cold water with the salt for 30 minutes.",
        "Put the potato sticks in a bowl of cold salted water for 20 minutes.",
    ],
)
def test_potatoes_in_cold_salted_water_are_not_boiled(soaks: str) -> None:
    found = reading(
        ["500 g potatoes", "1 tbsp salt", "1 l oil for frying"], f"{soaks} Drain, dry and deep-fry."
    )
    assert "boil" not in kinds(found)
    assert "brine" in kinds(found)
    assert eaten(found, 1) == 0.0


def test_potatoes_that_go_into_salted_water_boil() -> None:
    found = reading(
        ["500 g potatoes", "1 tbsp salt"], "The potatoes go into salted water for 20 minutes. Drain."
    )
    assert kinds(found) == ["boil"]


@pytest.mark.parametrize(
    "said",
    [
        "Cover the beans with water and cook 1 hour with the onion. Add the salt for the last 10 "
        "minutes. Drain.",
        "Boil the beans in water for 1 hour with the onion. Add the salt 10 minutes before the end. Drain.",
        "Cook the beans in the water for 1 hour. Salt at the end. Drain.",
        "Simmer the beans in the water for 1 hour. Salt them, leave 5 minutes and drain.",
    ],
)
def test_salt_that_comes_late_is_in_the_water(said: str) -> None:
    lines = [
        "500 g white beans",
        "1 tbsp salt",
        "1 onion",
        *(["2 l water"] if "the water for" in said else []),
    ]
    found = reading(lines, said)
    assert kinds(found) in (["boil"], ["simmer"])
    assert eaten(found, 1) == 0.0


def test_salt_on_what_was_drained_is_eaten() -> None:
    found = reading(
        ["500 g lentils", "1 tsp salt"], "Boil the lentils in water for 25 minutes. Drain. Salt them."
    )
    assert eaten(found, 1) == 1.0


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        (["1 kg potatoes", "2 tsp salt"], "Put the potatoes in a pan with water. Salt. Lid on. Boil 20 "
        "minutes. Drain."),
        (["6 eggs", "2 tsp salt"], "Put the eggs in a pan with water. Add the salt. Boil 9 minutes. Drain."),
        (["500 g asparagus", "2 tsp salt"], "Fill a frying pan with water, add the salt and bring to a boil. "
         "Lay in the asparagus for 4 minutes. Lift out."),
        (["1 cauliflower", "2 tsp salt", "3 eggs"], "Boil the florets with the salt for 5 minutes. Drain."),
        (["1 cabbage", "2 tsp salt", "500 g mince"], "Soften the cabbage leaves in boiling water with "
        "the salt for 5 "
         "minutes. Drain. Fill with the mince."),
        (["12 lasagne sheets", "1 tbsp salt"], "Soften the lasagne in boiling water with the salt, 3 "
        "minutes. Drain."),
    ],
)  # fmt: skip
def test_what_boils_in_salt_water(lines: list[str], said: str) -> None:
    found = reading(lines, said)
    assert kinds(found) == ["boil"]
    assert eaten(found, 1) == 0.0


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        (["500 g carrots", "20 g butter", "1 tsp salt"],
         "Put the carrots in a pan with a little water, the butter and the salt. Cook until the water "
         "is gone."),
        (["200 g butter", "300 g flour", "1 tsp salt"], "Soften the butter and mix with the flour and salt."),
    ],
)  # fmt: skip
def test_what_boils_in_no_water_of_its_own(lines: list[str], said: str) -> None:
    found = reading(lines, said)
    assert kinds(found) == []
    assert eaten(found, 2) == 1.0


BROTH = ["1 whole chicken", "3 l water", "1 tbsp salt", "100 g noodles"]


@pytest.mark.parametrize(
    "back",
    [
        "Take the chicken out, pull off the meat, put it back in the pot with the noodles, cook 8 minutes.",
        "Take the chicken out, pull off the meat, put it back in the pot. Add the noodles, cook 8 minutes.",
        "Lift out the chicken, take the meat off and return it to the pot with the noodles. Cook 8 minutes.",
    ],
)
def test_meat_that_goes_back_is_eaten_with_its_broth(back: str) -> None:
    found = reading(BROTH, f"Boil the chicken in the water with the salt for 1 hour. {back}")
    assert eaten(found, 2) == 1.0


@pytest.mark.parametrize(
    "kept", ["Keep the broth for tomorrow's soup.", "Save the broth for tomorrow.", "Freeze the broth."]
)
def test_broth_for_another_day_is_not_eaten_now(kept: str) -> None:
    said = "Simmer the chicken with the salt in the water for 1 hour. Lift out the chicken and carve it."
    assert eaten(reading(BROTH[:3], f"{said} {kept}"), 2) == 0.0


@pytest.mark.parametrize(
    "boils",
    [
        "Boil 2 l water with 1 tbsp salt and cook the noodles 3 minutes. Drain.",
        "Bring 2 l water with 1 tbsp salt to the boil, add the noodles and cook 3 minutes. Drain.",
    ],
)
def test_the_salt_of_the_pot_is_in_no_dough(boils: str) -> None:
    lines = ["500 g flour", "250 ml water", "10 g salt", "2 l water", "1 tbsp salt"]
    found = reading(lines, f"Knead the flour with 250 ml water and 10 g salt. Cut into noodles. {boils}")
    assert eaten(found, 4) == 0.0
    assert component(found, "10 g salt")[1] is None


def test_what_was_rolled_out_boils_by_the_name_of_pasta() -> None:
    found = reading(
        ["400 g flour", "4 eggs", "1 tbsp salt"],
        "Knead the flour and eggs to a dough, roll out and cut. Bring a large pot of water to the boil, "
        "add the "
        "salt, drop in the pasta and cook 3 minutes. Drain.",
    )
    assert kinds(found) == ["boil"]
    assert eaten(found, 2) == 0.0
