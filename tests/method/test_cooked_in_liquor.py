"""Food that cooks in a liquor of the list which was heated first, and what becomes of that liquor."""

from __future__ import annotations

from typing import Any

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten

LINES = ["700 g {food}", "2 l {liquor}", "1 bay leaf", "30 g butter", "150 ml single cream"]
HEATS = "Bring the {liquor} to a simmer. Add the {food} and cook gently for 15 minutes. "


def read_with(food: str, liquor: str, method: str) -> Any:
    names = {"food": food, "liquor": liquor}
    return reading([line.format(**names) for line in LINES], method.format(**names))


def share_of_pot(found: Any) -> float:
    """What is eaten of the liquor, of a recipe that has the one step."""
    (step,) = found.recipe["steps"]
    assert step["kind"] in ("simmer", "boil")
    bath = next(each for each in found.recipe["components"] if each["id"] == step["bath"])
    assert any("2 l" in str(line) for line in bath["ingredients"])
    return float(bath["eaten_fraction"])


@pytest.mark.parametrize("liquor", ["chicken stock", "milk", "vegetable broth", "coconut milk", "dry cider"])
@pytest.mark.parametrize("food", ["chicken thighs", "carrots", "cod fillets", "macaroni", "waxy potatoes"])
def test_a_liquor_that_is_heated_first_is_a_pot(food: str, liquor: str) -> None:
    found = read_with(
        food, liquor, HEATS + "Drain the {food}, discarding the {liquor}, and stir in the butter."
    )
    assert share_of_pot(found) == 0.0
    assert found.recipe["steps"][0]["duration_h"] == pytest.approx(0.25)
    assert eaten(found, 0) == 1.0
    assert eaten(found, 3) == 1.0


@pytest.mark.parametrize(
    "goes_in",
    [
        "Heat the stock in a wide pan. Lower in the chicken and poach it for 15 minutes.",
        "Pour the stock into a pot and bring it to the boil. Put in the chicken; cook for 15 minutes.",
        "Bring the stock to a simmer with the bay leaf. To this add the chicken and cook for 15 minutes.",
        "Bring the stock to a bare simmer and cook the chicken in it for 15 minutes.",
        "Lay the chicken in a pot. Pour in the stock. Bring to the boil, then simmer for 15 minutes.",
        "Put the chicken in a deep pan with the stock and simmer for 15 minutes.",
    ],
)
def test_food_goes_into_it_in_any_way(goes_in: str) -> None:
    found = read_with("chicken", "chicken stock", goes_in + " Lift out the chicken and throw away the stock.")
    assert share_of_pot(found) == 0.0
    assert found.recipe["steps"][0]["duration_h"] == pytest.approx(0.25)


@pytest.mark.parametrize(
    ("end", "share"),
    [
        ("Lift out the chicken. Pour off the stock.", 0.0),
        ("Drain the chicken; you will not need the stock.", 0.0),
        ("Drain the chicken and save the stock for another day.", 0.0),
        ("Remove the chicken and freeze the stock.", 0.0),
        ("Remove the chicken and keep the stock for a soup.", 0.0),
        ("Drain well and toss with the butter.", 0.0),
        ("Lift out. Measure out 500 ml of the stock for the gravy; you won't need the rest.", 0.25),
        ("Drain, reserving 500 ml of the stock.", 0.25),
        ("Ladle off 500 ml of the stock for the sauce. Drain the chicken.", 0.25),
        ("Lift out the chicken. Strain the stock and reserve 500 ml.", 0.25),
        ("Drain the chicken. Return 500 ml of the stock to the pan with the cream.", 0.25),
        ("Lift out the chicken. Whisk 500 ml of the stock into the cream and heat it.", 0.25),
        ("Remove the chicken. Use half of the stock for the sauce and discard the rest.", 0.5),
    ],
)
def test_as_much_of_it_is_eaten_as_is_said(end: str, share: float) -> None:
    assert share_of_pot(read_with("chicken", "chicken stock", HEATS + end)) == pytest.approx(share, abs=0.02)


@pytest.mark.parametrize(
    "end",
    [
        "Serve in deep plates.",
        "Stir in the cream and serve.",
        "Lift out the chicken. Boil the stock down to a glaze and spoon it over.",
        "Lift out the chicken. Whisk the butter into the stock and pour it over the chicken.",
        "Lift out the chicken and keep warm. Reduce the stock by half and stir in the cream.",
        "Lift out the chicken, shred it, and put it back in the pot with 200 ml of the cream.",
    ],
)
def test_a_liquor_of_which_all_is_eaten_is_no_step(end: str) -> None:
    found = read_with("chicken", "chicken stock", HEATS + end)
    assert not found.recipe.get("steps")
    assert eaten(found, 1) == 1.0


def test_what_gave_its_taste_is_left_with_the_liquor() -> None:
    found = reading(
        ["700 g chicken thighs", "2 l chicken stock", "2 carrots", "1 onion", "1 tsp salt"],
        "Bring the stock to a simmer with the carrots, onion and salt. Add the chicken and poach 15 minutes. "
        "Lift out the chicken and discard the stock.",
    )
    assert [eaten(found, n) for n in range(5)] == [1.0, 0.0, 0.0, 0.0, 0.0]


def test_pasta_that_boils_in_stock_boils_in_no_water_besides() -> None:
    found = reading(
        ["350 g penne", "2 l vegetable stock"],
        "Bring the stock to a boil. Add the penne. Cook for 10 minutes. Drain, discarding the stock.",
    )
    assert share_of_pot(found) == 0.0
    assert "water" not in str([each["ingredients"] for each in found.recipe["components"]])


def test_garlic_is_food_where_nothing_else_cooks_in_the_milk() -> None:
    found = reading(
        ["8 cloves garlic", "600 ml milk", "1 kg potatoes", "80 g butter"],
        "Bring the milk to a boil, add the garlic and simmer for 10 minutes. Drain, discarding the milk. "
        "Boil the potatoes for 20 minutes, drain and mash them with the garlic and butter.",
    )
    assert [eaten(found, n) for n in range(4)] == [1.0, 0.0, 1.0, 1.0]


@pytest.mark.parametrize(
    ("lines", "method"),
    [
        (["900 g beef shin", "700 ml beef stock", "30 g flour", "2 onions"],
         "Brown the beef. Stir in the flour, then the stock, simmer for 2 hours. Skim and discard the fat."),
        (["1.2 kg rib of beef", "400 ml beef stock", "20 g flour"],
         "Roast the beef for 1 hour. Pour off the fat. Stir in the flour and the stock, simmer, strain."),
        (["300 g fresh noodles", "1 l chicken stock", "200 g pak choi"],
         "Simmer the pak choi in the stock. Boil the noodles in plenty of water, drain; add the stock."),
        (["160 g pudding rice", "1 l milk", "60 g sugar"],
         "Bring the milk to the boil. Add the rice and simmer for 40 minutes. Stir in the sugar."),
    ],
)  # fmt: skip
def test_stews_gravies_and_puddings_keep_their_liquor(lines: list[str], method: str) -> None:
    assert eaten(reading(lines, method), 1) == 1.0
