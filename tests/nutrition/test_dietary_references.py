"""Reference values: by audience, complete, and clear about whom they are for."""

import pytest
from saltledger.core.errors import InvalidRequest
from saltledger.nutrition.dietary_references import (
    all_values,
    audience_documents,
    audiences,
    daily_value,
    daily_values,
    percent_of,
    reference_values,
    sodium_references,
)
from saltledger.nutrition.label_schemes import label_schemes


def test_adults_are_meant_where_no_audience_is_named():
    assert reference_values() == reference_values("adult")


def test_an_unknown_audience_is_named_with_the_choice():
    with pytest.raises(
        InvalidRequest, match=r"/audience: There is no audience 'cats'; choose one of: infant"
    ):
        reference_values("cats")


def test_every_audience_has_a_sodium_reference():
    for audience in audiences():
        assert sodium_references(audience), audience


def test_every_group_covered_is_an_audience_of_its_own():
    plain = {name for each in audiences().values() for name in each.covers}
    assert plain <= set(audiences())
    assert all(audiences()[name].covers == {name} for name in plain)


def test_no_plain_group_has_two_values_of_one_kind():
    seen = set()
    for value in all_values():
        for group in audiences()[value.audience].covers:
            key = (value.reference, value.tag, value.kind, group)
            assert key not in seen
            seen.add(key)


def test_values_name_a_source_and_a_mark():
    assert all(value.source and value.mark and value.unit for value in all_values())


def test_groups_with_different_values_show_the_lowest_sodium():
    assert {r["id"]: r["limit_mg"] for r in sodium_references("four_and_over")}["nasem_ai"] == 1000


def test_a_man_and_a_woman_differ_in_potassium():
    adult = [v for v in reference_values("adult") if v["reference"] == "nasem_ai" and v["tag"] == "K"]
    assert {v["audience"]: v["value"] for v in adult} == {"man": 3400, "woman": 2600}
    assert daily_value("K", "pregnancy") == 5100


def test_an_adequate_intake_says_that_it_is_no_limit():
    intake = next(r for r in sodium_references() if r["id"] == "nasem_ai")
    assert intake["kind"] == "adequate_intake"
    assert "not a limit" in intake["name"]


def test_percent_of_a_reference():
    assert percent_of(600, 2300) == 26
    with pytest.raises(ValueError, match="above 0"):
        percent_of(600, 0)


def test_daily_values_are_those_of_the_audience():
    assert daily_values()["NA"] == 2300
    assert daily_values("child_1_3")["NA"] == 1500
    assert "SUGAR" not in daily_values()
    assert "NA" not in daily_values("infant_0_6_months")


def test_the_reference_intake_of_a_nutrient():
    assert label_schemes()["eu"].reference("SALT") == 6
    assert label_schemes()["eu"].reference("K") == 2000
    assert label_schemes()["eu"].reference("FIBTG") is None


def test_audiences_are_listed_for_callers():
    assert {"audience": "man", "name": "Men 19 years and over"} in audience_documents()
