"""Batters and seasoned flour in plain words: "dip the cod in it", "coat the fish", "in seasoned flour"."""

from __future__ import annotations

from typing import Any

import pytest

from .test_method_reading import reading
from .test_plain_recipes import kinds

BATTER = ["500 g cod", "150 g flour", "200 ml beer", "1 tsp salt"]
FLOUR = ["1 kg chicken", "100 g flour", "2 tsp salt"]


def coating(found: Any) -> set[str]:
    made = next(each for each in found.recipe["components"] if each["id"] == "coating")
    return {each if isinstance(each, str) else each["line"] for each in made["ingredients"]}


DIPPED = [
    "Make a batter with the flour, beer and salt. Dip the cod in it and fry.",
    "Whisk flour, beer and salt. Dip the cod in this and fry.",
    "Whisk flour, beer and salt. Coat the cod and fry.",
    "Whisk flour, beer and salt. Dip the cod in the batter and fry.",
]
FLOURED = [
    "Mix flour and salt. Coat the chicken. Fry.",
    "Mix flour and salt. Lightly dust the chicken. Fry.",
    "Mix flour and salt on a plate and coat the chicken. Fry.",
    "Coat the chicken in seasoned flour. Fry.",
    "Salt the flour. Turn the chicken in it. Fry.",
    "Season the flour. Dredge the chicken in the flour. Fry.",
    "Coat the chicken in the flour and salt mixture. Fry.",
]


@pytest.mark.parametrize(
    ("lines", "said"), [*((BATTER, said) for said in DIPPED), *((FLOUR, said) for said in FLOURED)]
)
def test_the_coating_is_all_that_was_just_stirred_with_its_salt(lines: list[str], said: str) -> None:
    found = reading(lines, said)
    assert "dredge" in kinds(found)
    assert coating(found) == set(lines[1:])


@pytest.mark.parametrize(
    "said",
    [
        "Season the chicken with the salt. Coat in seasoned flour. Fry.",
        "Coat the chicken in the flour. Fry and sprinkle with the salt.",
    ],
)
def test_salt_of_the_chicken_is_not_that_of_the_coating(said: str) -> None:
    assert FLOUR[2] not in coating(reading(FLOUR, said))


def test_what_is_stirred_with_soy_sauce_and_starch_is_no_batter() -> None:
    lines = ["500 g beef", "2 tbsp soy sauce", "1 tbsp cornflour"]
    found = reading(lines, "Mix soy sauce and cornflour. Toss the beef in it. Fry.")
    assert "dredge" not in kinds(found)
