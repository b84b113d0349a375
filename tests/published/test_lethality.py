"""Times to hold meat and poultry against the published tables, by temperature in whole degrees Fahrenheit."""

import pytest
from saltledger.safety.safety_limits import hold


def minutes(table, fahrenheit):
    found = hold(table, (fahrenheit - 32) / 1.8)
    return None if found is None else found.minutes


@pytest.mark.parametrize(
    ("fahrenheit", "expected"),
    [(129, None), (130, 112), (131, 89), (133, 56), (135, 36), (140, 12), (145, 4), (158, 0), (200, 0)],
)
def test_whole_roasts(fahrenheit, expected):
    """FDA Food Code 3-401.11(B)(1); FSIS Cooking Guideline (2021), table 2, 6.5-log (seen second hand)."""
    assert minutes("whole", fahrenheit) == expected


@pytest.mark.parametrize(("celsius", "seconds"), [(63.3, 169), (65.0, 85), (68.3, 22), (69.4, 14)])
def test_whole_roasts_in_degrees_celsius(celsius, seconds):
    """The same table as the Canadian Food Inspection Agency prints it, to a tenth of a degree (seen)."""
    assert hold("whole", celsius).minutes * 60 == pytest.approx(seconds, abs=0.01)


@pytest.mark.parametrize(("fahrenheit", "seconds"), [(145, 180), (150, 60), (155, 17), (158, 0)])
def test_ground_injected_and_tenderised_meat(fahrenheit, seconds):
    """FDA Food Code 3-401.11(A)(2) (seen second hand)."""
    assert minutes("pierced", fahrenheit) * 60 == pytest.approx(seconds, abs=0.01)


def test_ground_meat_below_is_held_by_the_seven_log_column():
    """FSIS Cooking Guideline (2021), table 2, 7-log: 121 min at 130 F, 37 at 135 F (seen second hand)."""
    assert [minutes("pierced", f) for f in (130, 135, 144)] == [121, 37, 5]


@pytest.mark.parametrize(
    ("table", "fahrenheit", "expected"),
    [
        ("chicken_lean", 136, 63.3),
        ("chicken_lean", 140, 25.2),
        ("chicken_lean", 145, 8.4),
        ("turkey_lean", 136, 64),
        ("turkey_lean", 145, 10.5),
        ("poultry", 135, None),
        ("poultry", 136, 81.4),
        ("poultry", 140, 35),
        ("poultry", 165, 0),
    ],
)
def test_poultry(table, fahrenheit, expected):
    """FSIS Cooking Guideline (2021), tables 3 and 4, 7-log, 1 and 12 % fat (seen second hand)."""
    assert minutes(table, fahrenheit) == expected
