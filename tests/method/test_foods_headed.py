"""Food that a heading of the method names alone is what the steps below it work on."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import kinds, step


@pytest.mark.parametrize(
    "lines", [["2 aubergines", "500 g minced lamb"], ["500 g minced lamb", "2 aubergines"]]
)
@pytest.mark.parametrize(
    "heading",
    [
        "THE AUBERGINES",
        "Aubergines:",
        "Aubergines",
        "The aubergines:",
        "For the aubergines",
        "For the aubergines:",
        "To make the aubergines:",
        "To prepare the aubergines:",
    ],
)
def test_food_that_stands_above_the_steps_is_salted(lines: list[str], heading: str) -> None:
    below = "Slice, sprinkle with the salt and leave for half an hour. Rinse."
    found = reading([*lines, "1 tbsp salt"], heading, below)
    assert kinds(found) == ["dry_cure", "rinse"]
    assert step(found, "dry_cure")["food"] == "aubergines"


@pytest.mark.parametrize(
    "heading", ["Potatoes:", "The potatoes", "For the potatoes", "To cook the potatoes:"]
)
@pytest.mark.parametrize(
    "below",
    [
        "Boil them in water with the salt for 20 minutes and drain.",
        "Boil in water with the salt for 20 minutes and drain.",
    ],
)
def test_food_that_stands_above_the_steps_is_boiled(heading: str, below: str) -> None:
    found = reading(["500 g cod", "1 kg potatoes", "1 tbsp salt"], heading, below)
    assert step(found, "boil")["food"] == "potatoes"


@pytest.mark.parametrize("heading", ["For the aubergine sauce:", "Method:", "For the topping:"])
def test_a_heading_that_names_more_is_no_food(heading: str) -> None:
    found = reading(
        ["500 g minced lamb", "2 aubergines", "1 tbsp salt"], heading, "Sprinkle with the salt. Fry."
    )
    assert kinds(found) in ([], ["fry"])


def test_what_the_steps_name_themselves_is_worked_on() -> None:
    found = reading(
        ["500 g cod", "1 kg potatoes", "1 tbsp salt"],
        "Cod:",
        "Boil the potatoes in water with the salt for 20 minutes and drain. Fry the cod.",
    )
    assert step(found, "boil")["food"] == "potatoes"
