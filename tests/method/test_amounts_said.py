"""Salt of one line without an amount that the method measures here and only strews there."""

from __future__ import annotations

import pytest
from saltledger.method.left_to_the_cook import grams_of

from .test_method_reading import reading
from .test_whole_ways import steps_of

LIST = ["1 kg stewing beef", "salt", "2 onions", "1 l unsalted stock"]


def salts(lines: list[str], *method: str) -> dict[str, list[str]]:
    """By component, its salt as texts."""
    found: dict[str, list[str]] = {}
    for line in reading(lines, *method).recipe["components"]:
        texts = [each if isinstance(each, str) else each["line"] for each in line["ingredients"]]
        if own := [text for text in texts if text.lower().endswith(("salt", "salt and pepper"))]:
            found[line["id"]] = own
    return found


@pytest.mark.parametrize(
    ("method", "wanted"),
    [
        (
            "Brown the beef. Soften the onions with 1 tsp salt. Add stock and 1/2 tsp salt.",
            ["1 tsp", "1/2 tsp"],
        ),
        (
            "Brown the beef. Stir 1 tsp. salt into the onions. Pour in the stock; add 1 tsp. salt.",
            ["1 tsp"] * 2,
        ),
        ("Brown the beef. Soften the onions with 1 tsp salt. Taste for salt.", ["1 tsp"]),
        ("Season the beef with salt. Add the onions with 1 tsp salt.", ["1 tsp", "4 to 9 g"]),
        ("Rub salt into the beef. Brown it. Add the onions, stock and 2 tsp salt.", ["2 tsp", "4 to 9 g"]),
    ],
)
def test_what_is_measured_counts_in_every_place(method: str, wanted: list[str]) -> None:
    assert salts(LIST, method) == {"dish": [f"{each} salt" for each in wanted]}


def test_the_soak_of_the_rice_takes_only_its_own_spoon() -> None:
    found = salts(
        ["300 g rice", "salt and pepper", "600 g aubergines", "1 l stock"],
        "Cover the rice with water, put in 1 tsp. salt and leave it to soak.",
        "Toss the aubergines with salt and pepper and roast them.",
        "Drain the rice. Stir 1 tsp. salt into the stock, pour over the rice and simmer until dry.",
    )
    assert found == {"soaking-water": ["1 tsp salt"], "dish": ["1 tsp salt", "1.2 to 3 g salt"]}


def test_flour_takes_the_salt_that_is_measured_into_it() -> None:
    found = salts(
        ["4 pork chops, 150 g each", "salt", "100 g flour", "1 egg", "100 g breadcrumbs", "lemon juice"],
        "Season the chops with salt. Mix the flour with 1/2 tsp salt on a plate.",
        "Dip the chops in flour, egg and breadcrumbs. Fry. Stir the lemon juice with 1/4 tsp salt.",
    )
    assert found["coating"] == ["1/2 tsp salt"]
    assert found["dish"][0] == "1/4 tsp salt"


def test_draining_one_food_wrings_no_other() -> None:
    lines = ["300 g rice", "1 cauliflower", "salt", "1 l stock"]
    method = "Soak the rice. Toss the cauliflower with salt. Drain the rice and lay it over the cauliflower."
    assert "dry_cure" not in [kind for kind, _ in steps_of(reading(lines, method))]


def test_how_much_seasons_is_asked() -> None:
    found = reading(LIST, "Season the beef with salt. Add the onions with 1 tsp salt. Pour in the stock.")
    assert any("seasons the" in question.message for question in found.questions)


@pytest.mark.parametrize(
    ("said", "litres"),
    [
        ("a litre and a half", 1.5),
        ("1 litre and a half", 1.5),
        ("one and a half litres", 1.5),
        ("half a litre", 0.5),
        ("2 litres and a quarter", 2.25),
        ("a couple of litres", 2.0),
    ],
)
def test_water_is_measured_however_its_half_is_said(said: str, litres: float) -> None:
    found = reading(
        ["600 g corn kernels", "1 tbsp salt"], f"Boil the corn with the salt in {said} of water. Drain."
    )
    (water,) = (
        each["line"]
        for component in found.recipe["components"]
        for each in component["ingredients"]
        if isinstance(each, dict) and "water" in each["line"]
    )
    assert grams_of(water) == pytest.approx(litres * 1000.0, rel=0.01)
