"""Meat that boils in fresh water once it has soaked or was rinsed, in words that do not command it."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import kinds, step


@pytest.mark.parametrize(
    "said",
    [
        "Then it is boiled in fresh water for 2 hours.",
        "Next it is simmered in clean water for 2 hours.",
        "The next morning it is boiled in new water for 2 hours.",
        "It is boiled in plenty of water for 2 hours.",
        "Next day it is cooked in the fresh water for 2 hours.",
        "Bring it up in clean water and cook for 2 hours.",
        "Bring it slowly up in fresh water and cook for 2 hours.",
        "Cover with fresh water and let it draw at 85 C for 2 hours.",
        "Cover with fresh water and leave it at 80 C for 2 hours.",
    ],
)
def test_what_has_soaked_is_boiled(said: str) -> None:
    found = reading(["1 kg salt beef"], f"Lay the beef in cold water overnight. {said}")
    assert [kind.replace("simmer", "boil") for kind in kinds(found)] == ["soak", "boil"]
    assert found.recipe["steps"][1]["duration_h"] == 2.0


def test_the_heat_of_water_that_meat_draws_in_is_told() -> None:
    found = reading(
        ["1 kg ham"], "Rinse the ham. Cover with fresh water and let it draw at 85 C for two hours."
    )
    assert kinds(found) == ["boil"]
    assert (step(found, "boil")["temperature_c"], step(found, "boil")["duration_h"]) == (85.0, 2.0)


@pytest.mark.parametrize(
    "said",
    [
        "The water it was soaked in should be thrown away.",
        "The water it was soaked in goes down the sink.",
        "Bring it up to room temperature.",
        "Cover it with a cloth and keep it at 4 C for 2 hours.",
    ],
)
def test_nothing_boils_by_words_that_look_back_or_heat_no_water(said: str) -> None:
    found = reading(["1 kg salt beef"], f"Soak the beef in cold water overnight. {said} Roast for 2 hours.")
    assert kinds(found) == ["soak", "roast"]
