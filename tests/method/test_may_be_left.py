"""Questions about what may be left behind: brine of a crock, marinades, what gathers under a roast, salt."""

from __future__ import annotations

from typing import Any

import pytest
from saltledger.calculator import reading_answer
from saltledger.foods.dataset import bundled
from saltledger.gate.reading import load
from saltledger.gate.recipe_schema import ReadableSchema


def asked(lines: list[str], *method: str, servings: float = 4, **answers: str) -> Any:
    body = {"servings": servings, "ingredients": lines, "method": list(method), "answers": answers}
    return reading_answer(load(ReadableSchema(), body), bundled())


def offered(reading: Any, words: str) -> dict[str, float]:
    """The choices of the question that has these words, with their sodium; none where it is not asked."""
    found = [each for each in reading["questions"] if words in each["message"]]
    return {c["choice"]: c["sodium_mg_per_serving"] for each in found for c in each["choices"]}


CABBAGE = ["1 kg white cabbage", "25 g salt", "1 tsp caraway seeds"]


@pytest.mark.parametrize(
    "method",
    [
        "Knead the shredded cabbage with the salt, press it into a crock and ferment for 3 weeks.",
        "Rub the salt into the cabbage, pack it into a jar and leave it to ferment for a month.",
    ],
)
def test_the_brine_of_a_crock_is_eaten_or_left(method: str) -> None:
    choices = offered(asked(CABBAGE, method, servings=10), "brine that the white cabbage makes")
    assert choices["poured_away"] < 0.9 * choices["eaten"]


WINGS = ["1 kg chicken wings", "80 ml soy sauce", "2 tbsp honey"]


def test_a_marinade_that_is_basted_with_may_drip() -> None:
    method = (
        "Stir the soy sauce with the honey and marinate the wings in it overnight.",
        "Roast them on a rack for 45 minutes, basting with all of the marinade.",
    )
    choices = offered(asked(WINGS, *method), "marinade")
    assert choices["poured_away"] < choices["half"] < choices["eaten"]


BIRD = ["1 chicken, 1.6 kg", "500 ml chicken stock", "1 onion"]


@pytest.mark.parametrize("pan", ["on a rack in a roasting tin", "in a deep tray"])
def test_what_gathers_under_a_roast_may_be_left(pan: str) -> None:
    method = f"Set the chicken {pan}, pour in the stock and roast for 80 minutes, basting now and then."
    choices = offered(asked(BIRD, method), "Is all of '500 ml chicken stock' eaten?")
    assert choices["left_behind"] < choices["half"] < choices["eaten"]
    gravy = f"{method} Boil the juices down to a gravy."
    assert offered(asked(BIRD, gravy), "Is all of") == {}


def test_salt_that_no_clause_names_may_stay_in_a_coating() -> None:
    lines = ["600 g small fish", "60 g flour", "2 tsp salt", "oil"]
    choices = offered(asked(lines, "Dredge the fish in the flour. Fry it."), "'2 tsp salt' eaten?")
    assert choices["left_behind"] < choices["eaten"]
    assert (
        offered(asked(lines, "Salt the fish, turn it in the flour and fry it."), "'2 tsp salt' eaten?") == {}
    )


def test_a_days_sodium_of_one_line_is_asked_about() -> None:
    lines = ["1 kg potatoes", "40 g salt"]
    assert offered(asked(lines, "Bake the potatoes with the salt."), "Is all of '40 g salt' eaten?")
    little = ["1 kg potatoes", "8 g salt"]
    assert offered(asked(little, "Bake the potatoes with the salt."), "Is all of") == {}


def test_of_several_times_one_is_asked_for() -> None:
    lines = ["1 kg salmon", "120 g salt", "120 g sugar"]
    method = (
        "Cure the salmon in the salt and sugar for 12 hours, then turn it. Let it lie for 48 hours in all."
    )
    reading = asked([*lines], method)
    choices = offered(reading, "names several times")
    assert list(choices) == ["12", "48"]
    assert choices["12"] < choices["48"]
    (question,) = (each for each in reading["questions"] if "several times" in each["message"])
    other = next(c for c in choices if c != question["taken"])
    answered = asked(lines, method, **{question["id"]: other})
    assert answered["recipe"]["steps"][0]["duration_h"] == float(other)


def test_salt_that_only_the_method_gives_a_coating_counts() -> None:
    lines = ["500 g chicken breast", "100 g flour", "oil"]
    method = "Mix the flour with 2 tsp salt, turn the chicken in it and fry it."
    assert set(offered(asked(lines, method), "coating")) == {"sticks", "half", "all"}
