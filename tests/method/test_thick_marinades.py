"""Yogurt and pastes that food lay in: what clings goes along, the rest is thrown away, a person is asked."""

from __future__ import annotations

import pytest
from saltledger.foods.dataset import bundled
from saltledger.method.forms import written_of
from saltledger.method.method_reading import Reading, read
from saltledger.recipe.calculation import calculate
from saltledger.recipe.request import RecipeRequest

YOGURT = ["900 g lamb leg, cubed", "300 g Greek yogurt", "2 tsp salt", "1 tbsp coriander", "2 tbsp oil"]
PASTE = ["1.4 kg chicken legs", "5 red chillies", "thyme", "1 tbsp salt", "2 tbsp vinegar", "2 tbsp oil"]
SOY = ["900 g lamb leg, cubed", "150 ml soy sauce", "100 ml orange juice", "2 tbsp oil"]
IN_YOGURT = "Stir the yogurt with the salt, coriander and oil, fold in the lamb and chill for 8 hours. "
IN_PASTE = (
    "Grind the chillies, thyme, salt, vinegar and oil to a paste, rub it over the chicken and chill 8 hours. "
)


def reading_of(lines: list[str], method: str) -> Reading:
    return read(written_of({"title": "Ferry lunch", "servings": 4, "ingredients": lines, "method": [method]}))


def eaten(reading: Reading) -> float:
    step = next(each for each in reading.recipe["steps"] if each["kind"] == "marinate")
    baths = {each["id"]: each.get("eaten_fraction", 1.0) for each in reading.recipe["components"]}
    return baths[step["bath"]]


def choices(reading: Reading) -> list[str]:
    found = [each for each in reading.questions if each.id.startswith("clinging")]
    return [choice.choice for each in found for choice in each.choices]


@pytest.mark.parametrize(
    ("lines", "method"),
    [
        (YOGURT, IN_YOGURT + "Shake off the excess and grill the lamb."),
        (YOGURT, IN_YOGURT + "Lift the lamb out, letting the extra drip back into the bowl. Grill."),
        (YOGURT, IN_YOGURT + "Take out the lamb and throw the yogurt away. Grill."),
        (PASTE, IN_PASTE + "Shake off the excess and barbecue the chicken."),
        (PASTE, IN_PASTE + "Discard the leftover marinade and barbecue the chicken."),
    ],
)
def test_what_clings_of_a_thick_marinade_goes_along(lines: list[str], method: str) -> None:
    reading = reading_of(lines, method)
    assert eaten(reading) == pytest.approx(0.3)
    assert choices(reading) == ["off", "little", "clings", "most"]


@pytest.mark.parametrize(
    ("end", "share"),
    [
        ("Wipe off most of the yogurt and grill the lamb.", 0.15),
        ("Scrape off the excess and grill the lamb.", 0.15),
        ("Take out the lamb, do not wipe it, throw the rest of the marinade away. Grill.", 0.7),
        ("Wipe the lamb clean and grill it.", 0.0),
        ("Rinse the lamb, dry it and grill.", 0.0),
    ],
)
def test_words_tell_how_much_of_it(end: str, share: float) -> None:
    assert eaten(reading_of(YOGURT, IN_YOGURT + end)) == pytest.approx(share)


def test_the_pan_is_wiped_and_not_the_food() -> None:
    method = IN_YOGURT + "Shake off the excess. Wipe the pan dry, heat it and brown the lamb."
    assert eaten(reading_of(YOGURT, method)) == pytest.approx(0.3)


def test_a_thin_marinade_runs_off() -> None:
    method = "Mix the soy sauce, juice and oil. Add the lamb for 8 hours. Shake off the excess and grill."
    reading = reading_of(SOY, method)
    assert eaten(reading) == 0.0
    assert not choices(reading)


def test_a_thick_marinade_that_is_baked_with_the_food_is_eaten() -> None:
    method = IN_YOGURT + "Tip the lamb and all its marinade into a dish and bake for 40 minutes."
    assert eaten(reading_of(YOGURT, method)) == 1.0


def test_what_clings_is_grilled_with_its_food_and_not_eaten_raw() -> None:
    found = reading_of(YOGURT, IN_YOGURT + "Shake it off and grill the lamb for 12 minutes.")
    heated = next(each for each in found.recipe["steps"] if each["kind"] == "roast")
    assert len(heated["food"]) == 2
    outcome = calculate(RecipeRequest.from_document(found.recipe), bundled())
    assert "raw-marinade-eaten" not in [notice["code"] for notice in outcome["notices"]]


def test_nothing_clings_to_what_was_wiped_clean() -> None:
    found = reading_of(YOGURT, IN_YOGURT + "Wipe the lamb clean and grill it for 12 minutes.")
    heated = next(each for each in found.recipe["steps"] if each["kind"] == "roast")
    assert isinstance(heated["food"], str)
