"""Marinades of which a part is set aside before food lies in them, or thrown away or kept after it did."""

from __future__ import annotations

from typing import Any

import pytest
from saltledger.method.forms import written_of
from saltledger.method.method_reading import Reading, read

LINES = ["900 g turkey thigh, in strips", "150 ml tamari", "50 ml orange juice", "1 tbsp honey", "2 tbsp oil"]
STIR = "Stir the tamari, orange juice, honey and oil together. "
LIES = STIR + "Add the turkey and chill for 5 hours. "
BREAM = ["700 g sea bream, diced", "200 ml lemon juice", "2 tsp salt", "1 fennel bulb", "dill"]
SOURED = "Put the bream in a dish with the lemon juice and salt. Leave for 25 minutes. "


def reading_of(method: str, lines: list[str] = LINES) -> Reading:
    return read(written_of({"title": "Quay plate", "servings": 4, "ingredients": lines, "method": [method]}))


def marinade(reading: Reading) -> dict[str, Any]:
    step = next(each for each in reading.recipe["steps"] if each["kind"] == "marinate")
    return next(each for each in reading.recipe["components"] if each["id"] == step["bath"])


def share_in_dish(reading: Reading, line: str) -> float:
    dish = next(each for each in reading.recipe["components"] if each["id"] == "dish")
    return next(each["share"] for each in dish["ingredients"] if line in each["line"])


@pytest.mark.parametrize(
    "end",
    [
        "Throw half of the marinade away and boil the other half for a sauce.",
        "Pour away half the marinade. Roast the turkey with the rest.",
        "Drain off half of the marinade, then bake the turkey in the rest.",
        "Keep half of the marinade for the sauce and throw out the rest.",
        "Pour half of the marinade into a small pan and boil it; discard the rest.",
    ],
)
def test_half_of_a_marinade_is_thrown_away(end: str) -> None:
    reading = reading_of(LIES + end)
    assert marinade(reading)["eaten_fraction"] == pytest.approx(0.5)
    assert all(each["id"] != "left-over" for each in reading.recipe["components"])


@pytest.mark.parametrize(
    ("aside", "share"),
    [
        ("Put half in a bag with the turkey and chill 5 hours; keep the other half for basting.", 0.5),
        ("Pour half of the marinade over the turkey, saving the rest to serve. Chill 5 hours.", 0.5),
        ("Pour two thirds of it over the turkey; the rest is for the table. Chill 5 hours.", 1 / 3),
        ("Take out half and put it in the fridge for later; add the turkey to the rest for 5 hours.", 0.5),
        ("Spoon off a quarter for brushing later. Add the turkey to the rest and chill 5 hours.", 0.25),
        ("Keep some of the marinade back. Add the turkey to the rest and chill 5 hours.", 0.25),
    ],
)
def test_what_is_kept_back_before_is_eaten(aside: str, share: float) -> None:
    reading = reading_of(f"{STIR}{aside} Drain the turkey, throwing away its marinade, and grill.")
    assert marinade(reading)["eaten_fraction"] == 0.0
    assert share_in_dish(reading, "tamari") == pytest.approx(share, abs=0.001)


@pytest.mark.parametrize(
    "aside",
    [
        "Pour off 60 ml and keep for later.",
        "Remove 1/4 cup to use as a sauce later.",
        "Put 4 tablespoons in a small bowl for basting.",
    ],
)
def test_what_is_kept_back_by_measure(aside: str) -> None:
    method = f"{STIR}{aside} Add the turkey to the rest and chill 5 hours. Discard the marinade and grill."
    assert 0.2 < share_in_dish(reading_of(method), "tamari") < 0.35


def test_so_much_of_a_juice_as_is_reserved_is_eaten() -> None:
    method = SOURED + "Drain and reserve 50 ml of the juice; toss the bream with the fennel and this juice."
    assert 0.2 < marinade(reading_of(method, BREAM))["eaten_fraction"] < 0.3


@pytest.mark.parametrize(
    "begins",
    [
        "Salt the bream. Add the lemon juice. Let stand 10 minutes. ",
        "In a bowl combine bream, lemon juice and salt. Wait 10 minutes. ",
        'Squeeze the lemon juice over the bream, add the salt. Leave to "cook" in the juice for 25 minutes. ',
    ],
)
@pytest.mark.parametrize(
    "ends",
    [
        "Lift the bream onto plates and moisten with a few spoonfuls of the juice.",
        "Spoon onto plates with a little of the juice.",
        "Drain, but keep a few spoonfuls of the juice to dress it.",
        "Lift out the bream and discard most of the juice.",
    ],
)
def test_fish_soured_for_minutes_keeps_a_little_of_its_juice(begins: str, ends: str) -> None:
    assert 0.1 < marinade(reading_of(begins + ends, BREAM))["eaten_fraction"] < 0.4


def test_meat_that_waits_ten_minutes_is_only_seasoned() -> None:
    method = STIR + "Add the turkey and let stand 10 minutes. Stir-fry it all until sticky."
    assert "marinate" not in [each["kind"] for each in reading_of(method).recipe.get("steps", [])]
