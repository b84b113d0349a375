"""The tables of safety: whole, sourced, and monotone."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from saltledger.core.tables import rows
from saltledger.safety.safety_limits import hold, limit, safe_temperature, safe_temperatures

SOURCE = Path(__file__).parents[2] / "service"

HOLDS = sorted({row["table"] for row in rows("lethality_times")})


@pytest.mark.parametrize(
    ("food_class", "form", "celsius"),
    [("beef", "whole", 62.8), ("pork", "ground", 71.1), ("poultry", "whole", 73.9), ("any", "cold", 5.0)],
)
def test_safe_temperatures(food_class, form, celsius):
    """USDA FSIS chart; FDA Food Code 3-501.16."""
    assert safe_temperature(food_class, form).temperature_c == pytest.approx(celsius, abs=0.05)


@given(st.floats(0, 120), st.floats(0, 120), st.sampled_from(HOLDS))
def test_hotter_is_never_longer(one_c, other_c, table):
    cool, warm = sorted((one_c, other_c))
    if (asked := hold(table, cool)) is not None:
        assert hold(table, warm).minutes <= asked.minutes


@given(st.floats(57.8, 90))
def test_poultry_and_what_is_pierced_are_held_longer_than_a_whole_roast(celsius):
    minutes = {table: hold(table, celsius).minutes for table in HOLDS if table != "egg"}
    assert minutes["whole"] <= minutes["chicken_lean"] <= minutes["poultry"]
    assert minutes["whole"] <= minutes["turkey_lean"]


@pytest.mark.parametrize("name", ["food_safety", "lethality_times", "safety_limits"])
def test_every_figure_has_a_source_and_a_mark(name):
    for row in rows(name):
        assert row["source"]
        assert row["mark"] in {"verified", "verified-2nd", "memory", "practice"}


def test_every_limit_is_read_by_a_rule():
    rules = "".join(path.read_text(encoding="utf-8") for path in SOURCE.glob("*/*.py"))
    assert [
        row["id"] for row in rows("safety_limits") if f'"{row["id"]}"' not in rules.replace("'", '"')
    ] == []


def test_a_missing_figure_is_our_fault():
    with pytest.raises(KeyError):
        limit("no such row")
    assert all(t.source for t in safe_temperatures())
