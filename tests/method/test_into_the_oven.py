"""What was salted and goes into the oven cooks there; "on the side" of a line names no food."""

from __future__ import annotations

import pytest
from saltledger.method.forms import written_of
from saltledger.method.method_reading import read


def kinds_of(method, *lines):
    recipe = {"title": "Tern Quay", "servings": 4, "ingredients": list(lines), "method": [method]}
    return [step["kind"] for step in read(written_of(recipe)).recipe.get("steps", ())]


STEW = ("900 g stewing beef", "1 tsp salt", "500 ml beef stock", "300 g carrots")


@pytest.mark.parametrize(
    "first",
    [
        "Toss the beef with half the salt. Brown the meat in a casserole.",
        "Season the beef with half the salt and brown it.",
        "Rub the beef with half the salt, then sear it on all sides.",
    ],
)
@pytest.mark.parametrize(
    "poured",
    [
        "Pour over the stock and add the rest of the salt.",
        "Add the stock, the carrots and the rest of the salt.",
    ],
)
@pytest.mark.parametrize(
    "oven",
    [
        "Put in the oven for 2 hours.",
        "Cover and put in a low oven for 2 hours.",
        "Leave in the oven for 2 hours.",
        "Place it in the oven for 2 hours.",
    ],
)
def test_salt_that_goes_into_the_oven_cures_nothing(first, poured, oven):
    assert kinds_of(f"{first} {poured} {oven}", *STEW) == []


@pytest.mark.parametrize(
    ("method", "kinds"),
    [
        ("Rub the beef with the salt. Put it in the fridge for 2 hours.", ["dry_cure"]),
        ("Rub the beef with the salt. Leave it in the oven, turned off, for 12 hours.", ["dry_cure"]),
        ("Rub the beef with the salt and leave it for 2 hours. Put it in the oven for 1 hour.", ["dry_cure"]),
    ],
)
def test_salt_that_lies_first_does_cure(method, kinds):
    found = kinds_of(method, "900 g beef", "2 tbsp salt")
    assert [kind for kind in found if kind != "roast"] == kinds


SALTED = (
    "Slice the aubergines, strew the salt over both sides and leave them in a sieve for 45 minutes. Rinse."
)


@pytest.mark.parametrize(
    "served",
    [
        "yogurt and a chopped salad on the side",
        "rice on the side",
        "flatbread, on the side",
        "lemon for the side",
    ],
)
def test_both_sides_are_of_no_line(served):
    assert kinds_of(SALTED, "2 large aubergines", "2 tbsp coarse salt", served) == ["dry_cure", "rinse"]


@pytest.mark.parametrize("line", ["1 side of salmon", "1 salmon side, 1 kg", "800 g salmon"])
def test_a_side_of_fish_is_fish(line):
    method = "Rub the salmon with the salt and leave it for 24 hours. Rinse."
    assert kinds_of(method, line, "60 g salt") == ["dry_cure", "rinse"]
