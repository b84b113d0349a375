"""Baths of soda and marinades of a wok, as home cooks write them, each in three forms."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds


@pytest.mark.parametrize(
    "method",
    [
        "Mix the flour, yeast and salt with the warm water and knead. Shape into pretzels. Bring the cold "
        "water to a boil in a pot and add the baking soda. Dip each pretzel into the simmering bath for 30 "
        "seconds. Bake.",
        "Knead flour, yeast, salt and warm water to a dough. In a bowl, dissolve the baking soda in the cold "
        "water. Roll into ropes and twist into pretzels. Dip each pretzel into the soda solution. Bake.",
        "Make a dough of the flour, the yeast, the salt and the warm water. Boil the cold water with the "
        "baking soda. Dunk the pretzels in the boiling water and bake for 12 minutes.",
    ],
)
def test_the_soda_that_pretzels_are_dipped_in_is_poured_away(method: str) -> None:
    lines = ["500 g flour", "7 g yeast", "9 g salt", "300 ml warm water", "# Bath", "1 l cold water"]
    found = reading([*lines, "60 g baking soda"], method)
    assert eaten(found, 6) == 0.0
    assert eaten(found, 2) == 1.0


@pytest.mark.parametrize(
    "method",
    [
        "Mix the chicken with soy sauce and cornstarch. Let it marinate for 20 minutes. Combine soy sauce, "
        "oyster sauce and sugar. Stir-fry the chicken in the oil in a wok. Remove the chicken from the wok. "
        "Return it and pour in the sauce.",
        "Toss chicken, soy sauce and cornstarch in a bowl and marinate 15 minutes. Whisk soy sauce, sugar "
        "and oyster sauce. Heat the oil in a pan, fry the chicken. Remove from the pan and put it back with "
        "the sauce.",
        "Stir the chicken with the soy sauce and cornstarch; let it marinate half an hour. Whisk soy sauce, "
        "oyster sauce and sugar. Stir-fry the chicken in oil, take it out of the wok, return it and "
        "add the sauce.",
    ],
)
def test_soy_and_starch_stay_on_the_meat_and_the_other_soy_in_its_sauce(method: str) -> None:
    lines = ["For the Chicken Marinade:", "500 g chicken breast", "1 tbsp soy sauce", "1 tbsp cornstarch"]
    lines += ["For the Sauce:", "3 tbsp soy sauce", "2 tbsp oyster sauce", "1 tbsp sugar", "2 tbsp oil"]
    found = reading(lines, method)
    assert eaten(found, 2) == eaten(found, 5) == 1.0
    assert kinds(found) == ["marinate"]
    bath = next(each for each in found.recipe["components"] if each["id"] == "marinade")
    assert "3 tbsp soy sauce" not in bath["ingredients"]
