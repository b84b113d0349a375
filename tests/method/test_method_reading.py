"""A recipe in prose becomes components and steps, each with its place in the text."""

from __future__ import annotations

from typing import Any

import pytest
from saltledger.foods.dataset import bundled
from saltledger.method.forms import written_of
from saltledger.method.method_reading import Reading, read
from saltledger.recipe.request import RecipeRequest

from ..bench.method_sodium import sodium_mg


def reading(ingredients: list[str], *method: str, **more: Any) -> Reading:
    return read(
        written_of({"title": "T", "servings": 4, "ingredients": ingredients, "method": [*method], **more})
    )


def component(found: Reading, line: str) -> tuple[str, float | None]:
    """The component a line is in, and the share of it that is eaten."""
    for each in found.recipe["components"]:
        if line in each["ingredients"]:
            return each["id"], each.get("eaten_fraction")
    raise AssertionError(line)


def test_a_brine_is_poured_away() -> None:
    found = reading(
        ["1.4 kg boneless pork loin", "# For the brine", "3 l water", "150 g table salt"],
        "Dissolve the salt in the water, put in the pork and leave it in the fridge for 24 hours.",
        "Lift the pork out, pat dry and roast at 160 °C until done.",
    )
    (step,) = (s for s in found.recipe["steps"] if s["kind"] == "brine")
    assert step["duration_h"] == 24
    assert step["temperature_c"] == 4
    assert component(found, "150 g table salt") == (step["bath"], 0.0)
    assert component(found, "1.4 kg boneless pork loin") == (step["food"], None)
    RecipeRequest.from_document(found.recipe)


def test_salted_water_that_no_line_names_is_assumed_and_asked_about() -> None:
    found = reading(
        ["400 g spaghetti", "2 tbsp olive oil"],
        "Bring a large pot of salted water to a boil. Add the spaghetti and cook for 9 minutes, then drain.",
        "Toss with the oil.",
    )
    (step,) = found.recipe["steps"]
    assert (step["kind"], step["duration_h"]) == ("boil", 0.15)
    assumed = [line for line in found.lines if line["index"] is None]
    assert {line["component"] for line in assumed} == {step["bath"]}
    assert [question.taken for question in found.questions] == ["salted"]


def test_an_answer_settles_a_question() -> None:
    lines = ["400 g spaghetti"]
    method = "Cook the spaghetti in salted water for 9 minutes, then drain."
    (question,) = reading(lines, method).questions
    settled = reading(lines, method, answers={question.id: "plain"})
    assert settled.questions[0].answered
    assert all("salt" not in line["text"] for line in settled.lines if line["index"] is None)


def test_what_is_eaten_whole_is_one_dish() -> None:
    found = reading(
        ["1 onion", "1 l chicken stock", "200 g lentils", "1 tsp salt"],
        "Fry the onion. Add the lentils, stock and salt, bring to a boil and simmer for 30 minutes.",
    )
    assert len(found.recipe["components"]) == 1


def test_a_step_points_at_its_words() -> None:
    method = ["Chop.", "Soak the salt cod in cold water for 24 hours, changing the water twice."]
    found = reading(["800 g salt cod"], *method)
    (step,) = found.steps
    assert method[step["method"]][step["start"] : step["end"]] == step["text"]
    assert found.recipe["steps"][0]["water_changes"] == 2


def test_headings_count_and_are_no_food() -> None:
    found = reading(["# Soup", "1 l stock"], "Heat the stock.")
    assert [line["component"] for line in found.lines] == [None, "dish"]
    assert found.lines[0]["reason"] == "a heading"


@pytest.mark.parametrize(
    ("lines", "servings", "little", "well"),
    [
        (["1 kg mince", "salt"], 4, "about 2 g (1/4 teaspoon)", "about 11 g (2 teaspoons)"),
        (["mince", "salt"], 4, "about 2.1 g (1/4 teaspoon)", "about 11 g (2 teaspoons)"),
        (["500 g mince", "salt"], 4, "about 0.98 g (1/8 teaspoon)", "about 5.3 g (1 teaspoon)"),
        (["3 kg mince", "salt"], 4, "about 5.9 g (1 teaspoon)", "about 32 g (5.5 teaspoons)"),
        (
            ["300 g berries", "150 g sugar", "salt"],
            1,
            "about 0.043 g (a pinch)",
            "about 1.4 g (1/4 teaspoon)",
        ),
    ],
)
def test_how_much_salt_is_little_and_well_goes_by_the_dish(lines, servings, little, well):
    found = reading(lines, "Mix all with the salt and fry it.", servings=servings)
    labels = [choice.label for choice in found.questions[0].choices]
    assert labels[1:] == [f"Little: {little} in all.", f"Well: {well} in all."]


@pytest.mark.parametrize(
    "lines",
    [
        ["1 kg potatoes", "1 l chicken stock"],
        ["500 g noodles", "300 g tofu", "60 ml soy sauce"],
        ["800 g leeks", "200 g ham", "150 g gruyere", "300 ml cream"],
        ["2 tins (400 g each) butter beans", "1 onion", "100 g olives"],
        ["1 kg tomatoes", "2 onions", "1 tsp salt"],
    ],
)
def test_what_is_salty_without_it_is_salted_less_by_every_choice(lines):
    found = reading(lines, "Cook all together and season to taste with a little more salt.", servings=4)
    asked = [each for each in found.questions if each.field == "ingredients" and "season" in each.message]
    for question in asked:
        mg = {
            each.choice: sodium_mg(read(found.written, {question.id: each.choice}).recipe, bundled())
            for each in question.choices
        }
        assert mg["none"] < mg["little"] < 1.02 * mg["usual"] < mg["well"]
    assert asked or "salt" in lines[-1]


@pytest.mark.parametrize("lines", [["2 kg mince"], ["200 g mince"], ["1 kg mince", "2 onions"]])
@pytest.mark.parametrize(("salt", "method"), [("salt", "Fry all."), ("", "Fry all and season to taste.")])
@pytest.mark.parametrize("servings", [None, 2, 9])
def test_more_salt_is_more_sodium_by_every_choice(lines, salt, method, servings):
    found = reading([*lines, salt], method, servings=servings)
    (question,) = (each for each in found.questions if each.field != "servings")
    mg = {
        each.choice: sodium_mg(read(found.written, {question.id: each.choice}).recipe, bundled())
        for each in question.choices
    }
    assert mg.get("none", 0) <= mg.get("little", mg["usual"] / 2) < mg["usual"] < mg["well"] < 2 * mg["usual"]
