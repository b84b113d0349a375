"""Notes on what else a liquor is good for, once meat was boiled in it: they make no soup of the dish."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import kinds


@pytest.mark.parametrize(
    "note",
    [
        "Leftover liquid: soup!",
        "Leftover liquid = soup.",
        "The liquid can be used for soup.",
        "Use the liquid for a soup.",
        "Slice. The stock makes a good soup.",
        "Slice. The broth will make a good pea soup.",
        "Slice. Save the broth for a soup.",
        "Don't throw away the water: it is good for soup.",
    ],
)
@pytest.mark.parametrize(
    "boil", ["Put the beef in a pot with cold water; simmer 2 hours.", "Boil the beef for 2 hours."]
)
def test_beef_is_boiled_though_its_liquor_is_good_for_soup(boil: str, note: str) -> None:
    found = reading(["1 kg corned beef"], f"{boil} {note}")
    assert kinds(found) == ["boil"]
    assert {c["id"]: c.get("eaten_fraction") for c in found.recipe["components"]}["water"] == 0.0


@pytest.mark.parametrize(
    "said",
    [
        "Boil the beef for 2 hours. Add the onion and barley to the soup and serve.",
        "Put the beef in a pot with water, simmer 2 hours. Add the barley to make a soup.",
        "Boil the beef in water for 2 hours. Add the barley. Slice the beef, put it back in the soup.",
    ],
)
def test_what_is_served_as_a_soup_stays_one(said: str) -> None:
    assert kinds(reading(["1 kg corned beef", "1 onion", "200 g barley"], said)) == []
