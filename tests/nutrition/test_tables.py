"""The tables of nutrition: each row has the columns of its head, and no row stands twice."""

import pytest
from saltledger.core.tables import rows

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
