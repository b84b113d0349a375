"""Water that is changed, and food that lies or boils on in the new; salt water for fruit; juice of kraut."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds, step

COD = ["500 g salt cod", "1 kg potatoes", "1 onion"]


@pytest.mark.parametrize(
    ("said", "hours", "changes"),
    [
        ("Soak the cod 12 hours. Change the water. Soak another 12.", 24.0, 1),
        ("Soak the cod 8 hours; new water; 8 hours.", 16.0, 1),
        ("Soak the cod for 8 hours, change the water and soak for 8 hours.", 16.0, 1),
        ("Soak the cod for 12 hours, change the water and soak for 6 hours more.", 18.0, 1),
        ("Soak the cod overnight in cold water.", 12.0, None),
        ("Soak the cod for 24 hours, changing the water every 8 hours.", 24.0, 2),
    ],
)
def test_hours_in_changed_water_add_up(said: str, hours: float, changes: int | None) -> None:
    soak = step(reading(COD, said), "soak")
    assert (soak["duration_h"], soak.get("water_changes")) == (hours, changes)


@pytest.mark.parametrize(
    ("line", "changes"),
    [
        ("500 g salt cod, soaked for 24 hours with 3 changes of water", 3),
        ("500 g salt cod, soaked overnight, water changed twice", 2),
        ("500 g salt cod, soaked overnight", None),
    ],
)
def test_a_line_tells_how_often_its_water_was_changed(line: str, changes: int | None) -> None:
    soak = step(reading([line, "2 onions"], "Fry the onions. Add the cod and cook for 10 minutes."), "soak")
    assert soak.get("water_changes") == changes


@pytest.mark.parametrize(
    "said",
    [
        "Put the cod in a pan of cold water and boil for 5 minutes. Change the water and boil again. Drain.",
        "Boil the cod for 5 minutes, pour off the water, add fresh water and boil again. Drain.",
        "Boil the cod for 5 minutes. Drain. Add fresh water and boil once more. Drain.",
        "Boil the cod for 5 minutes. Change the water, then simmer until soft. Drain.",
    ],
)
def test_salt_food_boils_in_a_second_water(said: str) -> None:
    found = reading(COD, said)
    assert len([kind for kind in kinds(found) if kind in ("boil", "simmer")]) == 2
    assert len({each["bath"] for each in found.recipe["steps"]}) == 2


def test_one_water_is_one_pot() -> None:
    assert kinds(reading(COD, "Boil the cod for 5 minutes, then simmer for 10 minutes. Drain.")) == ["boil"]


@pytest.mark.parametrize(
    "said",
    [
        "Salt the cabbage, leave 30 minutes, rinse it and boil for 10 minutes. Drain.",
        "Rub the cabbage with the salt and leave 30 minutes, then rinse and boil for 10 minutes. Drain.",
    ],
)
def test_what_was_rinsed_of_its_salt_boils(said: str) -> None:
    found = reading(["500 g cabbage", "1 tbsp salt"], said)
    assert {"dry_cure", "boil"} <= set(kinds(found))
    assert eaten(found, 1) == 0.0


@pytest.mark.parametrize(
    "said",
    [
        "Put the salt in the water and leave the apple slices in it for 10 minutes. Drain.",
        "Put 1 spoon of salt in the water and leave the apple slices there for 10 minutes. Drain.",
        "Mix the salt and the water and leave the apples there for 20 minutes. Drain.",
    ],
)
def test_apples_lie_in_salt_water(said: str) -> None:
    found = reading(
        ["1 kg apples", "1 l water", "1 tbsp salt", "100 g sugar"], f"{said} Bake with the sugar."
    )
    assert "brine" in kinds(found)
    assert eaten(found, 2) == 0.0


def test_soda_of_a_pot_is_poured_away() -> None:
    found = reading(
        ["500 g green beans", "1/2 tsp baking soda", "1 tsp salt"],
        "Boil the beans with the soda and salt for 6 minutes. Drain.",
    )
    assert (eaten(found, 1), eaten(found, 2)) == (0.0, 0.0)


@pytest.mark.parametrize("squeezes", ["Squeeze the sauerkraut.", "Squeeze out the sauerkraut."])
def test_kraut_loses_its_juice(squeezes: str) -> None:
    found = reading(
        ["1 kg sauerkraut", "2 onions"], f"{squeezes} Fry the onions, add the sauerkraut and stew."
    )
    assert kinds(found) == ["squeeze"]


@pytest.mark.parametrize("tap", ["a trickling tap", "a running tap", "cold running water"])
def test_capers_under_the_tap(tap: str) -> None:
    found = reading(["100 g salted capers", "4 tomatoes"], f"Leave the capers under {tap} for 10 minutes.")
    assert "rinse" in kinds(found)
