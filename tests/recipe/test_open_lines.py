"""What is asked of a recipe's lines: how much, whether at all, which kind; and what an answer does."""

from __future__ import annotations

from typing import Any

import pytest
from saltledger.calculator import reading_answer, with_answers
from saltledger.core.errors import InvalidRequest
from saltledger.foods.dataset import bundled
from saltledger.gate.reading import load
from saltledger.gate.recipe_schema import ReadableSchema, RecipeSchema
from saltledger.method.method_reading import LEAST_SWING, MOST_ASKED

STEW = ["800 g diced chicken", "2 onions", "600 g potatoes"]


def asked(
    *lines: str, answers: dict[str, str] | None = None, method: str = "Stew it all for an hour."
) -> Any:
    body = {"servings": 4, "ingredients": [*STEW, *lines], "method": [method], "answers": answers or {}}
    return reading_answer(load(ReadableSchema(), body), bundled())


def about(reading: Any, words: str) -> dict[str, Any]:
    (found,) = (each for each in reading["questions"] if words in each["message"])
    return dict(found)


@pytest.mark.parametrize(
    ("line", "words", "choices"),
    [
        ("soy sauce", "gives no amount", 3),
        ("olives", "gives no amount", 3),
        ("grated cheddar (optional)", "if it goes in", 4),
        ("150 g feta (optional)", "leaves it open", 2),
        ("1 to 3 tbsp fish sauce", "not sure", 3),
        ("2 tsp salt", "Which salt", 2),
        ("100 g grated parmesan, plus extra to serve", "more of it may", 2),
        ("150 g butter", "Which kind", 2),
        ("1 litre chicken stock", "Which kind", 2),
        ("2 cans chickpeas", "Which kind", 3),
        ("200 g bacon or mushrooms", "Which food", 2),
    ],
)
def test_what_a_line_leaves_open_is_asked(line: str, words: str, choices: int) -> None:
    question = about(asked(line), words)
    assert len(question["choices"]) == choices
    assert question["taken"] == "as_read"
    assert not question["answered"]
    assert question["swing_mg_per_serving"] > 0


@pytest.mark.parametrize(
    "line",
    ["150 g unsalted butter", "1 litre low sodium chicken stock", "2 cans chickpeas, drained, no salt added"],
)
def test_what_a_line_says_is_not_asked(line: str) -> None:
    assert not [each for each in asked(line)["questions"] if "Which kind" in each["message"]]


def test_a_step_that_drains_a_can_is_no_question() -> None:
    reading = asked("2 cans chickpeas", method="Drain the chickpeas. Stew it all for an hour.")
    offered = [c["choice"] for each in reading["questions"] for c in each["choices"]]
    assert "drained" not in offered


def test_what_moves_little_is_not_asked() -> None:
    assert asked("1 tbsp soy sauce", "a bay leaf", "pepper")["questions"] == []
    busy = asked(
        *(f"{food} (optional)" for food in ("olives", "feta", "bacon", "capers", "kimchi", "ham", "miso"))
    )
    assert len(busy["questions"]) <= MOST_ASKED
    swings = [each["swing_mg_per_serving"] for each in busy["questions"]]
    assert swings == sorted(swings, reverse=True)
    likely = about(asked("soy sauce"), "soy")["choices"][1]["sodium_mg_per_serving"]
    assert about(asked("soy sauce"), "soy")["swing_mg_per_serving"] >= LEAST_SWING * likely


@pytest.mark.parametrize(
    "line", ["soy sauce", "150 g feta (optional)", "2 cans chickpeas", "200 g bacon or mushrooms"]
)
def test_an_answer_gives_the_figure_that_its_choice_told(line: str) -> None:
    question = asked(line)["questions"][0]
    for choice in question["choices"]:
        answer = asked(line, answers={question["id"]: choice["choice"]})
        (again,) = (each for each in answer["questions"] if each["id"] == question["id"])
        assert (again["taken"], again["answered"]) == (choice["choice"], True)
        told = {c["choice"]: c["sodium_mg_per_serving"] for c in again["choices"]}
        assert told == {c["choice"]: c["sodium_mg_per_serving"] for c in question["choices"]}


