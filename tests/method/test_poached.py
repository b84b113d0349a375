"""Food that is poached in a liquor and taken out of it."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten

CHICKEN = [
    "4 chicken breasts",
    "1 onion",
    "2 carrots",
    "1 tbsp salt",
    "1 l water",
    "8 tortillas",
    "200 ml cream",
]


@pytest.mark.parametrize(
    ("poaches", "hours"),
    [
        (
            "Bring the water, onion, carrots and salt to a simmer for 5 minutes. Add the chicken, put the "
            "lid on, turn the heat off and let stand for 30 minutes. Remove the chicken.",
            0.5,
        ),
        (
            "Put the chicken in a pot with water, onion, carrots and salt. Simmer for 20 minutes. "
            "Lift the chicken out.",
            0.3333,
        ),
        (
            "Boil the water with the onion, carrots and salt. Slide in the chicken and poach for 15 minutes. "
            "Transfer the chicken to a plate.",
            0.25,
        ),
    ],
)
def test_a_liquor_that_food_was_taken_out_of_stays_in_the_pot(poaches: str, hours: float) -> None:
    found = reading(CHICKEN, poaches + " Shred it and fill the tortillas.")
    assert found.recipe["steps"][0]["duration_h"] == pytest.approx(hours, abs=1e-3)
    assert [eaten(found, n) for n in range(6)] == [1.0, 0.0, 0.0, 0.0, 0.0, 1.0]


@pytest.mark.parametrize(
    "goes_on",
    [
        "Remove the chicken. Stir in the cream and put the chicken back in.",
        "Remove the chicken and shred it. Strain the broth and serve it with the chicken.",
        "Lift the chicken out and keep it warm. Boil down what is left and spoon it over.",
        "Take the pot off the heat and serve with the tortillas.",
    ],
)
def test_a_liquor_that_the_method_goes_on_with_is_eaten(goes_on: str) -> None:
    found = reading(
        CHICKEN, f"Simmer the chicken with the water, onion, carrots and salt for 20 minutes. {goes_on}"
    )
    assert eaten(found, 3) == 1.0


@pytest.mark.parametrize(
    "sauce", ["Melt the butter and pour it over the beans.", "Tip the chicken over the beans."]
)
def test_what_is_poured_over_boiled_food_is_not_its_water(sauce: str) -> None:
    found = reading(["300 g green beans", "50 g butter", "1 tin chicken"], f"Boil the green beans. {sauce}")
    assert found.recipe["steps"][0]["kind"] == "boil"


IN_STOCK = ["4 chicken breasts", "1 l chicken broth", "50 g butter", "50 g flour", "100 ml cream"]


@pytest.mark.parametrize(
    ("method", "share"),
    [
        ("Simmer the chicken in the broth for 20 minutes. Remove it. Melt butter, stir in the flour, 250 ml "
         "of the broth and the cream.", 0.25),
        ("Put the chicken in the broth and cook for 20 minutes. Cool. Make a sauce of butter, flour, 500 ml "
         "broth and the cream.", 0.5),
        ("Cover the chicken with the broth and poach for 20 minutes. Lift out, reserve 100 ml of the broth. "
         "Whisk the butter, flour, cream and the reserved broth.", 0.1),
        ("Poach the chicken in the broth for 20 minutes. Discard the broth. Make a sauce of butter, flour "
         "and cream.", 0.0),
    ],
)  # fmt: skip
def test_of_the_stock_that_food_is_poached_in_only_what_is_measured_out_is_eaten(
    method: str, share: float
) -> None:
    found = reading(IN_STOCK, method)
    assert found.recipe["steps"][0]["kind"] == "simmer"
    assert found.recipe["steps"][0]["duration_h"] == pytest.approx(0.3333, abs=1e-3)
    assert [eaten(found, n) for n in range(5)] == [1.0, share, 1.0, 1.0, 1.0]


@pytest.mark.parametrize(
    "goes_on",
    [
        "Remove it. Whisk the broth into the butter and flour.",
        "Stir in the cream and serve with the broth.",
    ],
)
def test_a_stock_that_is_not_measured_out_is_eaten(goes_on: str) -> None:
    found = reading(IN_STOCK, f"Simmer the chicken in the broth for 20 minutes. {goes_on}")
    assert eaten(found, 1) == 1.0


def test_a_can_of_stock_is_known_by_its_size() -> None:
    method = (
        "Put the chicken in the broth and cook 20 minutes. Remove. Stir 200 ml of the broth into the flour."
    )
    found = reading(["4 chicken breasts", "1-14oz. can chicken broth", "50 g flour"], method)
    assert eaten(found, 1) == pytest.approx(0.5, abs=0.02)


HADDOCK = ["400 g smoked haddock", "500 ml milk", "300 g potatoes", "30 g butter", "30 g flour"]


@pytest.mark.parametrize(
    ("method", "milk"),
    [
        ("Poach the haddock in the milk. Lift out the fish. Mash the potatoes and add the fish.", 0.0),
        ("Put the haddock in a pan with the milk and simmer for 8 minutes. Take out the fish.", 0.0),
        ("Lay the haddock in a pan with the milk and simmer. Take it out and throw away the milk.", 0.0),
        ("Poach the haddock in the milk. Lift it out. Melt the butter with the flour, add the milk.", 1.0),
        ("Put the haddock in a pan with the milk and simmer. Lift it out. Stir the poaching milk into the "
         "flour and butter.", 1.0),
        ("Poach the haddock in the milk for 10 minutes and serve with the milk spooned over.", 1.0),
        ("Poach the haddock in the milk. Lift out the fish. Whisk 200 ml of the milk into the butter.", 0.4),
        ("Put the haddock, potatoes and butter in a pan with the milk and simmer. Serve.", 1.0),
    ],
)  # fmt: skip
def test_milk_that_fish_is_poached_in_is_eaten_where_it_goes_into_the_sauce(method: str, milk: float) -> None:
    assert eaten(reading(HADDOCK, method), 1) == milk
