"""Weights against published figures.

Sources: USDA National Nutrient Database for Standard Reference, Release 28 (SR28), household weights; bulk
densities of evaporated salts by crystal, salt industry handbook figures (second hand); coarse kosher-style
salts of two common kinds, about 2.8 and 4.8 to 5 g a teaspoon (cooking pages, second hand).
"""

from __future__ import annotations

import pytest
from saltledger.core.tables import rows
from saltledger.foods.dataset import bundled
from saltledger.foods.weights.weighing import weigh
from saltledger.lines import read_line
from saltledger.units.kitchen_units import to_millilitres

TEASPOON_ML = to_millilitres("teaspoon")


def grams(text, code):
    return weigh(read_line(text), bundled().get(code)).grams


def test_a_teaspoon_of_table_salt_is_6_g_and_2325_mg_sodium():
    """SR28, NDB 02047: 1 tsp = 6.0 g, 38,758 mg sodium in 100 g."""
    salt = bundled().get("02047")
    teaspoon = grams("1 tsp table salt", "02047")
    assert teaspoon.likely == 6.0
    assert teaspoon.likely * salt.per_100g("NA") / 100 == pytest.approx(2325, abs=1)


@pytest.mark.parametrize(("text", "expected"), [("1 tbsp table salt", 18), ("1 cup table salt", 292)])
def test_larger_measures_of_table_salt(text, expected):
    """SR28: 1 tbsp = 18 g, 1 cup = 292 g; a teaspoon scaled comes within 2 %."""
    assert grams(text, "02047").likely == pytest.approx(expected, rel=0.02)


@pytest.mark.parametrize(
    ("kind", "low_g_per_litre", "high_g_per_litre"),
    [("table salt", 1200, 1300), ("flaky salt", 624, 960), ("fine sea salt", 1200, 1300)],
)
def test_salts_span_their_published_bulk_densities(kind, low_g_per_litre, high_g_per_litre):
    """Granulated 1,200-1,300 g/l, hollow-pyramid flake 624-960 g/l."""
    teaspoon = grams(f"1 tsp {kind}", "02047")
    assert teaspoon.low <= low_g_per_litre * TEASPOON_ML / 1000 + 0.05
    assert teaspoon.high >= high_g_per_litre * TEASPOON_ML / 1000 - 0.05


def test_kosher_salt_without_more_holds_both_common_kinds():
    teaspoon = grams("1 tsp kosher salt", "02047")
    assert teaspoon.low <= 2.8
    assert teaspoon.high >= 5.0


def test_salt_of_no_named_kind_spans_2_8_to_6_4_g():
    """A consistency check: from the lightest coarse salt above to packed fine salt, as our table has it."""
    teaspoon = grams("1 tsp salt", "02047")
    assert (teaspoon.low, teaspoon.likely, teaspoon.high) == pytest.approx((2.8, 6.0, 6.4))


@pytest.mark.parametrize(
    ("text", "code", "expected"),
    [
        ("1 tsp baking soda", "18372", 4.6),
        ("1 tsp baking powder", "18369", 4.6),
        ("1 cup all-purpose flour", "20081", 125),
        ("1 cup packed brown sugar", "19334", 220),
        ("1 large egg", "01123", 50),
        ("1 tbsp butter", "01145", 14.2),
        ("1 cup whole milk", "01077", 244),
    ],
)
def test_household_weights_of_sr28(text, code, expected):
    assert grams(text, code).likely == pytest.approx(expected, rel=1e-6)


def test_every_piece_that_names_an_sr28_row_is_in_that_row():
    """A consistency check.

    a row of piece_weights.csv with source "SR28 NNNNN" has one of its figures among that row's weights.
    """
    for row in rows("piece_weights"):
        if not row["source"].startswith("SR28 "):
            continue
        food = bundled().get(row["source"][5:])
        listed = [household.grams / household.amount for household in food.household]
        sizes = ("usual", "small", "medium", "large", "extra_large")
        figures = [float(row[size]) for size in sizes if row[size]]
        assert any(figure == pytest.approx(each, rel=0.06) for figure in figures for each in listed), row
