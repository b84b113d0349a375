"""Overrules hold for exactly what the reviewer saw."""

from __future__ import annotations

import copy
from typing import Any

import pytest
from saltledger.review.overrides import (
    Overrule,
    Target,
    apply,
    at,
    ingredient_pointers,
    line_key,
    normalised_line,
    targets,
)

RECIPE: dict[str, Any] = {
    "title": "Tern Quay loin",
    "servings": 4,
    "ingredients": ["1 tsp salt"],
    "components": [
        {"id": "loin", "ingredients": ["1 kg pork loin", {"line": "1 tsp salt", "grams": 5}]},
        {"id": "brine", "ingredients": ["2 l water", "1/4 cup salt", "1/4 cup salt"], "eaten_fraction": 0},
    ],
    "steps": [{"kind": "brine", "food": "loin", "bath": "brine", "duration_h": 48}],
}
SALT = "/components/1/ingredients/1"


def on(pointer: str, field: str, value: Any, recipe: Any = RECIPE) -> Overrule:
    return Overrule(targets(recipe)[pointer], field, value, "weighed", "Ines")


def changed(**parts: Any) -> dict[str, Any]:
    return {**copy.deepcopy(RECIPE), **parts}


@pytest.mark.parametrize(
    ("pointer", "field", "value", "wanted"),
    [
        ("/ingredients/0", "grams", 6, {"line": "1 tsp salt", "grams": 6}),
        ("/components/0/ingredients/1", "food", "02047", {"line": "1 tsp salt", "grams": 5, "food": "02047"}),
        (SALT, "eaten_fraction", 0.5, {"line": "1/4 cup salt", "eaten_fraction": 0.5}),
        ("/components/1", "eaten_fraction", 0.2, {**RECIPE["components"][1], "eaten_fraction": 0.2}),
        ("/steps/0", "absorption_factor", 0.3, {**RECIPE["steps"][0], "absorption_factor": 0.3}),
    ],
)
def test_each_kind_of_thing_can_be_overruled(pointer: str, field: str, value: Any, wanted: Any) -> None:
    before = copy.deepcopy(RECIPE)
    applied = apply(RECIPE, [on(pointer, field, value)])
    assert at(applied.document, pointer) == wanted
    assert [place for _, place in applied.applied] == [pointer]
    assert before == RECIPE


def test_everything_in_the_recipe_is_a_target() -> None:
    found = targets(RECIPE)
    assert list(found) == [
        "/ingredients/0",
        "/components/0",
        "/components/0/ingredients/0",
        "/components/0/ingredients/1",
        "/components/1",
        "/components/1/ingredients/0",
        "/components/1/ingredients/1",
        "/components/1/ingredients/2",
        "/steps/0",
    ]
    assert len({target.key for target in found.values()}) == len(found)
    assert ingredient_pointers(RECIPE) == [each for each in found if "ingredients" in each]
    assert found["/ingredients/0"].line_key == line_key(" 1 TSP  salt.")
    assert found["/steps/0"].line_key is None


def test_of_lines_that_are_alike_the_one_that_was_meant_is_changed() -> None:
    applied = apply(RECIPE, [on("/components/1/ingredients/2", "grams", 70)])
    assert applied.document["components"][1]["ingredients"][1:] == [
        "1/4 cup salt",
        {"line": "1/4 cup salt", "grams": 70},
    ]


@pytest.mark.parametrize(
    "parts",
    [
        {"components": [RECIPE["components"][0]], "steps": []},
        {"components": [{"id": "brine", "ingredients": ["1/2 cup salt"]}], "steps": []},
        {"components": [{"id": "brine", "ingredients": [{"line": "1/4 cup salt", "grams": 1}]}], "steps": []},
        {"components": [{"id": "pickle", "ingredients": ["1/4 cup salt"]}], "steps": []},
    ],
)
def test_what_is_not_as_it_was_is_left_alone(parts: Any) -> None:
    recipe = changed(**parts)
    overrule = on(SALT, "grams", 70)
    applied = apply(recipe, [overrule])
    assert (applied.document, applied.applied, applied.idle) == (recipe, (), (overrule,))


def test_lines_may_be_moved_around_and_written_otherwise() -> None:
    recipe = changed(components=[{"id": "brine", "ingredients": ["ice", {"line": "¼ CUP  salt"}]}], steps=[])
    aimed = Overrule(
        Target("ingredient", {"component": "brine", "asked": {"line": "1/4 cup salt"}}), "grams", 70, "", ""
    )
    assert apply(recipe, [aimed]).idle == (aimed,)
    recipe["components"][0]["ingredients"][1] = {"line": "1/4 CUP  salt."}
    assert apply(recipe, [aimed]).document["components"][0]["ingredients"][1]["grams"] == 70


@pytest.mark.parametrize(
    ("what", "change"),
    [
        ("time", lambda recipe: recipe["steps"][0].update(duration_h=72)),
        ("water", lambda recipe: recipe["components"][1]["ingredients"].append("1 l water")),
        ("food", lambda recipe: recipe["components"][0]["ingredients"].pop()),
    ],
)
def test_a_factor_holds_for_this_step_in_this_bath_only(what: str, change: Any) -> None:
    recipe = copy.deepcopy(RECIPE)
    change(recipe)
    overrule = on("/steps/0", "absorption_factor", 0.3)
    assert apply(recipe, [overrule]).idle == (overrule,), what


def test_the_share_eaten_of_a_bath_stays_when_its_lines_change() -> None:
    recipe = copy.deepcopy(RECIPE)
    recipe["components"][1]["ingredients"].append("3 bay leaves")
    applied = apply(recipe, [on("/components/1", "eaten_fraction", 0.1)])
    assert applied.document["components"][1]["eaten_fraction"] == 0.1


def test_the_last_word_on_a_field_holds() -> None:
    applied = apply(RECIPE, [on(SALT, "grams", 70), on(SALT, "grams", 72), on(SALT, "food", "02047")])
    assert at(applied.document, SALT) == {"line": "1/4 cup salt", "grams": 72, "food": "02047"}
    assert len(applied.applied) == 2


@pytest.mark.parametrize("line", ["1 Tsp Salt", "  1 tsp   salt. ", "１ tsp salt", "1 tsp salt,"])
def test_lines_that_read_the_same(line: str) -> None:
    assert normalised_line(line) == "1 tsp salt"
