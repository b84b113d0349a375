"""Stock that a method says is not needed is poured away; food put with cold water for a day soaks in it."""

from __future__ import annotations

import pytest

from .test_method_reading import component, reading
from .test_plain_recipes import kinds, step

POACHED = (
    "Put the chicken in a large pan with the bay leaves and salt. Cover with cold water, bring to the boil "
    "and poach for 1 hour. Take the meat off the bones. "
)


@pytest.mark.parametrize(
    "said",
    [
        "The stock isn't needed here - freeze it for soup.",
        "The stock is not needed.",
        "The broth won't be used here.",
        "Freeze the stock for another day.",
    ],
)
def test_stock_that_is_not_needed_is_poured_away(said: str) -> None:
    found = reading(["1 chicken", "2 bay leaves", "1 tbsp salt"], POACHED + said)
    assert step(found, "boil")["duration_h"] == 1.0
    assert component(found, "1 tbsp salt") == (step(found, "boil")["bath"], 0.0)


def test_stock_that_is_eaten_is_not() -> None:
    found = reading(["1 chicken", "2 bay leaves", "1 tbsp salt"], POACHED + "Serve it in the stock.")
    assert component(found, "1 tbsp salt")[1] != 0.0


@pytest.mark.parametrize(
    "said",
    [
        "Brush the salt from the cod and put it with plenty of cold water in the fridge for 36 hours.",
        "Put the cod with cold water in the fridge for 36 hours.",
    ],
)
def test_food_that_is_put_with_cold_water_soaks(said: str) -> None:
    found = reading(["400 g salt cod"], f"{said} Change the water three times. Drain.")
    assert kinds(found) == ["soak"]
    assert step(found, "soak")["duration_h"] == 36.0


def test_what_is_put_with_hot_water_does_not() -> None:
    assert "soak" not in kinds(
        reading(["2 onions"], "Put the onions with boiling water in a pan for 5 hours.")
    )
