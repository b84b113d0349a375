"""Salted fish that is soaked in one water and pickled in another, whichever of them the list names."""

from __future__ import annotations

import pytest
from saltledger.method.forms import written_of
from saltledger.method.method_reading import read

LINES = ["500 g salted herring fillets", "200 ml vinegar", "150 g sugar", "300 ml water", "1 onion"]


def read_steps(*method, lines=LINES):
    recipe = {"title": "Tern Quay", "servings": 6, "ingredients": lines, "method": list(method)}
    return read(written_of(recipe)).recipe


@pytest.mark.parametrize(
    "soak",
    [
        "Soak the herring in cold water overnight.",
        "Soak the herring in plenty of cold water overnight, changing the water once.",
        "Lay the herring in cold water and let it stand in the fridge overnight.",
        "Lay the herring in lots of cold water and leave it overnight, changing the water once before bed.",
    ],
)
@pytest.mark.parametrize(
    "boil",
    ["Bring vinegar, sugar and water to the boil. Let it cool.", "Boil up vinegar, sugar and water. Cool."],
)
@pytest.mark.parametrize(
    "pour",
    [
        "Drain the herring and put it in a jar. Pour the cold liquid over. Refrigerate for 3 days.",
        "Drain the herring. Pour the liquor over and leave for 3 days.",
        "Drain the fillets. Pour the pickle over and leave for 3 days.",
    ],
)
def test_soaked_and_then_pickled(soak, boil, pour):
    recipe = read_steps(soak, boil, pour)
    steps = recipe["steps"]
    assert [(step["kind"], step["duration_h"]) for step in steps] == [("soak", 12.0), ("brine", 72.0)]
    own = {part["id"]: part["ingredients"] for part in recipe["components"]}
    assert {"300 ml water", "200 ml vinegar"} <= set(own[steps[1]["bath"]])
    assert own[steps[0]["bath"]] != ["300 ml water"]


@pytest.mark.parametrize(
    "said", ["before bed", "before you go to bed", "before going to bed", "at bedtime", "in the evening"]
)
def test_water_is_changed_once_before_bed(said):
    steps = read_steps(
        f"Lay the herring in cold water and leave it overnight, swapping the water once {said}. Drain."
    )
    assert [(s["kind"], s["duration_h"], s["water_changes"]) for s in steps["steps"]] == [("soak", 12.0, 1)]


def test_the_one_water_of_the_list_is_of_the_soak_where_nothing_else_is_made_of_it():
    recipe = read_steps(
        "Soak the herring in the water overnight. Drain and slice.",
        lines=["500 g salted herring", "2 l water"],
    )
    own = {part["id"]: part["ingredients"] for part in recipe["components"]}
    assert own[recipe["steps"][0]["bath"]] == ["2 l water"]
