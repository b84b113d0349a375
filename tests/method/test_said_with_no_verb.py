"""What is said with no verb: a sauce or salt that is "on", a food's name and a colon."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds, step


@pytest.mark.parametrize(
    "said",
    [
        "Break the tempeh up, tamari on, 20 min.",
        "Break up the tempeh, tamari over it, leave 20 min.",
        "Tempeh in thick slices, tamari on top. Leave 20 min.",
    ],
)
def test_food_lies_in_a_sauce_that_is_on_it(said: str) -> None:
    found = reading(["250 g tempeh", "3 tbsp tamari soy sauce", "200 g noodles"], f"{said} Then fry hot.")
    assert step(found, "marinate")["duration_h"] == pytest.approx(0.33, abs=0.01)
    assert eaten(found, 1) == 1.0


def test_two_sauces_go_on_together() -> None:
    lines = ["4 trout fillets", "3 tbsp soy sauce", "juice of 1 lemon", "1 tbsp oil"]
    found = reading(lines, "Trout in a dish, soy sauce and lemon over, half an hour. Fry in the oil.")
    assert step(found, "marinate")["duration_h"] == 0.5


@pytest.mark.parametrize("salts", ["salt on, 25 min", "salt over, 25 min", "salt and sugar on, 25 min"])
def test_vegetables_weep_under_salt_that_is_on_them(salts: str) -> None:
    lines = ["2 cucumbers", "2 tsp salt", "1 tsp sugar", "150 g yoghurt"]
    found = reading(lines, f"Cucumbers shaved thin, {salts}, squeeze. Yoghurt in.")
    assert kinds(found) == ["dry_cure", "squeeze"]


@pytest.mark.parametrize(
    "said",
    [
        "Trout: salt, sugar, dill. 12 h walk-in.",
        "Trout: salt, sugar, dill, 12 h in the fridge.",
        "Trout under the salt, 12 h in the fridge.",
    ],
)
def test_a_foods_name_and_its_salt_are_a_cure_once_it_stands(said: str) -> None:
    found = reading(["1 kg trout", "90 g salt", "40 g sugar", "dill"], f"{said} Rinse. Dry.")
    assert kinds(found) == ["dry_cure", "rinse"]
    assert step(found, "dry_cure")["duration_h"] == 12.0


@pytest.mark.parametrize(
    "method",
    [
        "Cod: oil, salt, skin down, 4 min. Lemon on.",
        "Cod: salt, oil, 200C, 25 min. Lemon on.",
        "Cod in a tray, oil over, salt on, 20 min in the oven. Lemon on.",
    ],
)
def test_food_that_is_cooked_at_once_is_only_seasoned(method: str) -> None:
    found = reading(["4 cod fillets", "1 tsp salt", "2 tbsp oil", "1 lemon"], method)
    assert not {"dry_cure", "marinate"} & set(kinds(found))


def test_a_sauce_goes_over_meat_that_cooks() -> None:
    lines = ["500 g pork, in strips", "1 onion", "3 tbsp soy sauce"]
    found = reading(lines, "Fry the onion, pork in, brown it. Soy sauce over, 15 min.")
    assert "marinate" not in kinds(found)
