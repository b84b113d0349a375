"""Versions side by side: what they share cancels, and faults point at the version."""

from __future__ import annotations

import pytest
from saltledger.core.errors import InvalidRequest
from saltledger.foods.dataset import bundled
from saltledger.recipe.side_by_side import comparison_answer

from . import dishes
from .dishes import brined, item


def compare(*recipes):
    versions = [{"label": f"v{i}", "recipe": recipe} for i, recipe in enumerate(recipes)]
    return comparison_answer({"versions": versions}, bundled())


def width(spread):
    return spread["high"] - spread["low"]


def test_each_version_is_compared_with_the_first():
    answer = compare(brined(), brined(salt_g=60), brined(salt_g=30))
    assert [(d["from"], d["to"]) for d in answer["differences"]] == [("v0", "v1"), ("v0", "v2")]
    first, *others = (v["calculation"]["sodium"]["per_serving_mg"]["likely"] for v in answer["versions"])
    found = [d["sodium_mg_per_serving"]["likely"] for d in answer["differences"]]
    assert found == pytest.approx([other - first for other in others], rel=1e-4)


def test_equal_versions_do_not_differ_at_all():
    (difference,) = compare(brined(), brined())["differences"]
    assert difference["sodium_mg_per_serving"] == {"low": 0, "likely": 0, "high": 0}
    assert all(entry["amount"] == 0 for entry in difference["nutrients"].values())


def test_shared_doubt_makes_a_difference_narrower_than_either_range():
    answer = compare(brined(), brined(salt_g=100))
    ranges = [width(v["calculation"]["sodium"]["per_serving_mg"]) for v in answer["versions"]]
    independent = sum(each**2 for each in ranges) ** 0.5
    assert width(answer["differences"][0]["sodium_mg_per_serving"]) < 0.3 * independent


def test_one_cause_at_two_temperatures_moves_together():
    answer = compare(brined(temperature_c=2), brined(temperature_c=4))
    change = answer["differences"][0]["sodium_mg_per_serving"]
    assert 0 < change["low"] < change["high"]


def test_wet_and_dry_and_salt_by_the_spoon():
    dry = dishes.recipe(
        [dishes.part("loin", item(dishes.PORK, 1000)), dishes.part("rub", item(dishes.SALT, 18))],
        [dishes.step("dry_cure", "loin", "rub", duration_h=96, thickness_cm=5, temperature_c=3)],
    )
    change = compare(brined(), dry)["differences"][0]
    assert change["weight_g_per_serving"] < 0
    assert change["nutrients"]["PROCNT"]["amount"] == pytest.approx(0, abs=1e-6)


def test_a_nutrient_told_in_one_version_alone_is_compared():
    one = {"servings": 1, "ingredients": [item("own", 100)], "custom_foods": [
        {"code": "own", "name": "Own", "per_100g": {"NA": 10}}]}  # fmt: skip
    other = {"servings": 1, "ingredients": [item(dishes.CARROTS, 100)]}
    assert compare(one, other)["differences"][0]["nutrients"]["K"]["amount"] == 320


def test_faults_of_all_versions_are_told_at_once():
    bad_bath, bad_food = brined(), brined()
    bad_bath["steps"][0]["bath"] = "sea"
    bad_food["components"][0]["ingredients"][0]["food"] = "99999"
    with pytest.raises(InvalidRequest) as refused:
        compare(brined(), bad_bath, bad_food)
    assert [fault.pointer for fault in refused.value.faults] == [
        "/versions/1/recipe/steps/0/bath",
        "/versions/2/recipe/components/0/ingredients/0/food",
    ]
