"""Grated food and batters: salted, squeezed, dropped into hot fat, with hints at the end."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds, step

CAKES = ["1 kg potatoes", "1 onion", "2 eggs", "1 tsp salt", "4 tbsp flour", "oil for frying"]


@pytest.mark.parametrize(
    "fries",
    [
        "Heat oil in a skillet to a depth of 1 cm. Drop spoonfuls of the mixture into it. "
        "Cook 5 minutes on each side.",
        "Pour 1 cm of oil into a pan and heat. Place dollops of the batter in the pan and cook until golden.",
        "Heat plenty of oil in a wok. Spoon the mixture into the wok and cook on both sides.",
    ],
)
def test_a_mixture_that_goes_into_a_pan_of_deep_fat_fries(fries: str) -> None:
    method = f"Grate the potatoes and onion. Stir in the eggs, salt and flour. {fries} Drain on paper."
    hint = "For crisper cakes, squeeze as much juice as you can out of the grated potatoes."
    found = reading(CAKES, f"{method}\n{hint}")
    assert kinds(found) == ["fry"]
    assert eaten(found, 3) == 1.0


def test_patties_in_a_little_oil_are_in_no_deep_fat() -> None:
    method = (
        "Mix beef and salt. Form patties. Heat a little oil in a pan. Put them in the pan, cook 8 minutes."
    )
    assert kinds(reading(["500 g ground beef", "1 tsp salt", "oil for frying"], method)) == []


@pytest.mark.parametrize(
    "salts",
    ["Grate the courgettes, salt and leave 20 minutes.", "Slice them, salt, and let stand 20 minutes."],
)
def test_what_is_cut_and_salted_stands_in_its_salt(salts: str) -> None:
    found = reading(
        ["2 courgettes", "1 tsp salt", "1 egg"], f"Wash the courgettes. {salts} Squeeze out the water."
    )
    assert kinds(found) == ["dry_cure", "squeeze"]
    assert step(found, "dry_cure")["duration_h"] == pytest.approx(1 / 3, rel=0.01)


def test_salt_of_a_list_of_what_is_cut_is_no_verb() -> None:
    found = reading(
        ["500 g cabbage", "1 tsp salt", "2 tbsp vinegar"], "Shred the cabbage. Salt q.b. and vinegar."
    )
    assert kinds(found) == []


@pytest.mark.parametrize(
    "tops_up",
    [
        "(Add boiling water if needed.)",
        "Top up with boiling water as necessary.",
        "Pour in more boiling water when it gets dry.",
    ],
)
def test_water_that_makes_up_for_what_boils_away_is_no_other_pot(tops_up: str) -> None:
    lines = ["500 g beans", "1 sausage", "1 kg potatoes", "1 tsp salt"]
    method = f"Simmer the beans in water for 2 hours. Add the sausage. {tops_up} Add the potatoes."
    assert kinds(reading(lines, f"{method} Cook 30 minutes.")) == []
