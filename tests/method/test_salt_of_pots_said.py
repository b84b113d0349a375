"""Salt of a pot in plain words: put into water first, beside food that is only warmed, or late."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds, step
from .test_salt_told import texts


@pytest.mark.parametrize(
    "said",
    [
        "Cook the peas in salted boiling water. Drain. Stir in the butter.",
        "Cook the peas in lightly salted water. Drain. Stir in the butter.",
        "Cook the peas in well salted boiling water. Drain. Serve with the butter.",
    ],
)
@pytest.mark.parametrize("butter", ["30 g salted butter", "30 g lightly salted butter"])
def test_salted_water_is_of_no_salted_butter(said: str, butter: str) -> None:
    found = reading(["500 g peas", butter], said)
    assert kinds(found) == ["boil"]
    assert eaten(found, 1) == 1.0


@pytest.mark.parametrize("said", ["Boil the salted cod for 10 minutes.", "Boil the salt cod for 10 minutes."])
def test_a_food_that_is_called_salted_salts_no_water(said: str) -> None:
    assert texts(reading(["1 kg salted cod", "1 onion"], said), "water") == []


@pytest.mark.parametrize(
    "said",
    [
        "Add the salt to the water, cook the pasta, drain.",
        "Stir the salt into the water, then cook the pasta, drain.",
        "Add salt to water. Boil pasta. Drain.",
        "Put the salt in the pasta water. Cook the pasta and drain.",
        "Bring the pasta water to the boil with the salt. Cook the pasta and drain.",
        "Season the pasta water with the salt, cook the pasta and drain.",
    ],
)
@pytest.mark.parametrize("water", [[], ["4 l water"]])
def test_salt_that_is_put_into_water_is_that_of_what_boils_next(said: str, water: list[str]) -> None:
    found = reading(["400 g pasta", "1 tbsp salt", *water], said)
    assert kinds(found) == ["boil"]
    assert eaten(found, 1) == 0.0


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        (["1 jar tomato sauce"], "Bring a pot of water to the boil. Warm the sauce."),
        (["1 jar pesto"], "Put a big pot of salted water on. Heat the pesto."),
        (["50 g salted butter"], "Bring a pot of salted water to the boil. Melt the butter."),
        (["1 l stock"], "Put a pot of water on to boil. Meanwhile heat the stock."),
    ],
)
def test_what_is_only_warmed_goes_into_no_pot_of_water(lines: list[str], said: str) -> None:
    found = reading(["400 g pasta", *lines], f"{said} Cook the pasta, drain and mix.")
    assert step(found, "boil")["food"] == "pasta"
    assert eaten(found, 1) == 1.0


@pytest.mark.parametrize(
    "said",
    [
        "Simmer the beans until nearly tender, add the salt, cook 10 minutes more and drain.",
        "Boil the beans for an hour. Salt them towards the end. Drain.",
        "Boil the beans for an hour; the salt goes in after ten minutes. Drain.",
        "Simmer the beans for an hour. Add the salt. Drain.",
    ],
)
def test_salt_that_comes_late_to_a_pot_is_drained_with_it(said: str) -> None:
    found = reading(["250 g dried beans", "2 tsp salt"], said)
    assert kinds(found) == ["boil"]
    assert eaten(found, 1) == 0.0


@pytest.mark.parametrize(
    "said",
    [
        "Boil the beans for an hour. Drain. Add the salt.",
        "Boil the beans for an hour. Fry the onion with the salt. Drain the beans and mix.",
        "Boil the beans for an hour. Add the salt and serve in the broth.",
    ],
)
def test_salt_of_the_dish_is_not_drained(said: str) -> None:
    assert eaten(reading(["250 g dried beans", "2 tsp salt", "1 onion"], said), 1) == 1.0


@pytest.mark.parametrize(
    ("food", "water", "said"),
    [
        ("500 g green beans", "2 l water", "Boil the beans in the water with the salt. Serve with butter."),
        ("500 g potatoes", "1 l water", "Boil the potatoes in the water with the salt. Serve with the fish."),
        ("4 salmon fillets", "1 l water", "Poach the salmon in the water with the salt for 8 minutes."),
        (
            "1 kg beef",
            "1 l water",
            "Simmer the beef in the water with the salt for 3 hours. Serve with mustard.",
        ),
    ],
)
def test_listed_water_that_is_too_salt_to_eat_or_holds_one_vegetable_is_left(
    food: str, water: str, said: str
) -> None:
    found = reading([food, water, "1 tbsp salt", "50 g butter"], said)
    assert kinds(found) in (["boil"], ["simmer"])
    assert eaten(found, 1) == eaten(found, 2) == 0.0


@pytest.mark.parametrize(
    ("food", "said"),
    [
        ("500 g potatoes", "Boil the potatoes in the water with the salt. Blend to a soup."),
        ("1 kg beef", "Simmer the beef in the water with the salt for 3 hours."),
    ],
)
def test_listed_water_that_may_be_a_broth_stays(food: str, said: str) -> None:
    assert eaten(reading([food, "3 l water", "1 tbsp salt", "2 carrots"], said), 2) == 1.0


@pytest.mark.parametrize(
    "said",
    [
        "Boil the potatoes with half the salt. Meanwhile boil the broccoli with the other half. Drain both.",
        "Boil the potatoes in water with 1 tsp of the salt. Boil the broccoli with the remaining tsp. Drain.",
        "Boil the potatoes with half the salt and drain. Boil the broccoli with the rest of the salt. Drain.",
    ],
)
def test_the_other_half_of_the_salt_is_in_the_second_pot(said: str) -> None:
    found = reading(["500 g potatoes", "500 g broccoli", "2 tsp salt"], said)
    assert kinds(found) == ["boil", "boil"]
    assert eaten(found, 2) == 0.0


@pytest.mark.parametrize(
    "said",
    [
        "Cook and drain the pasta (salt in the water, please). Mix with the cheese.",
        "Salt in the water, pasta in. Drain the pasta and mix with the cheese.",
        "Boil the pasta for 8 minutes; the salt goes into the water. Drain and mix with the cheese.",
    ],
)
def test_salt_that_is_said_to_be_in_the_water_is_there(said: str) -> None:
    found = reading(["400 g pasta", "1 tbsp salt", "100 g parmesan"], said)
    assert eaten(found, 1) == 0.0


@pytest.mark.parametrize("said", ["lots of cold water", "plenty of water", "plenty of cold water"])
def test_plenty_of_water_is_not_the_cupful_of_the_list(said: str) -> None:
    lines = ["500 g salted herring fillets", "300 ml water", "100 ml vinegar"]
    found = reading(lines, f"Lay the herring in {said} overnight. Drain. Boil the vinegar and the water.")
    bath = next(each for each in found.recipe["components"] if each["id"] == "soaking-water")
    assert [each["line"] for each in bath["ingredients"]] == ["1 to 2.2 l water"]


def test_salt_that_comes_to_a_pot_of_beans_and_onion_cures_no_onion() -> None:
    found = reading(
        ["300 g dried chickpeas", "2 tsp salt", "1 onion"],
        "Cover the chickpeas with water, add the onion and simmer for an hour. Add the salt. Drain.",
    )
    assert kinds(found) == ["boil"]
    assert eaten(found, 1) == 0.0


@pytest.mark.parametrize(
    "said", ["Boil with the salt for half an hour. Drain.", "Boil with the salt until soft. Drain."]
)
@pytest.mark.parametrize("food", ["6 artichokes", "1 kg potatoes"])
def test_a_method_that_names_no_food_boils_the_one_of_the_list(food: str, said: str) -> None:
    found = reading([food, "1 tsp salt"], said)
    assert kinds(found) == ["boil"]
    assert eaten(found, 1) == 0.0


@pytest.mark.parametrize(
    ("said", "share"),
    [
        ("Boil the potatoes in salted water. Drain. Mash with the butter.", 0.0),
        ("Boil the potatoes in salted water. Drain. Season and mash with the butter.", 1.0),
        ("Boil the potatoes in salted water. Drain. Mash with the remaining ingredients.", 1.0),
        ("Boil the potatoes in salted water. Drain. Mash with the butter and the salt.", 1.0),
    ],
)
def test_a_spoon_of_salt_is_the_pots_where_nothing_else_takes_it(said: str, share: float) -> None:
    assert eaten(reading(["1 kg potatoes", "1 tsp salt", "50 g butter"], said), 1) == share
