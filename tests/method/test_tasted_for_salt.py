"""Food that is tasted for salt at last, of a list whose salt went into the water before."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten
from .test_salt_told import texts


@pytest.mark.parametrize(
    "said",
    [
        "Taste for salt.",
        "Taste it for salt.",
        "Adjust the salt.",
        "Mash and check the salt.",
        "Correct the salt.",
    ],
)
def test_salt_of_the_water_stays_in_it_where_food_is_only_tasted(said: str) -> None:
    found = reading(["400 g yam", "1 tsp salt"], f"Boil the yam with the salt. Drain. {said}")
    assert texts(found, "water") == ["1 tsp salt"]
    assert eaten(found, 1) == 0.0


def test_what_is_tasted_once_the_salt_went_with_the_water_gets_more() -> None:
    found = reading(
        ["500 g spaghetti", "1 tbsp salt", "400 g tomatoes"],
        "Boil the spaghetti in water with the salt. Drain. Cook the tomatoes and taste for salt. Mix.",
    )
    assert texts(found, "water") == ["1 tbsp salt"]
    assert texts(found) == ["salt, to taste"]


@pytest.mark.parametrize(
    "said",
    [
        "Boil the yam. Drain. Mash with the salt and taste.",
        "Boil the yam. Drain, salt it and taste for salt.",
    ],
)
def test_salt_that_goes_into_the_dish_is_eaten_though_it_is_tasted(said: str) -> None:
    assert eaten(reading(["400 g yam", "1 tsp salt"], said), 1) == 1.0
