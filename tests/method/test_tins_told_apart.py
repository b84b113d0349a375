"""Tins of which only some are drained, and foods taken out of their jar."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import kinds

TINS = ["1 tin chopped tomatoes", "1 tin red kidney beans", "1 tin sweetcorn"]
JAR = ["1 jar olives in brine", "1 orange"]


def drained(lines: list[str], method: str) -> set[str]:
    found = reading(lines, method)
    foods = [each["food"] for each in found.recipe.get("steps", ()) if each["kind"] == "drain"]
    return {name for food in foods for name in ([food] if isinstance(food, str) else food)}


@pytest.mark.parametrize(
    ("said", "foods"),
    [
        ("Add the tins, all drained except the tomatoes.", {"kidney-beans", "sweetcorn"}),
        ("Add the tins, all drained but not the tomatoes.", {"kidney-beans", "sweetcorn"}),
        ("Drain everything but not the tomatoes.", {"kidney-beans", "sweetcorn"}),
        ("Drain the beans but not the corn.", {"kidney-beans"}),
        ("Drain the corn, but not the beans, and add to the tomatoes.", {"sweetcorn"}),
        ("Add the beans undrained and the corn drained.", {"sweetcorn"}),
        ("Add the tomatoes, the beans drained and the corn with its liquid.", {"kidney-beans"}),
        ("Add the tomatoes and the beans, juice included.", set()),
        ("Add the tomatoes and the beans, juices too.", set()),
    ],
)
def test_only_the_tins_that_are_told_are_drained(said: str, foods: set[str]) -> None:
    assert drained(TINS, said) == foods


@pytest.mark.parametrize("told", ["the (drained) tuna", "the drained tuna", "the tuna, drained,"])
def test_an_adjective_tells_that_tuna_is_drained(told: str) -> None:
    assert drained(["1 tin tuna in brine", "3 tbsp mayo"], f"Mix {told} with the mayo.") == {"tuna"}


@pytest.mark.parametrize(
    "said",
    [
        "Spoon the olives out of the jar, leaving the liquid behind.",
        "Fork the olives out of their brine and mix with the orange.",
        "Lift the olives out of the jar.",
    ],
)
def test_olives_that_are_spooned_out_leave_their_brine(said: str) -> None:
    assert kinds(reading(JAR, said)) == ["drain"]


@pytest.mark.parametrize("said", ["Spoon the olives out onto a plate.", "Spoon the olives into a bowl."])
def test_what_is_spooned_onto_a_plate_is_not_drained(said: str) -> None:
    assert kinds(reading(JAR, said)) == []


@pytest.mark.parametrize(
    "said",
    [
        "Add the tins. I never drain the beans.",
        "Add the tins (I don't bother draining them).",
        "Tip in the tins - don't even drain them.",
        "Add the tins. There is no need to bother draining.",
    ],
)
def test_tins_that_nobody_bothers_to_drain_are_not_drained(said: str) -> None:
    assert drained(TINS, said) == set()


@pytest.mark.parametrize("wait", ["leave", "leave them for 10 minutes", "let them stand"])
def test_what_is_drained_meanwhile_is_not_what_waits(wait: str) -> None:
    lines = ["600 g tomatoes", "1 tsp salt", "1 tin tuna", "3 tbsp oil"]
    said = f"Slice the tomatoes, season with the salt and {wait} while you drain the tuna. Add the oil."
    found = reading(lines, said)
    assert kinds(found) == ["drain"]
    assert drained(lines, said) == {"tuna"}


def test_everything_else_but_one_thing_goes_in() -> None:
    lines = ["150 g macaroni", "1 litre vegetable stock", "2 carrots", "1 tsp salt"]
    said = "Everything else but the macaroni goes in, simmer 20 minutes. Put in the macaroni, 8 more minutes."
    assert all(each.get("eaten_fraction", 1.0) == 1.0 for each in reading(lines, said).recipe["components"])
