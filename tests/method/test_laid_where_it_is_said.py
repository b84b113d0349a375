"""Food that is laid in milk or water with no word for it, and salt food called by its name alone."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds, step


@pytest.mark.parametrize("first", ["Skin and bone the herring", "Cut up the herring", "Fillet the herring"])
@pytest.mark.parametrize("food", ["4 salt herring", "200 g salted herring", "4 matjes herring"])
def test_what_was_cut_is_laid_in_milk(first: str, food: str) -> None:
    found = reading(
        [food, "250 ml milk", "1 apple"],
        f"{first} and lay in the milk for 3 hours. Drain. Mix with the apple.",
    )
    assert kinds(found) == ["soak"]
    assert step(found, "soak")["duration_h"] == 3.0
    assert eaten(found, 1) == 0.0


def test_matjes_gives_its_salt_to_milk() -> None:
    found = reading(["5 matjes fillets", "250 ml milk"], "Leave the matjes in the milk for an hour. Drain.")
    assert kinds(found) == ["soak"]


@pytest.mark.parametrize(
    "method",
    [
        "Salt cod: 14 hours in cold water. Drain. Boil in fresh water for 10 minutes, drain.",
        "Salt cod into cold water for 14 hours. Drain. Boil in fresh water for 10 minutes, drain.",
        "Salt cod soaked 14 hours. Drain. Boil in fresh water for 10 minutes, drain.",
    ],
)
def test_salt_cod_at_the_start_is_a_name(method: str) -> None:
    found = reading(["600 g salt cod", "1 onion"], method)
    assert kinds(found) == ["soak", "boil"]
    assert step(found, "soak")["duration_h"] == 14.0


def test_cod_of_the_list_is_salted_where_the_sentence_says_so() -> None:
    found = reading(["600 g cod", "2 tbsp salt", "1 onion"], "Salt cod and leave for 2 hours. Rinse and fry.")
    assert kinds(found)[0] == "dry_cure"


@pytest.mark.parametrize(
    "said",
    [
        "Leave the rice in salted water for 2 hours",
        "Leave the rice in cold water with 1 tbsp of the salt for 2 hours",
    ],
)
def test_rice_that_is_left_in_water_soaks_and_is_drained(said: str) -> None:
    found = reading(
        ["350 g basmati rice", "3 tbsp salt", "40 g butter"],
        f"{said}. Drain. Boil plenty of water with the rest of the salt, add the rice, boil 6 minutes and "
        "drain.",
    )
    assert kinds(found) == ["soak", "boil"]
    assert step(found, "soak")["duration_h"] == 2.0


def test_rice_that_is_left_in_hot_water_drinks_it() -> None:
    found = reading(
        ["350 g rice", "40 g butter"], "Leave the rice in hot water for 20 minutes. Add the butter."
    )
    assert "soak" not in kinds(found)
