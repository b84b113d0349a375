"""A brine that no step uses is never silently eaten, and a check says which step it is for."""

import pytest

from . import dishes
from .dishes import answered, item, part, recipe, step

BRINE = (item(dishes.WATER, 3000), item(dishes.SALT, 180))


def checks(answer):
    return [notice for notice in answer["notices"] if notice["code"] == "liquid-not-used"]


def unused(**more):
    return {"servings": 6, "components": [part("legs", item("05075", 1600)), part("brine", *BRINE)], **more}


def test_a_brine_without_a_step_is_a_check_with_the_step_and_both_figures():
    answer = answered(unused())
    (notice,) = checks(answer)
    stepped = answered(unused(steps=[step("brine", "legs", "brine")]))["sodium"]
    likely = stepped["per_serving_mg"]["likely"]
    assert notice["severity"] == "check"
    assert notice["pointer"] == "/components/1"
    assert '{"kind": "brine", "food": "legs", "bath": "brine"}' in notice["message"]
    assert f"about {likely:,.0f} mg" in notice["message"]
    assert answer["sodium"]["per_serving_mg"]["likely"] == pytest.approx(likely, rel=0.01)
    assert answer["sodium"]["complete"] is False
    assert {claim["met"] for claim in answer["sodium"]["claims"]} <= {None}


def test_the_range_has_it_both_ways():
    sodium = answered(unused())["sodium"]
    (gap,) = sodium["uncounted"]
    assert gap["reason"] == "liquid_not_used"
    assert gap["high_mg"] == pytest.approx(dishes.sodium_mg(dishes.SALT, 180), rel=0.01)
    counted = sodium["counted_per_serving_mg"]
    assert sodium["per_serving_mg"]["likely"] == pytest.approx(counted + gap["likely_mg"] / 6)
    assert sodium["per_serving_mg"]["high"] >= counted + gap["high_mg"] / 6 - 1e-6
    assert sodium["per_serving_mg"]["low"] <= counted


@pytest.mark.parametrize(
    "lines",
    [
        ("1.6 kg chicken legs", "3 litres water for the brine", "180 g table salt, for the brine"),
        ("1.6 kg chicken legs", "# For the brine", "3 litres water", "180 g table salt"),
        ("1.6 kg chicken legs", "For the brine:", "3 litres water", "180 g table salt"),
    ],
)
def test_lines_that_say_it_are_a_brine_too(lines):
    answer = answered({"servings": 6, "ingredients": list(lines)})
    (notice,) = checks(answer)
    assert '"food": "recipe"' in notice["message"]
    assert answer["sodium"]["per_serving_mg"]["likely"] < 2500
    assert answer["sodium"]["per_serving_mg"]["high"] > 11_000


def test_salt_for_the_pasta_water_is_not_eaten_whole():
    answer = answered(
        {"servings": 4, "ingredients": ["500 g pasta", "2 tbsp table salt for the pasta water"]}
    )
    assert len(checks(answer)) == 1
    assert answer["sodium"]["per_serving_mg"]["likely"] < 1000


@pytest.mark.parametrize("words", ["olives in brine", "feta in brine, drained", "tuna in brine"])
def test_food_in_brine_is_no_brine(words):
    assert not checks(answered({"servings": 2, "ingredients": ["400 g potatoes", f"50 g {words}"]}))


@pytest.mark.parametrize(
    "line",
    [
        "4 eggs, for boiling",
        "500 g chicken thighs, skin discarded",
        "100 g dried beans, to soak",
        "#10 can tomatoes",
    ],
)
def test_food_that_is_boiled_or_trimmed_is_eaten(line):
    answer = answered({"servings": 2, "ingredients": ["400 g potatoes", line]})
    assert not checks(answer)


def test_a_brine_that_is_used_or_whose_fate_is_stated_is_let_be():
    assert not checks(answered(unused(steps=[step("brine", "legs", "brine", duration_h=8)])))
    stated = unused()
    stated["components"][1]["eaten_fraction"] = 0
    assert not checks(answered(stated))


def test_a_liquid_to_discard_is_taken_to_be_poured_away():
    parts = [part("beans", item(dishes.CANNED_BEANS, 400)), part("to_discard", *BRINE)]
    answer = answered(recipe(parts, []))
    assert len(checks(answer)) == 1
    assert answer["sodium"]["uncounted"][0]["likely_mg"] == 0
