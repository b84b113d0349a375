"""Salt in parts, between a food and its coat or between two coats."""

from __future__ import annotations

from typing import Any

import pytest

from .test_method_reading import reading
from .test_plain_recipes import kinds

LINES = ["600 g hake", "100 g flour", "2 eggs", "2 tsp salt", "oil for frying"]


def share_in_coating(found: Any, line: str) -> float:
    made = next(each for each in found.recipe["components"] if each["id"] == "coating")
    held = (each for each in made["ingredients"] if (each if isinstance(each, str) else each["line"]) == line)
    return sum(1.0 if isinstance(each, str) else each.get("share", 1.0) for each in held)


@pytest.mark.parametrize(
    ("said", "share"),
    [
        ("Salt the hake with half the salt. Whisk the eggs with the rest.", 0.5),
        ("Season the hake with half the salt and beat the eggs with the other half.", 0.5),
        ("Sprinkle a quarter of the salt on the hake. Beat the eggs with the rest of the salt.", 0.75),
        ("Season the hake with 1 tsp of the salt and put the other teaspoon in the flour.", 0.5),
        ("Season the hake with 1 tsp salt. Mix the remaining teaspoon with the flour.", 0.5),
        ("Season the flour with 1 tsp salt and the eggs with the rest of it.", 1.0),
        ("Add half the salt to the flour and half to the eggs.", 1.0),
        ("Mix the flour with the salt.", 1.0),
    ],
)
def test_each_part_of_the_salt_stays_where_it_is_put(said: str, share: float) -> None:
    found = reading(LINES, f"{said} Roll the hake in the flour, then dip it in the egg. Fry.")
    assert kinds(found)[0] == "dredge"
    assert share_in_coating(found, "2 tsp salt") == pytest.approx(share)


def test_crumbs_take_the_rest_where_flour_and_egg_are_verbs() -> None:
    lines = ["600 g pork steaks", "2 tsp salt", "60 g flour", "2 eggs", "100 g breadcrumbs", "oil for frying"]
    said = "Season the pork on both sides with 1 tsp salt. Mix the rest of the salt into the breadcrumbs."
    found = reading(lines, f"{said} Flour, egg and crumb the pork. Fry.")
    assert share_in_coating(found, "2 tsp salt") == pytest.approx(0.5)
    assert share_in_coating(found, "100 g breadcrumbs") == 1.0


@pytest.mark.parametrize(
    "said",
    [
        "Season the hake with the salt.",
        "Sprinkle half the salt on the hake. Serve with the rest of the salt.",
    ],
)
def test_salt_that_no_coat_takes_is_none_of_the_coat(said: str) -> None:
    found = reading(LINES, f"{said} Roll the hake in the flour, then dip it in the egg. Fry.")
    assert share_in_coating(found, "2 tsp salt") == 0.0
