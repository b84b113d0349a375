"""Brines and cures are kept cold, and it is said where they are not."""

import pytest
from saltledger.core.notices import DEFER
from saltledger.safety.cold_steps import cold_notices


def found(step_kind, food_class, temperature_c, duration_h=24):
    notices = cold_notices(step_kind, food_class, temperature_c, duration_h)
    return {notice.code: notice.severity for notice in notices}


@pytest.mark.parametrize(
    ("temperature_c", "duration_h", "expected"),
    [
        (3, 72, {}),
        (4.4, 72, {}),
        (4.8, 72, {"held-barely-cold": "check"}),
        (5, 72, {"held-barely-cold": "check"}),
        (5.1, 72, {"held-too-warm": "stop"}),
        (20, 1, {"held-too-warm": "check"}),
        (20, None, {"held-too-warm": "stop"}),
        (-3, 72, {"food-may-freeze": "check"}),
        (None, 72, {"temperature-not-stated": "check"}),
        (None, None, {"temperature-not-stated": "check"}),
        (None, 0.5, {}),
        (70, 1, {}),
    ],
)
def test_cold_steps_for_meat(temperature_c, duration_h, expected):
    assert found("brine", "pork", temperature_c, duration_h) == expected


@pytest.mark.parametrize("food_class", ["vegetable", "cheese", "dough"])
def test_foods_without_a_rule_are_left_alone(food_class):
    assert found("brine", food_class, 20) == {}


def test_fish_of_either_kind_is_fish():
    assert found("brine", "fish_fatty", 12) == found("brine", "fish", 12) == {"held-too-warm": "stop"}


def test_steps_that_are_not_cold_say_nothing():
    assert found("dredge", "beef", 20) == found("roast", "beef", 20) == {}


def test_warnings_defer_to_local_codes():
    for notice in (*cold_notices("brine", "pork", 20, 24), *cold_notices("brine", "pork", None, 24)):
        assert notice.message.endswith(DEFER)
        assert notice.pointer == "/temperature_c"
