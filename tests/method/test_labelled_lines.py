"""A line that holds a part of a list ("Brine: 60 g salt, 1 l water") is read as a heading with lines."""

from __future__ import annotations

import pytest
from saltledger.method.forms import written_of
from saltledger.method.labelled_lines import lines_apart
from saltledger.method.method_reading import read


def reading_of(lines, method):
    return read(written_of({"title": "Tern Quay", "servings": 4, "ingredients": lines, "method": [method]}))


def shape_of(lines, method):
    recipe = reading_of(lines, method).recipe
    components = [
        (each["id"], each["ingredients"], each.get("eaten_fraction")) for each in recipe["components"]
    ]
    return components, recipe.get("steps", [])


@pytest.mark.parametrize(
    ("line", "label", "foods"),
    [
        ("Cure: 50 g salt, 20 g sugar", "Cure:", ["50 g salt", "20 g sugar"]),
        ("Cure: 50 g salt", "Cure:", ["50 g salt"]),
        ("For the cure: 50 g salt, 50 g sugar", "For the cure:", ["50 g salt", "50 g sugar"]),
        ("Rub: 50 g salt, pepper, 1 tsp paprika", "Rub:", ["50 g salt", "pepper", "1 tsp paprika"]),
        ("BRINE: 60 g salt; 1 l water", "BRINE:", ["60 g salt", "1 l water"]),
        ("Brine (5%): 1 l water and 50 g salt", "Brine:", ["1 l water", "50 g salt"]),
        ("Brine - 60 g salt in 1 litre water", "Brine:", ["60 g salt", "1 litre water"]),
        ("Marinade: ½ cup soy sauce, ¼ cup lime juice", "Marinade:", ["½ cup soy sauce", "¼ cup lime juice"]),
        ("Salad: 1 lettuce, torn, 2 tomatoes", "Salad:", ["1 lettuce, torn", "2 tomatoes"]),
    ],
)
def test_a_line_with_a_label_is_a_heading_with_a_line_of_each_food(line, label, foods):
    apart = lines_apart(("1 kg chicken", line, "1 lemon"))
    assert apart.lines == ("1 kg chicken", "1 lemon", label, *foods)
    assert apart.sources == (0, 2, -1, *(1 for _ in foods))


@pytest.mark.parametrize(
    ("line", "foods"),
    [
        ("60 g salt in 1 litre water", ("60 g salt", "1 litre water")),
        ("1 l water and 60 g salt for the brine", ("1 l water for the brine", "60 g salt for the brine")),
        ("2 l cold water with 100 g coarse salt", ("2 l cold water", "100 g coarse salt")),
    ],
)
def test_salt_and_the_water_that_it_goes_into_are_two_lines(line, foods):
    assert lines_apart(("1 kg onions", line)).lines == ("1 kg onions", *foods)


@pytest.mark.parametrize(
    "line",
    [
        "Chicken: 2 breasts, skinned",
        "Butter: 100 g, 1/2 cup",
        "Salt: 1 tsp",
        "Onion - 1 large, 2 small",
        "For soaking: 2 l water",
        "Optional: 1 tsp salt",
        "For the batter: 2 cups flour,",
        "1 tsp salt and 1 tsp pepper",
        "200 g bread - 3 slices, 1 cm thick",
        "Brine:",
    ],
)
def test_a_line_of_one_food_stays_as_it_is(line):
    assert lines_apart((line, "1 onion")).lines == (line, "1 onion")


@pytest.mark.parametrize(
    ("line", "below", "method"),
    [
        (
            "Brine: 1 l water, 60 g salt",
            ["Brine:", "1 l water", "60 g salt"],
            "Leave the onions in the brine.",
        ),
        (
            "Brine: 1 l water, 60 g salt",
            ["Brine:", "1 l water", "60 g salt"],
            "Make the brine and leave the onions in it for 24 hours. Drain.",
        ),
        (
            "For the brine: 60 g salt in 1 l water",
            ["For the brine:", "60 g salt", "1 l water"],
            "Boil the brine, cool, and pour over the onions in jars.",
        ),
        (
            "Cure: 50 g salt",
            ["Cure:", "50 g salt"],
            "Rub the onions with the cure and leave overnight. Rinse.",
        ),
        (
            "Marinade: 100 ml soy sauce, 1 tbsp sugar",
            ["Marinade:", "100 ml soy sauce", "1 tbsp sugar"],
            "Marinate the onions for 2 hours, lift out and grill.",
        ),
    ],
)
def test_it_is_read_as_the_same_lines_below_a_heading_are(line, below, method):
    components, steps = shape_of(["1 kg onions", line], method)
    assert steps
    assert (components, steps) == shape_of(["1 kg onions", *below], method)


def test_what_stands_below_such_a_line_is_none_of_its_part():
    components, _ = shape_of(
        ["1 kg salmon", "Cure: 50 g salt, 20 g sugar", "1 lemon, sliced"],
        "Rub the salmon with the cure and leave overnight. Rinse. Serve with the lemon.",
    )
    assert ("cure", ["50 g salt", "20 g sugar"], 0.0) in components
    assert ("dish", ["1 lemon, sliced"], None) in components


def test_a_second_label_is_none_of_the_marinade():
    components, _ = shape_of(
        ["750 g steak", "Marinade: 1/2 cup soy sauce, 1/4 cup lime juice", "Sauce: 1 cup yogurt, 1 tsp salt"],
        "Marinate the steak for 2 hours. Discard the marinade. Grill.",
    )
    assert ("marinade", ["1/2 cup soy sauce", "1/4 cup lime juice"], 0.0) in components
    assert ("dish", ["1 cup yogurt", "1 tsp salt"], None) in components


def test_every_part_is_told_with_the_index_of_its_line_as_sent():
    reading = reading_of(["Brine: 60 g salt, 1 l water", "1 kg onions"], "Leave the onions in the brine.")
    assert {(line["index"], line["text"]) for line in reading.lines} == {
        (1, "1 kg onions"),
        (0, "60 g salt"),
        (0, "1 l water"),
    }
