"""Brines that no line lists: told by their strength, by salt and water, or by their name alone."""

from __future__ import annotations

import re

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds, step
from .test_salt_told import texts

DINNER = ["1.5 kg chicken thighs", "2 lemons", "50 g butter"]


@pytest.mark.parametrize("listed", [[], ["salt"]])
@pytest.mark.parametrize(
    "said",
    [
        "Submerge the chicken in a 6% brine overnight.",
        "Brine the chicken overnight in a 6 % salt solution.",
        "Make a 6% salt brine. Lay the chicken in it overnight.",
        "Cover the chicken with a brine of 6 percent salt. Leave overnight.",
        "Make a brine (60 g salt per litre of water). Submerge the chicken overnight.",
        "Cover the chicken with brine (60 g salt to the litre) and refrigerate overnight.",
    ],
)
def test_a_brine_that_is_told_by_its_strength_is_one(said: str, listed: list[str]) -> None:
    found = reading([*DINNER, *listed], f"{said} Drain, pat dry and roast with the lemons and butter.")
    brine = step(found, "brine")
    assert (brine["food"], brine["duration_h"]) == ("chicken-thighs", 12.0)
    salt, water = (
        texts(found, "brine"),
        next(
            each["line"]
            for component in found.recipe["components"]
            for each in component["ingredients"]
            if component["id"] == "brine" and each["line"].endswith("water")
        ),
    )
    low, high = map(float, re.findall(r"[\d.]+", water))
    assert [float(re.findall(r"[\d.]+", each)[0]) for each in salt] == [
        pytest.approx(60 * (low + high) / 2, rel=0.02)
    ]


@pytest.mark.parametrize(
    "said",
    [
        "Dissolve 60 g salt in 1 litre of water. Submerge the chicken overnight.",
        "Make a brine with 60 g salt and 1 litre of water. Submerge the chicken overnight.",
        "Make a brine of 60 g salt to 1 litre of water. Submerge the chicken in it overnight.",
        "Brine the chicken overnight in 1 litre of water with 60 g salt.",
        "Stir 60 g of salt into 1 litre of water, pour it over the chicken and leave overnight.",
    ],
)
def test_a_brine_of_salt_and_water_that_no_line_lists_is_one(said: str) -> None:
    found = reading(DINNER, f"{said} Drain, pat dry and roast with the lemons and butter.")
    brine = next(each for each in found.recipe["components"] if each["id"] == "brine")
    assert sorted(each["line"] for each in brine["ingredients"])[0].startswith("1 litre")
    assert [text.replace("of ", "") for text in texts(found, "brine")] == ["60 g salt"]
    assert texts(found) == []


@pytest.mark.parametrize(
    ("said", "taken"),
    [
        ("Brine the chicken overnight.", "usual"),
        ("Lay the chicken overnight in brine.", "usual"),
        ("Lay the chicken overnight in a strong brine.", "strong"),
        ("Lay the chicken overnight in a weak brine.", "weak"),
    ],
)
def test_a_brine_that_is_only_named_is_asked_about(said: str, taken: str) -> None:
    found = reading(DINNER, f"{said} Drain, pat dry and roast with the lemons and butter.")
    assert step(found, "brine")["food"] == "chicken-thighs"
    asked = next(each for each in found.questions if each.id.startswith("brine-salt"))
    assert asked.taken == taken
    assert [each.choice for each in asked.choices] == ["weak", "usual", "strong"]
    strong = reading(
        DINNER, f"{said} Drain, pat dry and roast with the lemons and butter.", answers={asked.id: "strong"}
    )
    weak = reading(
        DINNER, f"{said} Drain, pat dry and roast with the lemons and butter.", answers={asked.id: "weak"}
    )
    grams = [float(re.findall(r"[\d.]+", texts(each, "brine")[0])[0]) for each in (weak, strong)]
    assert grams[1] == pytest.approx(grams[0] * 100 / 30, rel=0.02)


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        (["200 g olives in brine", "400 g chicken"], "Drain the brine off the olives. Fry the chicken."),
        (["400 g chicken"], "Do not brine the chicken. Fry it."),
        (["400 g chicken", "2 tbsp soy sauce"], "Marinate the chicken in the soy sauce for 1 hour. Fry it."),
        (["500 g pasta"], "Boil the pasta in 4 litres of water with 40 g salt. Drain."),
    ],
)
def test_what_lies_in_no_brine_is_not_brined(lines: list[str], said: str) -> None:
    assert "brine" not in kinds(reading(lines, said))


def test_a_listed_salt_by_the_litre_makes_a_brine() -> None:
    found = reading(
        ["1.5 kg cucumbers", "50 g salt per litre, for the brine"],
        "Cover the cucumbers with the brine. Leave for a week.",
    )
    assert step(found, "brine")["duration_h"] == 168.0


FISH = ["800 g salmon fillet", "1 bunch dill"]


@pytest.mark.parametrize(
    ("said", "salt"),
    [
        (
            "Mix 50 g salt and 50 g sugar, rub into the salmon and leave for 2 days. Scrape off.",
            ["50 g salt"],
        ),
        (
            "Cover the salmon with equal parts salt and sugar, leave for 2 days. Rinse and slice.",
            ["8 to 24 g salt"],
        ),
        ("Bury the salmon in coarse salt for 3 hours. Rinse and slice.", ["8 to 24 g salt"]),
        ("Pack the salmon in 2 kg of coarse salt and bake for 30 minutes. Crack the crust.", ["2 kg salt"]),
    ],
)
def test_salt_that_fish_lies_under_and_no_line_lists_is_taken_off_again(said: str, salt: list[str]) -> None:
    found = reading(FISH, said)
    assert step(found, "dry_cure")["food"] == "salmon-fillet"
    cure = next(each for each in found.recipe["components"] if each["id"] == "cure")
    assert (texts(found, "cure"), cure["eaten_fraction"]) == (salt, 0.0)


