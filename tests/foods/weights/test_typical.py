"""Usual weights: a cell that cannot be is named with its row."""

import pytest
from saltledger.foods.weights.typical import defaults, piece_of_any_food, refuse_part

from ...broken_tables import refuses


@pytest.mark.parametrize(
    ("table", "read", "cells"),
    [
        ("piece_weights", lambda: piece_of_any_food(None), {"unit": "barrel"}),
        ("refuse_parts", lambda: refuse_part("bone"), {"rule": "sung"}),
        ("no_quantity_defaults", lambda: list(defaults((), (), "")), {"unit": "barrel"}),
    ],
)
def test_a_cell_that_cannot_be_is_named_with_its_row(monkeypatch, table, read, cells):
    refuses(monkeypatch, table, read, **cells)
