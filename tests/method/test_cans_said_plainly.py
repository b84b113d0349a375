"""A can that is spoken of as "the can", food "from a jar", and what is done instead of a brine."""

from __future__ import annotations

import pytest
from saltledger.method.forms import written_of
from saltledger.method.method_reading import read


def recipe(lines: list[str], method: str) -> dict[str, object]:
    return dict(
        read(written_of({"title": "t", "servings": 4, "ingredients": lines, "method": [method]})).recipe
    )


def drained(lines: list[str], method: str) -> list[tuple[object, bool]]:
    steps = recipe(lines, method).get("steps", [])
    assert isinstance(steps, list)
    return [(s["food"], s.get("rinsed", False)) for s in steps if s["kind"] == "drain"]


@pytest.mark.parametrize(
    ("said", "rinsed"),
    [
        ("Drain the tin and rinse.", True),
        ("Open the can and drain.", False),
        ("Tip the can into a sieve and rinse.", True),
        ("Empty the tin into a colander, let the liquid run off, then rinse.", True),
        ("Empty your can into a sieve and rinse well.", True),
    ],
)
def test_the_only_can_is_drained(said: str, rinsed: bool) -> None:
    found = drained(["1 tin chickpeas", "1 lemon", "1 onion"], f"{said} Mix with the onion and lemon.")
    assert found == [("chickpeas", rinsed)]


@pytest.mark.parametrize(
    "said", ["Dress as best you can.", "Chop the onion into the can.", "Serve in the jar, chilled."]
)
def test_no_can_is_drained(said: str) -> None:
    assert drained(["1 tin chickpeas", "1 lemon", "1 onion"], f"Mix the onion and lemon. {said}") == []


@pytest.mark.parametrize("line", ["1/2 cup roasted red peppers from a jar", "200 g roasted peppers (jarred)"])
def test_food_from_a_jar_is_drained(line: str) -> None:
    assert drained([line, "1 lemon"], "Drain the peppers and slice. Dress with lemon.")
    assert not drained([line, "1 lemon"], "Slice the peppers. Dress with lemon.")


def test_both_cans_are_not_the_jar() -> None:
    lines = ["1 can chickpeas", "1 can kidney beans", "1/2 cup roasted red peppers from a jar"]
    found = recipe(lines, "Empty both cans into a colander and rinse. Drain the peppers.").get("steps", [])
    assert isinstance(found, list)
    assert [(s["kind"], s.get("rinsed", False)) for s in found] == [("drain", True), ("drain", False)]


LOIN = ["1.6 kg pork loin", "3 litres cold water", "150 g salt", "75 g sugar", "1 tbsp fennel seeds"]


@pytest.mark.parametrize(
    "aside",
    [
        "(If you have no time, skip the brine and rub the meat with two teaspoons of salt instead.)",
        "If you are short of time, skip the brine and rub the meat with salt instead.",
        "When you are in a hurry, omit the brining: season the loin with 2 tsp salt instead.",
    ],
)
def test_what_is_done_instead_is_not_done_as_well(aside: str) -> None:
    brined = "Stir the salt and sugar into the water and submerge the loin. Refrigerate for 24 hours."
    after = "Discard the brine and dry the loin. Roast with the fennel for 90 minutes."
    with_aside, without = recipe(LOIN, f"{brined} {aside} {after}"), recipe(LOIN, f"{brined} {after}")
    assert with_aside["components"] == without["components"]