def test_vegetables_that_are_salted_and_wrung_out_lose_salt_that_no_line_lists() -> None:
    found = reading(
        ["1 cabbage", "2 carrots"],
        "Shred the cabbage, add 2 tsp salt and leave for an hour. Squeeze out the water. Add the carrots.",
    )
    assert kinds(found) == ["dry_cure", "squeeze"]
    assert texts(found, "cure") == ["2 tsp salt"]


def test_salt_that_nobody_could_eat_is_left_behind_and_asked_about() -> None:
    found = reading(
        ["1 kg new potatoes", "50 g butter"],
        "Put the potatoes in a pan with a litre of water and 250 g salt and boil till the water has gone.",
    )
    assert texts(found) == []
    asked = next(each for each in found.questions if each.id.startswith("left"))
    assert asked.taken == "left_behind"


def test_meat_that_is_seasoned_with_salt_of_no_line_is_not_cured() -> None:
    found = reading(["800 g lamb", "2 onions"], "Rub the lamb with salt and pepper and fry with the onions.")
    assert kinds(found) == []


@pytest.mark.parametrize(
    ("lines", "said", "grams"),
    [
        (
            ["2 l water", "salt"],
            "Make a brine with the salt and water and lay the chicken in it overnight.",
            120,
        ),
        (["2 l water", "salt"], "Dissolve the salt in the water. Lay the chicken in it overnight.", 120),
        (
            ["2 l water", "salt"],
            "Dissolve salt in the water to make a 5% solution. Add the chicken overnight.",
            100,
        ),
    ],
)
def test_salt_that_nobody_measures_makes_measured_water_a_brine(
    lines: list[str], said: str, grams: float
) -> None:
    found = reading([*DINNER, *lines], f"{said} Drain, pat dry and roast with the lemons and butter.")
    assert texts(found, "brine") == [f"{grams} g salt"]


@pytest.mark.parametrize("food", ["1 kg chicken", "3 aubergines"])
def test_listed_salt_is_that_of_the_salted_water_that_food_stands_in(food: str) -> None:
    name = food.rsplit(maxsplit=1)[-1]
    found = reading([food, "salt"], f"Soak the {name} in salted water for 1 hour. Drain, dry and fry.")
    assert eaten(found, 1) == 0.0
    assert re.fullmatch(r"[\d.]+ to [\d.]+ g salt", texts(found, "brine")[0])


@pytest.mark.parametrize(
    "when", ["As soon as", "The moment", "The minute", "Just as soon as", "Once", "When"]
)
def test_salt_goes_into_water_as_soon_as_it_boils(when: str) -> None:
    found = reading(
        ["400 g spaghetti", "100 g bacon", "salt"],
        f"{when} the water boils, salt it and add the spaghetti. In the meantime fry the bacon. Drain.",
    )
    assert kinds(found) == ["boil"]
    assert eaten(found, 2) == 0.0


@pytest.mark.parametrize(
    ("said", "found_kinds"),
    [
        ("Add the chickpeas, which you have drained beforehand, and the feta.", ["drain"]),
        ("Add the chickpeas that have been drained, and the feta.", ["drain"]),
        ("Add the chickpeas, which have been drained and rinsed, and the feta.", ["drain"]),
    ],
)
def test_what_has_been_done_with_food_before_is_done(said: str, found_kinds: list[str]) -> None:
    found = reading(["200 g feta", "1 can chickpeas"], said)
    assert kinds(found) == found_kinds
    assert step(found, "drain")["food"] == "chickpeas"


def test_fish_that_has_been_soaked_has_lost_its_salt() -> None:
    found = reading(
        ["1 kg cod, salted", "1 onion"],
        "Use cod that has been soaked for 24 hours in several changes of water. Fry with the onion.",
    )
    assert step(found, "soak")["duration_h"] == 24.0


def test_what_is_left_before_being_squeezed_is_squeezed() -> None:
    found = reading(
        ["2 cucumbers", "1 tsp salt"],
        "The cucumbers should be sliced, salted and left for half an hour before being squeezed.",
    )
    assert kinds(found) == ["dry_cure", "squeeze"]


@pytest.mark.parametrize(
    "said", ["Brine the cucumbers for three days.", "Lay the cucumbers in brine for 3 days."]
)
def test_listed_salt_by_the_litre_is_a_brines_without_its_name(said: str) -> None:
    found = reading(["1 kg cucumbers", "50 g salt per litre water"], said)
    assert step(found, "brine")["duration_h"] == 72.0


def test_little_salt_by_the_litre_salts_a_pot() -> None:
    found = reading(["500 g pasta", "salt, 10 g per litre"], "Boil the pasta in salted water. Drain.")
    assert kinds(found) == ["boil"]
    assert eaten(found, 1) == 0.0


@pytest.mark.parametrize("said", ["Salt to taste.", "Season with salt.", "Season."])
def test_food_that_left_its_brine_may_be_salted_besides(said: str) -> None:
    found = reading(DINNER, f"Make a 6 % brine. Lay the chicken in it overnight. Drain and roast. {said}")
    assert texts(found) == ["salt, to taste"]


@pytest.mark.parametrize(
    "said", ["Put the mozzarella back in its brine.", "Leave the mozzarella in its own brine."]
)
def test_the_brine_that_cheese_was_bought_in_is_not_made(said: str) -> None:
    found = reading(["500 g mozzarella", "2 tomatoes"], f"{said} Slice it with the tomatoes.")
    assert "g salt" not in str(found.recipe)
