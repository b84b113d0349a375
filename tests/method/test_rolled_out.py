"""Filled dough that goes into boiling water under a name that no line has."""

from __future__ import annotations

import pytest

from .test_method_reading import component, reading
from .test_whole_ways import steps_of

LINES = ["350 g flour", "2 eggs", "100 ml milk", "400 g curd cheese", "1 onion"]
DOUGH = "Knead the flour, eggs and milk. Roll out the dough, cut rounds, fill with the curd cheese and onion."
POT = "Bring a large pot of salted water to the boil."


@pytest.mark.parametrize(
    ("into", "hours"),
    [
        ("Drop the uszka in by handfuls and cook till they rise, 3 minutes.", 0.05),
        ("Cook the maultaschen in batches until they rise.", None),
        ("Lower in the parcels and simmer for 6 minutes.", 0.1),
        ("Gently slip in the half-moons; when they float, scoop them out.", None),
        ("Drop in the kreplach, 5 minutes.", 0.0833),
        ("Drop the tortelloni into the water and cook for 4 minutes.", 0.0667),
    ],
)
@pytest.mark.parametrize("apart", [False, True])
def test_what_was_rolled_out_boils_whole(into: str, hours: float | None, *, apart: bool) -> None:
    method = [DOUGH, f"{POT} {into}"] if apart else [f"{DOUGH} {POT} {into}"]
    found = reading(LINES, *method)
    assert steps_of(found) == [("boil", hours)]
    boiled = found.recipe["steps"][0]["food"]
    assert {component(found, line)[0] for line in LINES} == set(boiled)


@pytest.mark.parametrize(
    "into",
    ["Add the lid and wait.", "Fry the pasties in butter.", "Steam the parcels over it for 10 minutes."],
)
def test_dough_that_never_touches_the_water_does_not_boil(into: str) -> None:
    assert steps_of(reading(LINES, f"{DOUGH} {POT} {into}")) == []
