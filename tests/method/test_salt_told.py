"""Salt that only the method measures: behind where it salts, by the weight of its food, by the piece."""

from __future__ import annotations

from typing import Any

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds

BEEF = ["2 onions", "400 g tinned tomatoes"]


def texts(found: Any, component: str = "dish") -> list[str]:
    """The salt of a component, as it is written."""
    made = next(each for each in found.recipe["components"] if each["id"] == component)
    lines = [each if isinstance(each, str) else each["line"] for each in made["ingredients"]]
    return [line for line in lines if "salt" in line]


@pytest.mark.parametrize("listed", [[], ["salt"]])
@pytest.mark.parametrize(
    ("said", "amount"),
    [
        ("Add salt, about a teaspoon.", "1 teaspoon salt"),
        ("Salt it, 1 tsp or so.", "1 tsp salt"),
        ("Season with salt: a scant teaspoon.", "1 scant teaspoon salt"),
        ("Add salt to taste (I used 1 tsp).", "1 tsp salt"),
        ("Season with salt, starting with 1/2 tsp.", "1/2 tsp salt"),
        ("Season with salt, I use about half a teaspoon.", "half a teaspoon salt"),
        ("Taste for salt: it needed 1/2 tsp.", "1/2 tsp salt"),
        ("Season with salt (a teaspoon and a half).", "1.5 teaspoon salt"),
        ("Salt it if you think it flat; I add a pinch.", "1 pinch salt"),
        ("Salt to taste. I usually add 1 tsp.", "1 tsp salt"),
    ],
)
def test_an_amount_behind_is_that_of_the_salt(listed: list[str], said: str, amount: str) -> None:
    found = reading([*BEEF, *listed], f"Fry the onions. Add the tomatoes. {said}")
    assert texts(found) == [amount]


@pytest.mark.parametrize(
    "said",
    [
        "Season with salt, 1 tsp. paprika and the parsley.",
        "Season with salt and a pinch of chilli.",
        "Season with salt and 1 tsp sugar.",
        "Add salt. Simmer for an hour and add 2 tbsp of vinegar.",
    ],
)
def test_an_amount_of_other_food_is_none_of_the_salt(said: str) -> None:
    found = reading([*BEEF, "salt"], f"Fry the onions. Add the tomatoes. {said}")
    assert texts(found) == ["salt"]


def test_an_amount_of_salt_and_one_of_pepper_are_each_its_own() -> None:
    found = reading(["1 kg beef"], "Season the beef with 2 tsp of salt and 1 tsp pepper. Fry it.")
    assert texts(found) == ["2 tsp of salt"]


@pytest.mark.parametrize(
    "said",
    ["with half a teaspoon of salt", "with 1/2 tsp of the salt", "with 1/2 tsp salt, then add the tomatoes"],
)
def test_salt_behind_until_is_salt(said: str) -> None:
    found = reading([*BEEF, "salt"], f"Fry the onions until golden {said}.")
    assert len(texts(found)) == 1
    assert texts(found)[0].startswith(("half a teaspoon", "1/2 tsp"))


@pytest.mark.parametrize(
    "said",
    [
        "Salt the boiling water (2 tbsp) and cook the pasta. Drain.",
        "Bring a big pot of water to the boil and salt it well, I use 2 tbsp. Cook the pasta. Drain.",
        "Boil the pasta in water with salt (I use 2 tbsp). Drain.",
    ],
)
def test_an_amount_behind_salted_water_is_that_of_the_water(said: str) -> None:
    found = reading(["500 g pasta", "50 g butter"], f"{said} Toss with the butter.")
    assert texts(found, "water") == ["2 tbsp salt"]
    assert texts(found) == []


@pytest.mark.parametrize(
    "said",
    [
        "Salt the water and cook the pasta.",
        "Bring a pot of water to the boil, salt it and cook the pasta.",
        "Once the water boils, salt it, then cook the pasta.",
        "Season the boiling water with salt, add the pasta.",
    ],
)
def test_salt_of_the_list_that_only_water_is_given_is_the_pots(said: str) -> None:
    found = reading(["500 g pasta", "50 g butter", "salt"], f"{said} Drain. Toss with the butter.")
    assert eaten(found, 2) == 0.0
    assert texts(found) == []


def test_salt_that_a_pot_and_the_dish_are_given_is_in_the_dish_once() -> None:
    lines = ["500 g potatoes", "400 g tinned tomatoes", "1 tsp salt"]
    found = reading(lines, "Boil the potatoes in water with salt. Drain. Add the tomatoes and the salt.")
    assert texts(found) == ["1 tsp salt"]
    assert len(texts(found, "water")) == 1


