"""Cases of published measurements: how a row becomes a request, and what a source says of itself."""

from __future__ import annotations

from collections import Counter

import pytest
from saltledger.core.tables import rows
from saltledger.evidence.cases import PORTIONS, cases, part_of, recipe, sources
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


def test_a_new_source_falls_to_a_part_by_its_id_alone() -> None:
    assert {part_of(id) for id in ("a", "b", "c", "d")} == {"fitting", "checking"}
    told = {row["id"]: row["part"] for row in rows("evidence_sources")}
    by_id = [id for id, part in told.items() if part == "by id"]
    assert by_id
    assert all(sources()[id].part == part_of(id) for id in by_id)


def test_a_table_is_shared_out_by_its_foods_numbers_and_its_rounding_counts() -> None:
    found = [case for case in cases() if case.id.startswith("japan-2020-")]
    assert len(found) > 200
    for case in found:
        number = case.id.removeprefix("japan-2020-").rpartition("-")[0]
        assert case.source.id == f"japan-2020-{part_of(number)}"
    peas = next(case for case in found if case.id == "japan-2020-06021-K")
    assert peas.published == pytest.approx(160 / 200)
    assert peas.rounding == pytest.approx(5 / 160 + 5 / 200 + PORTIONS)


def test_an_amount_that_the_source_does_not_tell_is_a_range() -> None:
    made = recipe("05219", 5000, "brine bath=water:4000-11000,salt:100 duration_h=12")
    assert made["components"][1]["ingredients"][0] == {"food": "14429", "line": "4000-11000 g"}
