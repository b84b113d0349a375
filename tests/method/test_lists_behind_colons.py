"""Steps that name their foods behind a colon, and fat that is made hot for what nobody puts into it."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds, step

TROUT = ["1 l water", "60 g salt", "30 g honey", "4 bay leaves", "2 kg ice / cold water", "6 trout fillets"]
WINGS = ["1 kg chicken wings", "200 g flour", "10 g salt", "5 g paprika", "1 l oil"]


@pytest.mark.parametrize(
    "makes",
    [
        "Bring to a simmer until all is dissolved: water, salt, honey, bay leaves",
        "In a pan, heat gently to a simmer until dissolved: water, salt, honey and bay leaves",
        "Simmer until the salt is dissolved: water, bay leaves, honey, salt",
    ],
)
@pytest.mark.parametrize(
    "lowers", ["Submerge: 6 trout fillets", "Once it is cold, lower in (mind your sleeves): trout fillets"]
)
def test_a_brine_is_made_of_what_stands_behind_a_colon(makes: str, lowers: str) -> None:
    method = (
        f"{makes}\nStir in to cool: 2 kg ice / cold water\n{lowers}\nChill for 6 hours. Rinse and pat dry."
    )
    found = reading(TROUT, method)
    assert kinds(found)[:2] == ["brine", "rinse"]
    assert [eaten(found, n) for n in range(6)] == [0.0] * 5 + [1.0]
    assert step(found, "brine")["duration_h"] == 6.0


@pytest.mark.parametrize(
    "mixes",
    [
        "Mix in a paper bag: flour, salt, paprika",
        "Stir together on a plate: flour and salt, paprika",
        "Shake in a bag: salt, paprika, flour",
    ],
)
@pytest.mark.parametrize("turns", ["dredge it in there", "toss it in the bag to coat"])
def test_a_coating_is_all_that_stands_behind_a_colon(mixes: str, turns: str) -> None:
    turns = turns if "bag" in mixes else "turn it in the flour"
    method = f"{mixes}\nDry the chicken, {turns} and shake off the excess.\nFry in hot oil to 165 F inside."
    found = reading(WINGS, method)
    assert kinds(found) == ["dredge", "fry"]
    assert all(eaten(found, n) < 1.0 for n in (1, 2, 3))
    assert "temperature_c" not in step(found, "fry")  # that of the meat, not of the fat


HAKE = ["600 g hake", "150 g flour", "6 g salt", "200 ml beer", "1.5 l sunflower oil"]


@pytest.mark.parametrize(
    ("method", "hours"),
    [
        ("Heat the oil to 175C. Whisk flour, salt, beer. Dip the hake in the batter. Drain on paper.", None),
        (
            "Oil to 180C. Mix flour, salt and beer. Coat the hake in batter. In for 6 minutes, then a rack.",
            0.1,
        ),
        (
            "Whisk flour, salt, beer. Coat the hake in batter. Heat the oil to 180C, 6 minutes until gold.",
            0.1,
        ),
        ("Heat the oil in a deep pan. Dredge the hake in flour and salt. Cook until gold, 6 minutes.", 0.1),
    ],
)
def test_what_is_coated_fries_in_the_deep_fat_that_was_heated(method: str, hours: float | None) -> None:
    found = reading(HAKE, method)
    assert kinds(found) == ["dredge", "fry"]
    assert eaten(found, 4) < 1.0
    assert step(found, "fry").get("duration_h") == hours


@pytest.mark.parametrize(
    ("fat", "method"),
    [
        ("2 tbsp oil", "Dredge the hake in flour and salt. Heat the oil. Drain on paper."),
        (
            "250 ml oil",
            "Whisk the oil into a mayonnaise. Dredge the hake in flour and salt. Bake 20 minutes.",
        ),
        ("250 ml oil", "Dredge the hake in flour and salt. Put on an oiled tray and bake for 20 minutes."),
    ],
)
def test_no_deep_fat_no_frying(fat: str, method: str) -> None:
    assert "fry" not in kinds(reading([*HAKE[:3], fat], method))


def test_the_ingredients_of_a_batter_are_none_that_stand_under_another_heading() -> None:
    lines = [*HAKE, "Caper sauce:", "100 g mayonnaise", "20 g capers", "Salt"]
    method = (
        "Mix the batter ingredients. Dip the hake into the batter. Fry in the oil. Stir the sauce together."
    )
    found = reading(lines, method)
    assert [eaten(found, n) for n in (6, 7, 8)] == [1.0] * 3
    assert all(eaten(found, n) < 1.0 for n in (1, 2, 3))
