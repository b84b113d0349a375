"""Units: spellings, sizes, the cup setting."""

from __future__ import annotations

import pytest
from saltledger.seed_foods import derive_units
from saltledger.units.kitchen_units import (
    dimension,
    find,
    reach,
    spellings,
    to_grams,
    to_millilitres,
    to_millimetres,
    units,
)


@pytest.mark.parametrize(
    ("spelled", "unit"),
    [
        ("T", "tablespoon"),
        ("t", "teaspoon"),
        ("Tbsp", "tablespoon"),
        ("TSP", "teaspoon"),
        ("C", "cup"),
        ("c", "cup"),
        ("#", "pound"),
        ("lbs", "pound"),
        ("Pounds", "pound"),
        ("fl oz", "fluid ounce"),
        ("oz", "ounce"),
        ("imperial pint", "imperial pint"),
        ("dl", "decilitre"),
        ("tins", "can"),
        ('"', "inch"),
        ("L", "litre"),
        ("rashers", "rasher"),
        ("flour", None),
        ("", None),
    ],
)
def test_a_spelling_finds_its_unit(spelled, unit):
    assert find(spelled) == unit


@pytest.mark.parametrize(
    ("unit", "us", "metric"),
    [
        ("cup", 236.5882365, 250.0),
        ("tablespoon", 14.78676478, 15.0),
        ("teaspoon", 4.92892159, 5.0),
        ("fluid ounce", 29.57352956, 29.57352956),
        ("pint", 473.176473, 473.176473),
        ("quart", 946.352946, 946.352946),
        ("gallon", 3785.411784, 3785.411784),
        ("imperial pint", 568.26125, 568.26125),
        ("litre", 1000.0, 1000.0),
    ],
)
def test_volumes_follow_the_cup_setting(unit, us, metric):
    assert to_millilitres(unit) == pytest.approx(us)
    assert to_millilitres(unit, "metric") == pytest.approx(metric)


def test_masses_and_lengths():
    assert to_grams("ounce") == pytest.approx(28.349523125)
    assert to_grams("pound") == pytest.approx(453.59237)
    assert to_grams("kilogram") == 1000
    assert to_millimetres("inch") == pytest.approx(25.4)


def test_a_unit_of_another_kind_has_no_size():
    assert to_grams("cup") is None
    assert to_millilitres("gram") is None
    assert to_grams("clove") is None
    assert to_millilitres("nothing") is None


def test_every_unit_has_what_its_dimension_needs():
    for unit in units().values():
        assert (unit.size is not None) == (unit.dimension in {"mass", "volume", "length"}), unit
        assert unit.reach.low > 0
        assert unit.reach.is_exact or unit.source, unit
        assert dimension(unit.name) == unit.dimension


def test_the_table_of_sizes_is_what_pint_makes_of_the_definitions():
    assert derive_units.main(["--check"]) == 0


def test_vague_units_say_how_far_they_reach():
    assert reach("pinch").low < 1 < reach("pinch").high
    assert reach("cup").is_exact
    assert reach(None).is_exact


def test_no_spelling_is_empty():
    assert all(spelled.strip() for spelled in spellings())
