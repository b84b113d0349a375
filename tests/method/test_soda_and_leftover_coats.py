"""Soda rubbed into meat and rinsed off; flour of a coat that goes into the stew; salt "40 minutes before"."""

from __future__ import annotations

from typing import Any

import pytest

from .test_method_reading import reading
from .test_plain_recipes import kinds


def eaten(found: Any, line: str) -> float:
    """The eaten fraction of the component that a line stands in."""
    made = (each for each in found.recipe["components"] if line in each["ingredients"])
    return next(made).get("eaten_fraction", 1.0)


@pytest.mark.parametrize(
    "said",
    [
        "Slice the beef, rub in the bicarbonate and leave 15 minutes. Rinse and dry it well.",
        "Sprinkle the bicarbonate over the sliced beef and leave for 20 minutes, then rinse it off.",
        "Toss the beef with the bicarbonate and let it sit for 30 minutes. Rinse off and pat dry.",
        "Mix the beef with the bicarbonate. After 15 minutes rinse thoroughly and drain.",
    ],
)
def test_soda_on_meat_is_rinsed_off(said: str) -> None:
    lines = ["600 g beef", "1 tsp bicarbonate of soda", "2 tbsp soy sauce"]
    found = reading(lines, f"{said} Stir-fry with the soy sauce.")
    assert sorted(kinds(found)) == ["dry_cure", "rinse"]
    assert eaten(found, lines[1]) == 0.0


def test_soda_in_mince_stays_there() -> None:
    lines = ["500 g beef mince", "1/2 tsp bicarbonate of soda", "1 tsp salt", "1 onion"]
    found = reading(lines, "Mix the mince with the bicarbonate, salt and onion. Shape and grill.")
    assert not {"dry_cure", "rinse"} & set(kinds(found))
    assert eaten(found, lines[1]) == 1.0


BEEF = ["800 g stewing beef", "80 g flour", "2 tsp salt", "800 ml water", "2 carrots"]


@pytest.mark.parametrize(
    "said",
    [
        "Add any leftover flour to the pot with the water and carrots.",
        "Sprinkle in the rest of the flour, stir, then add the water and carrots.",
        "Stir in what is left of the flour, the water and the carrots.",
        "Add the carrots and water. Stir the remaining flour into the stew.",
    ],
)
def test_leftover_flour_that_thickens_is_eaten_with_its_salt(said: str) -> None:
    found = reading(
        BEEF, f"Mix the flour and salt and roll the beef in it. Brown. {said} Simmer for 2 hours."
    )
    assert "dredge" not in kinds(found)
    assert eaten(found, "2 tsp salt") == 1.0


@pytest.mark.parametrize(
    "said",
    [
        "Throw away the leftover flour.",
        "Shake off the excess flour.",
        "Roll the beef in the rest of the flour.",
    ],
)
def test_leftover_flour_of_which_nobody_eats_is_left(said: str) -> None:
    found = reading(BEEF, f"Mix the flour and salt and roll the beef in it. {said} Fry.")
    assert "dredge" in kinds(found)
    assert eaten(found, "2 tsp salt") == 0.0


@pytest.mark.parametrize(
    ("said", "hours"),
    [
        ("Put the salt on the steaks 40 minutes before.", 0.6667),
        ("Salt the steaks an hour before.", 1.0),
        ("Salt the steaks 45 minutes ahead.", 0.75),
        ("Two days beforehand, salt the steaks. Keep them in the fridge.", 48.0),
    ],
)
def test_salt_that_is_put_on_before_lies_so_long(said: str, hours: float) -> None:
    found = reading(["1 kg steaks", "1 tbsp salt"], f"{said} Grill.")
    cure = next(each for each in found.recipe["steps"] if each["kind"] == "dry_cure")
    assert cure["duration_h"] == pytest.approx(hours, rel=0.02)


def test_taking_out_of_the_fridge_before_is_no_cure() -> None:
    said = "Take the steaks out of the fridge 40 minutes before. Rub with the salt and grill."
    assert "dry_cure" not in kinds(reading(["1 kg steaks", "1 tbsp salt"], said))


@pytest.mark.parametrize(
    "said", ["Batter the cod and fry.", "Batter the cod. Fry.", "Batter each fillet and fry."]
)
def test_food_is_battered(said: str) -> None:
    found = reading(
        ["600 g cod fillet", "120 g flour", "200 ml beer", "1 tsp salt"],
        f"Whisk flour, beer and salt. {said}",
    )
    assert "dredge" in kinds(found)
    assert eaten(found, "1 tsp salt") == 0.0


def test_rest_of_the_flour_in_a_batter_is_a_coat_too() -> None:
    lines = ["600 g cod", "200 g flour", "2 tsp salt", "330 ml beer"]
    said = "Toss the cod in 50 g of the flour. Whisk the rest of the flour and the salt with the beer."
    found = reading(lines, f"{said} Dip the cod in the batter and fry.")
    assert "dredge" in kinds(found)
    assert eaten(found, "2 tsp salt") == 0.0
