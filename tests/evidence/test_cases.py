"""Cases of published measurements: how a row becomes a request, and what a source says of itself."""

from __future__ import annotations

from collections import Counter

import pytest
from saltledger.evidence.cases import cases, recipe, sources
from saltledger.evidence.coverage import kinds
from saltledger.gate.reading import load
from saltledger.gate.recipe_schema import RecipeSchema


def test_words_become_steps_and_baths() -> None:
    made = recipe("11352", 300, "boil bath=water:1500,salt:12 duration_h=0.2 shape=brick | drain rinsed=true")
    assert made["steps"] == [
        {"kind": "boil", "food": ["food"], "bath": "bath-0", "duration_h": 0.2, "shape": "brick"},
        {"kind": "drain", "food": ["food"], "rinsed": True},
    ]
    bath = made["components"][1]
    assert bath["eaten_fraction"] == 0
    assert [(each["food"], each["grams"]) for each in bath["ingredients"]] == [("14429", 1500), ("02047", 12)]


def test_a_food_that_the_dataset_lacks_is_described() -> None:
    made = recipe("WATER=50.8;NA=40", 100, "brine bath=water:90,salt:10 food_class=cheese")
    assert made["custom_foods"][0]["per_100g"] == {"WATER": 50.8, "NA": 40}


def test_a_word_without_a_value_is_refused() -> None:
    with pytest.raises(ValueError, match="no measure"):
        recipe("11352", 300, "boil quickly")


def test_every_case_is_a_request_of_its_own_kind_and_source() -> None:
    for case in cases():
        assert case.kind in kinds(), case.id
        load(RecipeSchema(), dict(case.request))


def test_no_case_stands_twice_and_every_source_is_used() -> None:
    assert [id for id, count in Counter(case.id for case in cases()).items() if count > 1] == []
    assert {case.source.id for case in cases()} == set(sources())


def test_both_parts_have_cases() -> None:
    parts = Counter(case.source.part for case in cases())
    assert min(parts["fitting"], parts["checking"]) > 100
