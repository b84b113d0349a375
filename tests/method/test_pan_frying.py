"""Coated food that fries in a film of fat: a step of its own, all of whose fat goes along."""

from __future__ import annotations

import pytest

from .test_method_reading import component, reading
from .test_whole_ways import steps_of

COATS = ["100 g breadcrumbs", "2 eggs"]


@pytest.mark.parametrize(
    ("food", "method", "hours"),
    [
        ("4 pork chops", "Heat the oil in a pan, add the chops and cook for 4 minutes on each side.", 0.1333),
        ("4 plaice fillets", "Warm the oil in a skillet and cook the fish until golden.", None),
        ("600 g turkey escalopes", "Sauté the turkey in the oil, 3 minutes a side.", 0.1),
        (
            "2 chicken breasts",
            "Fry the chicken in the oil for 5 minutes. Remove the chicken. Simmer 9 minutes.",
            0.0833,
        ),
    ],
)
def test_what_was_coated_fries_in_little_fat(food: str, method: str, hours: float | None) -> None:
    lines = [food, *COATS, "2 tbsp oil"]
    found = reading(lines, f"Dip the {food.rsplit(maxsplit=1)[-1]} in the egg, then in the crumbs. {method}")
    assert steps_of(found) == [("dredge", None), ("fry", hours)]
    assert component(found, "2 tbsp oil") == ("fat", 1.0)


@pytest.mark.parametrize(
    "method",
    [
        "Drizzle with the oil and cook in the oven at 200 °C for 25 minutes.",
        "Brown in the oil and bake at 180 °C.",
        "Bake for 25 minutes. Fry the onion in the oil.",
    ],
)
def test_what_goes_into_the_oven_is_not_fried(method: str) -> None:
    lines = ["4 chicken breasts", *COATS, "2 tbsp oil", "1 onion"]
    found = reading(lines, f"Dip the chicken in the egg, then in the crumbs. {method}")
    assert "fry" not in [kind for kind, _ in steps_of(found)]


def test_halves_of_a_fruit_halve_no_salt() -> None:
    found = reading(["2 lemons", "salt", "200 ml wine"], "Add wine, the lemon halves, 1/2 tsp salt and stir.")
    assert {"line": "1/2 tsp salt"} in found.recipe["components"][0]["ingredients"]
