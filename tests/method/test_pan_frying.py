"""Food that fries in a film of fat, all of which goes along, and fat that is much beside it."""

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


@pytest.mark.parametrize(
    ("lines", "method"),
    [
        (["9 kg cooked beans", "900 g tahini", "1 l oil"], "Tip in the beans, oil and tahini, purée."),
        (["400 g beans", "250 ml olive oil", "3 cloves garlic"], "Add the beans, garlic and oil, whizz."),
        (["400 g peppers", "1 clove garlic", "1 cup olive oil"], "Put peppers, garlic and oil in a blender."),
        (["8 kg onions", "500 ml oil", "6 kg tomatoes"], "Fry the onions in the oil. Add the tomatoes."),
        (["14 kg minced beef", "1 l oil", "4 kg carrots"], "Heat the oil, brown the mince, add the carrots."),
        (["7 kg parsnips", "400 ml oil", "2 kg leeks"], "Boil the parsnips. Sweat the leeks with the oil."),
    ],
)  # fmt: skip
def test_much_fat_beside_much_food_is_eaten(lines: list[str], method: str) -> None:
    found = reading(lines, method)
    assert "fry" not in [kind for kind, _ in steps_of(found)]
    assert component(found, next(line for line in lines if "oil" in line))[1] in (None, 1.0)


@pytest.mark.parametrize(
    ("lines", "method"),
    [
        (["9 kg potatoes", "1 l oil"], "Heat the oil to 180 °C. Fry the potatoes in batches."),
        (["500 g plantains", "500 ml oil"], "Put the oil in a pan, heat it and fry the plantains."),
        (["800 g potatoes", "1 onion", "300 ml olive oil"], "Fry the potatoes gently in the oil, drain."),
        (["600 g squid", "100 g flour", "700 ml oil"], "Pour the oil into a pot and heat. Fry the squid."),
    ],
)  # fmt: skip
def test_fat_that_food_can_lie_in_is_left(lines: list[str], method: str) -> None:
    found = reading(lines, method)
    assert "fry" in [kind for kind, _ in steps_of(found)]
    assert component(found, lines[-1] if "oil" in lines[-1] else lines[1])[1] == 0.0