@pytest.mark.parametrize(
    ("listed", "said", "amount"),
    [
        (["2 kg pork"], "Rub the pork with 15 g salt per kilo and roast.", "30 g salt"),
        (["2 kg pork"], "Rub with salt, 15 g per kg of meat, and roast.", "30 g salt"),
        (["2 kg pork", "salt"], "Salt the pork, allowing 15 g for each kilo. Roast.", "30 g salt"),
        (["2 kg pork", "15 g salt per kg meat"], "Rub the pork with the salt and roast.", "30 g salt"),
        (["4 lb pork"], "Season the pork with 1 tsp salt per pound. Roast.", "4 tsp salt"),
        (["4 lb pork"], "Salt the pork (a teaspoon for every pound). Roast.", "4 teaspoon salt"),
        (["1 kg mince", "18 g salt per kg"], "Mix well. Fill into casings.", "18 g salt"),
        (["500 g flour", "350 g water", "2% salt"], "Mix, knead, prove and bake.", "10 g salt"),
        (["4 pork chops"], "Season each chop with 1/2 tsp salt. Fry.", "2 teaspoon salt"),
        (["4 pork chops", "salt"], "Season the chops. Use 1/2 tsp salt per chop. Fry.", "2 teaspoon salt"),
        (
            ["4 lb pork", "5 tsp salt (1 tsp per lb)"],
            "Season the pork and roast.",
            "5 tsp salt (1 tsp per lb)",
        ),
    ],
)
def test_salt_by_the_weight_or_the_piece_comes_to_that_of_the_list(
    listed: list[str], said: str, amount: str
) -> None:
    assert texts(reading(listed, said)) == [amount]


@pytest.mark.parametrize(
    ("listed", "said", "component", "amount"),
    [
        (["1 kg cabbage", "salt"], "Add 2% of its weight in salt.", "cabbage", "20 g salt"),
        (
            ["1 kg cabbage", "salt (2 to 3 percent of the cabbage's weight)"],
            "Rub with the salt.",
            "cabbage",
            "20 to 30 g salt",
        ),
        (["1 kg cabbage"], "Mix with 20 g salt per kilo.", "brine", "20 g salt"),
    ],
)
def test_salt_of_what_ferments_is_told_by_its_weight(
    listed: list[str], said: str, component: str, amount: str
) -> None:
    found = reading(listed, f"Shred the cabbage. {said} Pack in a jar. Ferment for two weeks.")
    assert texts(found, component) == [amount]


def test_a_boiled_food_in_the_same_pan_takes_new_salted_water() -> None:
    found = reading(
        ["150 g cashews", "300 g macaroni"],
        "Cover the cashews with boiling water for an hour, then drain.",
        "Boil the macaroni in salty water for 10 mins (same pan, less washing up). Drain.",
    )
    assert kinds(found) == ["soak", "boil"]
    assert len(texts(found, "water")) == 1


@pytest.mark.parametrize(
    "said",
    [
        "Boil the pasta in salted water, drain. Cook the tomatoes with a pinch of salt.",
        "Cook the tomatoes with a pinch of salt. Boil the pasta in salted water, drain.",
        "Cook the tomatoes with 1/4 tsp salt. Boil the pasta in salted water, drain.",
    ],
)
def test_spoons_of_salt_of_which_the_dish_takes_a_pinch_are_the_pots(said: str) -> None:
    found = reading(["400 g pasta", "2 tbsp salt", "1 kg tomatoes"], said)
    assert eaten(found, 1) == pytest.approx(0.03, abs=0.02)


def test_a_good_spoon_of_salt_lies_in_the_water_that_it_is_said_of() -> None:
    found = reading(
        ["300 g dried chickpeas", "1 onion", "salt"],
        "Soak the chickpeas overnight in water with a good spoon of salt. Drain. Boil for an hour. Drain.",
    )
    assert kinds(found) == ["brine", "boil"]
    assert texts(found, "brine") == ["1 good spoon salt"]


@pytest.mark.parametrize("listed", ["salt", "1 tsp salt", ""])
def test_beans_that_soak_with_salt_lie_in_water(listed: str) -> None:
    lines = ["300 g dried chickpeas", "1 onion", *filter(None, [listed])]
    found = reading(lines, "Soak the chickpeas overnight with 1 tsp salt. Drain. Boil for an hour. Drain.")
    assert kinds(found) == ["brine", "boil"]
    assert texts(found, "brine") == ["1 tsp salt"]


@pytest.mark.parametrize(
    "said", ["Marinate the chicken in soy sauce for 2 hours.", "Brush the chicken with soy sauce."]
)
def test_soy_sauce_that_no_line_lists_is_asked_about(said: str) -> None:
    found = reading(["800 g chicken thighs", "1 onion"], f"{said} Grill.")
    assert any(each.id.startswith("unlisted") for each in found.questions)


@pytest.mark.parametrize("said", ["Flour them", "Flour the slices lightly", "Flour the aubergines"])
def test_slices_that_are_floured_leave_some_of_the_flour(said: str) -> None:
    lines = ["3 aubergines", "100 g flour", "oil for frying"]
    assert kinds(reading(lines, f"Slice the aubergines. {said} and fry in the oil.")) == ["dredge", "fry"]
