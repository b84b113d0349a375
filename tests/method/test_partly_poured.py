"""Water of which a part is left with the food, or that goes along with it, or boils what comes next."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import kinds

BEANS = ["500 g kidney beans", "1 tbsp salt"]


def share(lines: list[str], method: str) -> float | None:
    """The share of the water of a pot that is eaten; None where there is no such component."""
    found = reading(lines, method)
    return next(
        (c.get("eaten_fraction", 1.0) for c in found.recipe["components"] if c["id"] == "water"), None
    )


@pytest.mark.parametrize(
    "said",
    [
        "Drain, leaving a cup of the water with them.",
        "Drain the beans, leaving a cup of water.",
        "Pour off the water but not all, leave about one cup.",
        "Pour off the water, leaving a cup of it.",
        "Drain but leave a cup of the liquid with them.",
        "Drain, leaving a little water.",
    ],
)
def test_a_cup_of_the_water_is_left_with_the_beans(said: str) -> None:
    left = share(BEANS, f"Boil the beans with the salt until soft. {said} Crush.")
    assert 0.08 < (left or 0.0) < 0.15


@pytest.mark.parametrize(
    ("said", "left"),
    [
        ("Pour off most of the water.", 0.2),
        ("Drain off most of the liquid.", 0.2),
        ("Pour away half the water.", 0.5),
        ("Drain.", 0.0),
        ("Drain, leaving them in the colander for 5 minutes.", 0.0),
        ("Pour off the water. Crush half of the beans.", 0.0),
        ("Drain. Add half a cup of water.", 0.0),
    ],
)
def test_a_part_of_the_water_is_poured_off(said: str, left: float) -> None:
    assert share(BEANS, f"Boil the beans with the salt until soft. {said}") == left


@pytest.mark.parametrize(
    "said",
    ["add the cod and its cooking water", "add the cod with its water", "add the cod with all its liquid"],
)
def test_water_that_goes_along_with_food_is_eaten(said: str) -> None:
    found = reading(
        ["500 g salt cod", "1 onion"], f"Boil the cod for 20 minutes. Fry the onion, {said} and simmer."
    )
    assert all(c.get("eaten_fraction", 1.0) == 1.0 for c in found.recipe["components"])


@pytest.mark.parametrize(
    "said",
    ["add the cod without its water", "add the cod", "add the cod and some water", "add the cod and onion"],
)
def test_water_that_does_not_go_along_is_not_eaten(said: str) -> None:
    assert (
        share(
            ["500 g salt cod", "1 onion"], f"Boil the cod for 20 minutes. Fry the onion, {said} and simmer."
        )
        == 0.0
    )


@pytest.mark.parametrize(
    "said",
    [
        "lift it out and keep the water. Boil the potatoes in the same water.",
        "lift it out and keep the water. Boil the potatoes in it. Drain.",
        "lift it out, saving the water. Cook the potatoes in the same water and drain.",
    ],
)
def test_water_of_salt_cod_that_is_kept_for_potatoes_is_poured_off_them(said: str) -> None:
    lines = ["750 g salt cod", "800 g potatoes"]
    assert kinds(reading(lines, f"Simmer the cod for 10 minutes, {said}")) == ["boil", "boil"]
    assert share(lines, f"Simmer the cod for 10 minutes, {said}") == 0.0
