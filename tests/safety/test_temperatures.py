import pytest
from hypothesis import given
from hypothesis import strategies as st
from saltledger.safety.temperatures import (
    COOK_STEPS,
    hold_minutes,
    safe_temperature,
    safe_temperatures,
    temperature_notices,
)


def found(step_kind, food_class, temperature_c, duration_h=24):
    notices = temperature_notices(step_kind, food_class, temperature_c, duration_h)
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
        (70, 1, {}),
    ],
)
def test_cold_steps_for_meat(temperature_c, duration_h, expected):
    assert found("brine", "pork", temperature_c, duration_h) == expected


@pytest.mark.parametrize("food_class", ["vegetable", "cheese", "dough"])
def test_foods_without_a_rule_are_left_alone(food_class):
    assert found("brine", food_class, 20) == {}
    assert found("boil", food_class, 100) == {}


def test_fish_of_either_kind_is_fish():
    assert found("brine", "fish_fatty", 12) == found("brine", "fish", 12) == {"held-too-warm": "stop"}


@pytest.mark.parametrize(
    ("food_class", "temperature_c", "duration_h", "expected"),
    [
        ("beef", 95, 3, {"cook-through": "info"}),
        ("beef", 57, 24, {"cook-through": "info", "cooked-by-time": "check"}),
        ("beef", 57, 0.25, {"cook-through": "info", "cooked-too-short": "stop"}),
        ("beef", 50, 24, {"cook-through": "info", "cooked-too-cool": "stop"}),
        ("poultry", 65, 24, {"cook-through": "info", "cooked-too-cool": "stop"}),
        ("poultry", None, None, {"cook-through": "info"}),
    ],
)
def test_cook_steps(food_class, temperature_c, duration_h, expected):
    for step in COOK_STEPS:
        assert found(step, food_class, temperature_c, duration_h) == expected


def test_steps_without_heat_or_cold_say_nothing():
    assert found("dredge", "beef", 20) == {}


@given(st.floats(0, 120), st.floats(0, 120))
def test_hotter_is_never_longer(one_c, other_c):
    cool, warm = sorted((one_c, other_c))
    if (minutes := hold_minutes(cool)) is not None:
        assert hold_minutes(warm) <= minutes


@pytest.mark.parametrize(
    ("fahrenheit", "minutes"), [(129, None), (130, 112), (131, 112), (140, 12), (145, 4), (200, 0)]
)
def test_roasts_by_the_food_code(fahrenheit, minutes):
    """FDA Food Code 3-401.11(B)."""
    assert hold_minutes((fahrenheit - 32) / 1.8) == minutes


@pytest.mark.parametrize(
    ("food_class", "form", "celsius"),
    [("beef", "whole", 62.8), ("pork", "ground", 71.1), ("poultry", "whole", 73.9), ("any", "cold", 5.0)],
)
def test_safe_temperatures(food_class, form, celsius):
    """USDA FSIS chart; FDA Food Code 3-501.16."""
    assert safe_temperature(food_class, form).temperature_c == pytest.approx(celsius, abs=0.05)


def test_warnings_defer_to_local_codes():
    for notice in temperature_notices("brine", "pork", 20, 24) + temperature_notices("roast", "pork", 40, 1):
        assert "Local codes and licensed practice come first." in notice.message
        assert notice.pointer == "/temperature_c"


def test_every_temperature_has_a_source():
    assert all(t.source and t.mark in {"verified", "verified-2nd", "memory"} for t in safe_temperatures())