def test_a_weight_of_ones_own_is_taken() -> None:
    question = about(asked("soy sauce"), "soy")
    answer = asked("soy sauce", answers={question["id"]: "33 g"})
    line = {"line": "soy sauce", "grams": 33}
    assert line in [each for c in answer["recipe"]["components"] for each in c["ingredients"]]
    assert about(answer, "soy")["taken"] == "33 g"


@pytest.mark.parametrize(("line", "choice"), [("soy sauce", "lots"), ("2 cans chickpeas", "smoked")])
def test_an_answer_that_is_not_offered_is_refused(line: str, choice: str) -> None:
    key = asked(line)["questions"][0]["id"]
    with pytest.raises(InvalidRequest) as refused:
        asked(line, answers={key: choice})
    assert refused.value.faults[0].pointer == f"/answers/{key}"


def test_a_line_in_two_parts_shares_its_weight() -> None:
    method = (
        "Marinate the chicken in half the soy sauce for 2 hours. Stew it all with the rest of the soy sauce."
    )
    question = about(asked("soy sauce", method=method), "soy")
    parts = asked("soy sauce", method=method, answers={question["id"]: "40 g"})["recipe"]["components"]
    weights = [
        each["grams"]
        for c in parts
        for each in c["ingredients"]
        if isinstance(each, dict) and "grams" in each
    ]
    assert sum(weights) == pytest.approx(40)
    assert len(weights) == 2


def test_answers_stay_while_their_line_stands() -> None:
    key = about(asked("soy sauce"), "soy")["id"]
    body = {"servings": 4, "ingredients": [*STEW, "soy sauce"], "method": ["Stew it all for an hour."]}
    saved = load(RecipeSchema(), {**body, "answers": {key: "33 g"}})
    longer = load(RecipeSchema(), {**body, "method": ["Stew it all for two hours."]})
    assert with_answers(longer, saved)["written"]["answers"] == {key: "33 g"}
    other = load(RecipeSchema(), {**body, "ingredients": [*STEW, "light soy sauce"]})
    assert "answers" not in with_answers(other, saved)["written"]


def test_servings_that_nobody_states_are_asked() -> None:
    body = {"title": "Stew", "ingredients": STEW, "method": ["Stew it all with 10 g salt for an hour."]}
    first = reading_answer(load(ReadableSchema(), body), bundled())
    question = about(first, "How many servings")
    assert question["pointer"] == "/servings"
    whole, six = (c["sodium_mg_per_serving"] for c in question["choices"] if c["choice"] in ("whole", "6"))
    assert whole == pytest.approx(6 * six)
    answer = reading_answer(load(ReadableSchema(), {**body, "answers": {question["id"]: "6"}}), bundled())
    assert answer["recipe"]["servings"] == 6
    assert "servings-not-stated" not in [each["code"] for each in answer["notices"]]


def test_food_without_a_weight_that_takes_up_salt_is_asked_about() -> None:
    body = {
        "servings": 4,
        "ingredients": ["1 crate of salsify"],
        "method": ["Boil the salsify in well salted water for 20 minutes, then drain them."],
    }
    question = about(reading_answer(load(ReadableSchema(), body), bundled()), "weight is not known")
    told = [c["sodium_mg_per_serving"] for c in question["choices"]]
    assert told == sorted(told)
    assert told[0] < told[-1]


def test_salt_by_the_hand_is_how_much_and_no_kind() -> None:
    lines = ["1 kg tomatoes", "6 pinches of salt"]
    body = {"servings": 4, "ingredients": lines, "method": ["Roast the tomatoes with the salt."]}
    question = about(reading_answer(load(ReadableSchema(), body), bundled()), "pinches")
    assert "Its weight is not sure" in question["message"]
