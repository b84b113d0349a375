"""Soaks and cures whose time is told by the days on which they begin and end."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import kinds, step

COD = ["900 g salt cod", "400 g potatoes", "1 onion"]


@pytest.mark.parametrize(
    ("method", "hours"),
    [
        ("Put the cod in cold water on Thursday night and cook it on Saturday morning.", 35.0),
        (
            "On Thursday night put the cod in cold water. Change the water on Friday. On Saturday morning "
            "drain it and simmer it in fresh water for 15 minutes.",
            35.0,
        ),
        (
            "On Monday evening put the cod in cold water. On Wednesday evening drain and boil it.",
            48.0,
        ),
    ],
)
def test_it_lies_from_the_day_it_is_laid_to_the_day_it_is_cooked(method: str, hours: float) -> None:
    found = reading(COD, method)
    assert kinds(found)[0] == "soak"
    assert step(found, "soak")["duration_h"] == hours
    assert not [
        each for each in found.recipe["steps"] if each["kind"] != "soak" and each.get("duration_h", 0) > 5
    ]


def test_the_next_day_it_is_drained_though_no_object_follows() -> None:
    found = reading(
        ["1 country ham, 4 kg", "1 onion"],
        "The evening before, cover the ham with cold water. Next day drain, put it in a pot, cover with "
        "fresh water and simmer for 2 hours. Take it out and slice.",
    )
    assert kinds(found)[:2] == ["soak", "boil"]


@pytest.mark.parametrize("food", ["1.2 kg corned riblets", "900 g salted pigtails", "1 kg salted pig tails"])
def test_cuts_of_meat_by_their_small_names_are_soaked(food: str) -> None:
    found = reading(
        [food, "1 onion"],
        f"Soak the {food.rsplit(maxsplit=1)[-1]} overnight. Drain. Simmer 2 hours in fresh water.",
    )
    assert kinds(found)[0] == "soak"
