"""The words that lines are read with: a cell that cannot be is named with its row."""

import pytest
from saltledger.lines.vocabulary import phrase_flags, preparations, trailing_units

from ..broken_tables import refuses


@pytest.mark.parametrize(
    ("table", "read", "cells"),
    [
        ("preparation_words", preparations, {"kind": "sung"}),
        ("unit_after_food", trailing_units, {"unit": "gram"}),
    ],
)
def test_a_cell_that_cannot_be_is_named_with_its_row(monkeypatch, table, read, cells):
    refuses(monkeypatch, table, read, **cells)


@pytest.mark.parametrize(
    ("words", "flags"),
    [
        ("salt to taste", {"to-taste"}),
        ("butter for greasing", {"for-greasing"}),
        ("oil for frying and parsley to garnish", {"for-frying", "for-serving"}),
        ("salt", set()),
        ("to tastebuds", set()),
    ],
)
def test_phrases_tell_what_a_line_is_for(words, flags):
    assert phrase_flags(words.split()) == flags
