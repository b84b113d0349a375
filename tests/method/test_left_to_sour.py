"""Vegetables that one clause lays in brine or salt and leaves to ferment."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds, step

CARROTS = ["1 kg carrots", "30 g salt", "1 l water"]


@pytest.mark.parametrize(
    "said",
    [
        "Ferment the carrots in the brine for 10 days.",
        "Ferment the carrots in the water and salt for 10 days.",
        "Ferment the carrots with the salt and water for 10 days.",
        "Dissolve the salt in the water and ferment the carrots in it for 10 days.",
        "Make a brine with the salt and water. Ferment the carrots in the brine for 10 days.",
        "Dissolve the salt in the water. Put the carrots in it and ferment for 10 days.",
    ],
)
def test_what_sours_in_brine_leaves_it_behind(said: str) -> None:
    found = reading(CARROTS, said)
    assert kinds(found) == ["ferment"]
    assert step(found, "ferment")["duration_h"] == 240.0
    assert (eaten(found, 0), eaten(found, 1), eaten(found, 2)) == (1.0, 0.0, 0.0)


def test_salted_water_takes_the_salt_of_the_list() -> None:
    found = reading(CARROTS[:2], "Ferment the carrots in salted water for 10 days.")
    assert kinds(found) == ["ferment"]
    assert eaten(found, 1) == 0.0


def test_cabbage_sours_in_its_salt_and_may_be_rinsed() -> None:
    cabbage = ["1 cabbage", "20 g salt"]
    said = "Ferment the cabbage with the salt for 3 weeks."
    assert kinds(reading(cabbage, said)) == ["ferment"]
    assert eaten(reading(cabbage, said), 1) == 1.0
    assert kinds(reading(cabbage, f"{said} Rinse before eating.")) == ["ferment", "rinse"]


@pytest.mark.parametrize(
    "said", ["Ferment the dough with the salt for 10 days.", "Fry the carrots with the salt for 10 minutes."]
)
def test_nothing_else_sours(said: str) -> None:
    assert "ferment" not in kinds(reading(CARROTS, said))
