"""What is drained, and how much of it: cans, garlic, what is boiled on another day."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds


def drained(line: str, method: str) -> float:
    """The share of a line that is drained."""
    found = reading([line, "1 onion"], method)
    foods = {step["food"] for step in found.recipe.get("steps", ()) if step["kind"] == "drain"}
    return sum(each.get("share", 1.0) for each in found.lines if each["component"] in foods)


@pytest.mark.parametrize(
    ("line", "method", "share"),
    [
        ("4 tins borlotti beans", "Drain three of the tins and tip them all in with the onion.", 0.75),
        ("2 cans black-eyed peas", "Drain the peas but leave one can undrained. Add to the onion.", 0.5),
        ("3 (400 g) tins lentils", "Pour them into the pan: drain 2 tins, keep one with its liquid.", 2 / 3),
        ("2 tins borlotti beans", "Drain both tins and fold in the onion.", 1.0),
        ("2 (400 g) tins borlotti beans", "Drain the 400 g tins of beans. Add the onion.", 1.0),
    ],
)
def test_as_many_cans_are_drained_as_the_method_says(line: str, method: str, share: float) -> None:
    assert drained(line, method) == pytest.approx(share, abs=1e-3)


@pytest.mark.parametrize(
    "method",
    [
        "Simmer the beef and potatoes in the stock for an hour. When you reheat it, boil some more potatoes.",
        "Stew the beef, potatoes and stock for an hour. Leftovers: boil fresh potatoes to go with them.",
        "Cook everything for an hour. Whenever you defrost a portion, boil a few potatoes in salted water.",
    ],
)
def test_what_is_boiled_on_another_day_is_no_pot_of_this_one(method: str) -> None:
    assert kinds(reading(["600 g beef", "500 g potatoes", "700 ml stock"], method)) == []


@pytest.mark.parametrize(
    ("method", "eaten_share"),
    [
        ("Boil the parsnips and garlic in salted water for 15 minutes. Drain and mash.", 1.0),
        ("Boil the parsnips with the garlic in salted water until soft. Drain them in a colander.", 1.0),
        ("Boil the parsnips with the garlic in salted water. Drain, discarding the garlic, and mash.", 0.0),
    ],
)
def test_garlic_stays_in_the_colander_unless_it_is_thrown_away(method: str, eaten_share: float) -> None:
    assert eaten(reading(["1 kg parsnips", "6 cloves garlic"], method), 1) == eaten_share


CLAMS = ["3 (200 g) tins clams", "4 potatoes", "500 ml milk"]


@pytest.mark.parametrize(
    ("method", "share"),
    [
        ("Drain the clams, saving the juice. Cook the potatoes in the clam juice, add clams and milk.", 0.0),
        ("Drain the clams and set their liquid aside. Warm the milk, add the clams and their liquid.", 0.0),
        ("Drain the clams, reserving the liquid. Warm all. Add some of the reserved liquid if needed.", 1.0),
        ("Drain the clams, keeping 105 ml of the liquid. Stir the kept liquid into the milk.", 0.5),
        ("Drain and rinse the clams. Simmer the potatoes in the milk, add the clams.", 1.0),
    ],
)
def test_liquid_of_cans_that_is_kept_and_added_is_not_drained(method: str, share: float) -> None:
    found = reading(CLAMS, method)
    foods = {step["food"] for step in found.recipe.get("steps", ()) if step["kind"] == "drain"}
    drained_share = sum(
        each.get("share", 1.0) for each in found.lines if each["component"] in foods and each["index"] == 0
    )
    assert drained_share == pytest.approx(share, abs=0.01)


@pytest.mark.parametrize(
    ("line", "method"),
    [
        ("200 g dried lentils", "Simmer the lentils for 20 minutes. Drain. Toss with the onion."),
        ("200 g dried chickpeas", "Soak the chickpeas overnight. Drain, rinse and simmer for 1 hour. Drain."),
        ("200 g borlotti beans", "Cook the beans for an hour, until soft. Drain and mash with the onion."),
        ("200 g pearl barley", "Cook the barley for 30 minutes. Drain it well and toss with the onion."),
        ("200 g lentils", "Simmer the lentils for 20 minutes. Mix the drained lentils with the onion."),
    ],
)
def test_dry_pulses_and_grains_that_are_drained_were_boiled(line: str, method: str) -> None:
    assert kinds(reading([line, "1 onion"], method))[-1] == "boil"


@pytest.mark.parametrize(
    "method",
    [
        "Simmer the lentils for 20 minutes. Add the onion and the salt.",
        "Cook the lentils for 20 minutes with the onion. Season with the salt.",
        "Fry the onion. Stir in the lentils, and simmer the lentils for 20 minutes. Add the salt.",
    ],
)
def test_pulses_that_nobody_drains_are_eaten_with_their_water(method: str) -> None:
    found = reading(["200 g dried lentils", "1 onion", "1 tsp salt"], method)
    assert kinds(found) == []
