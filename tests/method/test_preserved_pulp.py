"""Preserved lemons of which only the peel is eaten."""

from __future__ import annotations

import pytest
from saltledger.method.forms import written_of
from saltledger.method.method_reading import read

TAGINE = ["8 chicken thighs", "1 preserved lemon", "2 onions", "1/2 tsp salt"]


def eaten_share(lemon: str, method: str) -> float:
    """How much is eaten of the preserved lemon."""
    lines = [lemon if "lemon" in line else line for line in TAGINE]
    made = read(written_of({"title": "t", "servings": 4, "ingredients": lines, "method": [method]}))
    eaten = {c["id"]: c.get("eaten_fraction", 1.0) for c in made.recipe["components"]}
    told = [line for line in made.lines if line["index"] == 1]
    return sum(eaten[each["component"]] * each.get("share", 1.0) for each in told)


@pytest.mark.parametrize(
    "said",
    [
        "Quarter the preserved lemon, scrape out the pulp and bin it. Rinse the peel and slice it.",
        "Pull the flesh out of the preserved lemon and throw it away. Rinse the peel and cut in strips.",
        "Remove and discard the pulp of the lemon; chop the rind.",
        "Halve the lemon, discard the flesh and slice the peel thinly.",
        "Scoop out the insides of the preserved lemon and cut the skin in slivers.",
    ],
)
def test_pulp_is_left_behind(said: str) -> None:
    method = f"{said} Brown the chicken with the onions and salt and simmer for 45 minutes with the lemon."
    assert 0.3 < eaten_share("1 preserved lemon", method) < 0.6


def test_pulp_that_a_line_throws_away() -> None:
    method = "Brown the chicken and the onions, add the lemon and simmer for 45 minutes."
    assert 0.3 < eaten_share("1 preserved lemon, pulp discarded, peel sliced", method) < 0.6


@pytest.mark.parametrize(
    ("lemon", "said"),
    [
        ("1 preserved lemon", "Rinse the lemon and chop it, flesh and all."),
        ("1 preserved lemon", "Scrape out the pulp of the lemon and chop it into the sauce; slice the peel."),
        (
            "1 preserved lemon",
            "Separate the peel of the lemon, keep the flesh and mash it into the marinade.",
        ),
        ("1 lemon", "Scrape out the pulp of the lemon and bin it."),
    ],
)
def test_pulp_that_is_eaten(lemon: str, said: str) -> None:
    method = f"{said} Brown the chicken with the onions and salt and simmer for 45 minutes with the lemon."
    assert eaten_share(lemon, method) == pytest.approx(1.0)
