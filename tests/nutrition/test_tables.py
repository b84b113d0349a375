"""The tables of nutrition: each row has the columns of its head, and no row stands twice."""

import pytest
from saltledger.core.tables import rows
from saltledger.nutrition.added_sugars import how_added
from saltledger.nutrition.allergens import signs
from saltledger.nutrition.claims import conditions
from saltledger.nutrition.dietary_references import values_for
from saltledger.nutrition.energy import energy_by
from saltledger.nutrition.label_rounding import bands
from saltledger.nutrition.reference_amounts import reference_amount

from ..broken_tables import refuses

TABLES = [
    "added_sugars",
    "alcohol_retention",
    "allergen_rules",
    "allergens",
    "audiences",
    "claims",
    "cooking_pairs",
    "cooking_states",
    "energy_factors",
    "heat_labile",
    "heat_treatments",
    "label_rounding",
    "label_rules_eu",
    "label_rules_fda",
    "label_schemes",
    "label_tolerances",
    "reference_amounts",
    "reference_schemes",
    "reference_values",
    "retention_derived",
    "retention_kinds",
]


@pytest.mark.parametrize("name", TABLES)
def test_rows_fill_their_columns_and_are_all_different(name):
    found = rows(name)
    assert found
    for row in found:
        assert None not in row, f"a cell too many: {row}"
        assert None not in row.values(), f"a cell too few: {row}"
    assert len({tuple(row.values()) for row in found}) == len(found)


@pytest.mark.parametrize("name", [name for name in TABLES if "mark" in rows(name)[0]])
def test_a_mark_says_how_well_a_figure_is_known(name):
    assert {row["mark"] for row in rows(name)} <= {"verified", "verified-2nd", "memory"}


@pytest.mark.parametrize(
    ("table", "read", "cells"),
    [
        ("added_sugars", lambda: how_added("sugar", "1900"), {"added": "some"}),
        ("allergen_rules", lambda: signs("milk", "0100"), {"certainty": "perhaps"}),
        ("allergen_rules", lambda: signs("milk", "0100"), {"allergen": "moss"}),
        ("claims", conditions, {"holds": "about"}),
        ("reference_values", lambda: values_for("man"), {"audience": "gull"}),
        ("reference_values", lambda: values_for("man"), {"reference": "quay"}),
        ("reference_values", lambda: values_for("man"), {"mark": "sure"}),
        ("reference_values", lambda: values_for("man"), {"value": "0"}),
        ("energy_factors", lambda: energy_by("eu", {"PROCNT": 1.0}), {"kj_per_g": "1"}),
        ("label_rounding", lambda: bands("fda", "sodium"), {"form": "about"}),
        ("reference_amounts", lambda: reference_amount("pickles"), {"kind": "snack"}),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_a_cell_that_cannot_be_is_named_with_its_row(monkeypatch, table, read, cells):
    refuses(monkeypatch, table, read, **cells)
