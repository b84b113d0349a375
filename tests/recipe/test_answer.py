"""The words of the answer: ranges, coverage, references, what carries the range, label and claims."""

from __future__ import annotations

import pytest
from saltledger.core.errors import InvalidRequest

from . import dishes
from .dishes import answered, brined, item, part, recipe


def plain(*ingredients, scheme=None, **more):
    return answered({"servings": 1, "ingredients": list(ingredients), **more}, scheme)


def custom(**per_100g):
    return {"code": "own", "name": "Own mix", "per_100g": {"NA": 100, **per_100g}}


def test_every_range_runs_low_likely_high():
    for view in ("per_serving", "per_100g"):
        for entry in answered(brined())[view]["nutrients"].values():
            assert 0 <= entry["low"] <= entry["amount"] <= entry["high"]


def test_a_nutrient_that_nobody_tells_is_left_out_never_zero():
    told = plain(item("own", 100), custom_foods=[custom()])["per_serving"]["nutrients"]
    assert told["NA"]["amount"] == 100
    assert "VITC" not in told
    assert "K" not in told


def test_a_nutrient_told_in_part_says_for_how_much_of_the_weight():
    answer = plain(item("own", 300), item(dishes.CARROTS, 100), custom_foods=[custom()])
    told = answer["per_serving"]["nutrients"]
    assert told["VITC"]["coverage"] == pytest.approx(0.25)
    assert told["VITC"]["amount"] == pytest.approx(5.9)
    assert told["NA"]["coverage"] == 1


def test_a_food_without_a_match_lowers_the_coverage():
    answer = plain("300 g xyzzyqwv", item(dishes.CARROTS, 100))
    covered = {tag: each["coverage"] for tag, each in answer["per_serving"]["nutrients"].items()}
    assert covered["K"] == pytest.approx(0.25)
    assert covered["NA"] == pytest.approx(69 / answer["sodium"]["per_serving_mg"]["high"])


def test_references_stand_beside_the_sodium():
    sodium = plain(item(dishes.SALT, 5))["sodium"]
    percent = {each["id"]: (each["limit_mg"], each["percent"]) for each in sodium["references"]}
    assert percent["fda_daily_value"] == (2300, 84)
    assert {limit for limit, _ in percent.values()} >= {1500, 2000, 2300}


def test_own_limits_stand_beside_them():
    own = {"id": "canteen", "sodium_mg": 700, "per": "serving"}
    reference = plain(item(dishes.SALT, 1), own_limits=[own])["sodium"]["references"][-1]
    assert reference["id"] == reference["name"] == "canteen"
    assert reference["percent"] == 55
    assert reference["source"] == "stated by the caller"


@pytest.mark.parametrize(("hours", "most"), [(24, ["salt-diffusivity", "lot"]), (1000, ["at-rest"])])
def test_a_brine_is_carried_by_how_fast_and_at_last_by_how_far_salt_goes_and_says_what_to_measure(
    hours, most
):
    carried = answered(brined(duration_h=hours))["sodium"]["carried_by"][: len(most)]
    assert [each["assumption"].removeprefix("step-0/loin/") for each in carried] == most
    assert sum(each["share"] for each in carried) > 0.6
    assert all("sodium_after_mg_per_100g" in each["measure"] for each in carried)


def test_a_figure_that_is_measured_carries_nothing():
    measured = {"sodium_after_mg_per_100g": 700, "weight_after_g": 1080}
    sodium = answered(brined(**measured))["sodium"]
    assert sodium["carried_by"] == []
    assert sodium["per_serving_mg"]["low"] == sodium["per_serving_mg"]["high"]


def test_every_carrier_is_an_assumption_of_the_answer():
    answer = answered(brined(thickness_cm=None))
    ids = {assumption["id"] for assumption in answer["assumptions"]}
    carried = answer["sodium"]["carried_by"]
    assert {each["assumption"] for each in carried} <= ids
    assert [each["share"] for each in carried] == sorted((c["share"] for c in carried), reverse=True)


def test_every_assumption_has_a_unit_a_source_and_its_range():
    assumptions = answered(brined())["assumptions"]
    assert len({each["id"] for each in assumptions}) == len(assumptions)
    for each in assumptions:
        assert each["unit"]
        assert each["source"]
        assert each["low"] <= each["value"] <= each["high"]
    assert {each["step"] for each in assumptions} == {None, 0}


def test_claims_are_judged():
    claims = plain(item(dishes.CARROTS, 100))["sodium"]["claims"]
    assert claims
    assert all("id" in claim or "claim" in claim for claim in claims)


@pytest.mark.parametrize("scheme", ["fda", "eu", "uk"])
def test_a_label_is_there_when_asked_for(scheme):
    asked = plain(item(dishes.CARROTS, 100), item(dishes.SALT, 1), scheme=scheme)
    assert asked["label"]
    assert "label" not in plain(item(dishes.CARROTS, 100))


def test_an_unknown_label_is_refused():
    with pytest.raises(InvalidRequest):
        plain(item(dishes.CARROTS, 100), scheme="moon")


def test_figures_have_twelve_significant_digits():
    for entry in answered(brined())["per_serving"]["nutrients"].values():
        assert entry["amount"] == float(f"{entry['amount']:.12g}")


def test_an_audience_has_its_own_references():
    adults, children = (
        plain(item(dishes.SALT, 2), audience=who)["sodium"]["references"] for who in (None, "child_1_3")
    )
    assert adults != children


def test_each_line_says_what_sodium_it_lists():
    listed = answered(brined())["ingredients"]
    assert [entry["component"] for entry in listed] == ["loin", "brine", "brine"]
    assert listed[2]["sodium_mg"] == pytest.approx(46509.6)
    whole = sum(entry["sodium_mg"] for entry in listed)
    assert answered(brined())["sodium"]["as_listed_per_serving_mg"] == pytest.approx(whole, rel=1e-5)


def test_a_recipe_of_components_alone_is_answered():
    assert answered(recipe([part("a", item(dishes.SALT, 1))], []))["title"] == ""


def test_a_line_of_several_foods_stands_once_with_the_sodium_of_all():
    answer = plain("2 tbsp olive oil and 1 tsp table salt", item(dishes.CARROTS, 100))
    line, carrots = answer["ingredients"]
    (salt,) = line["parts"]
    assert (line["food"]["code"], salt["food"]["code"]) == ("04053", dishes.SALT)
    assert carrots["parts"] == []
    assert line["sodium_mg"] == pytest.approx(salt["sodium_mg"] + 27 * 2 / 100)
    eaten = answer["sodium"]["per_serving_mg"]["likely"]
    assert eaten == pytest.approx(line["sodium_mg"] + carrots["sodium_mg"], rel=1e-6)
    ids = [assumption["id"] for assumption in answer["assumptions"]]
    assert {"weight:/ingredients/0", "weight:/ingredients/0/parts/0"} <= set(ids)
    assert all(notice["pointer"].startswith("/ingredients/") for notice in answer["notices"])
