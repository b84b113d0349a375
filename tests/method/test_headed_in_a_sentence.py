"""Food that heads what is done with it, in a sentence of its own or before a dash."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds

LIST = ["1 kg potatoes", "6 eggs", "400 g carrots", "200 g macaroni", "1 tbsp salt", "2 tbsp mayonnaise"]
POTATOES = "POTATOES. Boil in salted water 20 min. Drain."


def boils(*method: str) -> list[tuple[object, object]]:
    return [(s["food"], s.get("duration_h")) for s in reading(LIST, *method).recipe["steps"]]


@pytest.mark.parametrize("head", ["EGGS. ", "Eggs: ", "Eggs – ", "The eggs. ", "For the eggs: "])
@pytest.mark.parametrize(
    "body",
    [
        "Separate pan, plain water, 9 min.",
        "Boil 9 min.",
        "Boiling water, 9 minutes.",
        "Cover with cold water, bring to the boil, 9 minutes.",
        "Into boiling water, 9 minutes.",
        "A separate pot, 9 minutes.",
    ],
)
def test_what_a_sentence_names_alone_is_what_the_next_one_works_on(head: str, body: str) -> None:
    said = f"{head}{body} Cool and peel."
    for method in ([POTATOES, said], [f"{POTATOES} {said}"]):
        assert boils(*method) == [("potatoes", 0.3333), ("eggs", 0.15)]
        assert eaten(reading(LIST, *method), 4) == 0.0


@pytest.mark.parametrize("food", ["carrots", "macaroni"])
@pytest.mark.parametrize(
    "body", ["Another pot of salted water, 6 minutes.", "Salted water, 6 min.", "6 min in salted water."]
)
def test_each_head_has_its_own_pot(food: str, body: str) -> None:
    assert boils(POTATOES, f"{food.upper()}. {body} Drain.") == [("potatoes", 0.3333), (food, 0.1)]


@pytest.mark.parametrize(
    "said",
    [
        "Cucumber: salted water, 15 minutes. Drain and pat dry.",
        "Cucumber. Salted water, 15 minutes. Drain and pat dry.",
    ],
)
def test_what_is_eaten_raw_lies_in_salted_water(said: str) -> None:
    found = reading(["2 cucumbers", "1 tbsp salt", "100 ml yogurt"], said, "Stir in the yogurt.")
    assert kinds(found)[:1] == ["brine"]


def test_a_sentence_that_names_its_own_food_has_no_head() -> None:
    said = "Potatoes. Boil the carrots in salted water for 6 minutes and drain."
    assert boils(said) == [("carrots", 0.1)]


@pytest.mark.parametrize("egg", ["Egg, then the crumbs.", "Flour, egg, crumbs."])
def test_the_egg_of_a_coat_is_not_what_is_fried(egg: str) -> None:
    lines = ["4 pork chops", "1 egg", "100 g flour", "100 g breadcrumbs", "500 ml oil"]
    found = reading(lines, f"Beat the chops flat. {egg} Fry them in the oil for 6 minutes.")
    assert [s["food"] for s in found.recipe["steps"] if s["kind"] == "fry"] == ["pork-chops"]
