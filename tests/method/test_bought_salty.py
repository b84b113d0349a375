"""Food that is drained and lay in nothing: out of a can, said or not."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_whole_ways import steps_of


@pytest.mark.parametrize(
    ("line", "method"),
    [
        ("15 oz chickpeas, drained and rinsed", "Stir in the chickpeas."),
        ("kidney beans 400 g drained", "Add the beans to the onion."),
        ("150 g tuna, drained", "Flake the tuna over it."),
        ("250 g sweetcorn, drained", "Stir everything together."),
        ("15 oz white beans", "Drain the beans and add them."),
        ("1 cup pinto beans", "Rinse and drain the beans, then mash."),
    ],
)
def test_what_is_drained_at_first_was_canned(line: str, method: str) -> None:
    assert [kind for kind, _ in steps_of(reading([line, "1 onion"], f"Fry the onion. {method}"))] == ["drain"]


@pytest.mark.parametrize(
    ("line", "method"),
    [
        ("1 cup dried beans, rinsed and drained", "Simmer the beans in the soup."),
        ("1 cup lentils, rinsed and drained", "Add the lentils and simmer."),
        ("250 g cooked chickpeas, drained", "Stir in the chickpeas."),
        ("300 g frozen corn, thawed and drained", "Stir in the corn."),
        ("2 cups green beans, blanched and drained", "Stir in the beans."),
    ],
)
def test_what_came_out_of_no_can_is_not_drained(line: str, method: str) -> None:
    assert not steps_of(reading([line, "1 onion", "1 l stock"], f"Fry the onion. {method}"))


def test_beans_that_boiled_are_drained_of_their_pot() -> None:
    found = reading(["250 g beans"], "Boil the beans in water for an hour. Drain the beans.")
    assert steps_of(found) == [("boil", 1.0)]


def test_oil_that_keeps_in_the_fridge_fries_at_no_four_degrees() -> None:
    method = "Deep-fry the tofu in the oil. Used oil goes bad in the fridge."
    (step,) = reading(["400 g tofu", "500 ml oil"], method).recipe["steps"]
    assert step["kind"] == "fry"
    assert step.get("temperature_c", 175) > 100
