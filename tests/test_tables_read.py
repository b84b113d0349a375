"""Every figure that an answer could rest on is read under some request; what is not goes or is named here."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

FOR_PEOPLE = {"source", "mark", "note", "why", "code", "unit", "pairs"}
"""Columns that say where a row comes from and what it means, to /method and to whoever opens the table."""

UNREAD_COLUMNS = {
    "clinging": {"what"},  # the name of its one row
    "evidence_coverage": {"width"},  # told by `saltledger evidence`, and held to what comes out
    "evidence_misses": {"cases", "verdict"},  # told by /method, one line a miss
    "evidence_rows": {"row", "inside", "of"},  # told by /method
    "food_groups": {"alcohol"},  # read where the bundle is built
    "law_statements": {"row", "by", "seen", "again"},  # told by /method
    "intact_cells": {"low", "high"},  # how far living cells hold back is taken without a range so far
    "method_meant_foods": {  # of recipes in prose: tests/method
        *(
            "words",
            "serving_low",
            "serving_likely",
            "serving_high",
            "whole_low",
            "whole_likely",
            "whole_high",
        ),
    },
    "method_salty": {"much", "table"},  # of recipes in prose: tests/method
    "method_sodium": {"class", "words", "mg_per_g"},  # of recipes in prose: tests/method
    "method_whey": {"words", "firm", "usual", "soft"},  # of recipes in prose: tests/method
    "remote_nutrients": {"number", "tag"},  # of the second source, which no test asks: tests/foods/remote
    "salted_water": {"usual_food_g"},  # of recipes in prose: tests/method
    "unit_factors": {"in"},  # what the factor is in, in words
}

CURVES = {"alcohol_retention", "brine_freezing", "brine_saturation", "core_losses", "shrinkage"}
"""Tables whose rows are points of one curve: any look-up reads them all."""

WORDS = {
    "ambiguous_names",
    "amount_words",
    "densities",
    "name_qualifiers",
    "number_words",
    "piece_weights",
    "preparation_words",
    "unit_after_food",
    "unit_names",
}
"""Tables of words and of what is meant by them: a row is read by a line with its words, as tests/lines and
tests/foods hold."""


@pytest.fixture(scope="module")
def unread(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    folder = tmp_path_factory.mktemp("tables_read")
    command = [sys.executable, "-m", "tests.reading_tables", str(folder)]
    done = subprocess.run(command, capture_output=True, text=True, check=False, cwd=Path(__file__).parents[1])
    assert done.returncode == 0, done.stderr[-2000:]
    found: dict[str, Any] = json.loads(done.stdout)
    return found


def test_the_requests_are_answered(unread: dict[str, Any]) -> None:
    assert unread["asked"]["200"] > 2000
    assert set(unread["asked"]) <= {"200", "422"}


def test_every_column_is_read(unread: dict[str, Any]) -> None:
    left = {table: set(columns) - FOR_PEOPLE for table, columns in unread["columns"].items()}
    left = {table: columns - UNREAD_COLUMNS.get(table, set()) for table, columns in left.items()}
    assert {table: columns for table, columns in left.items() if columns} == {}


def test_every_row_is_read(unread: dict[str, Any]) -> None:
    assert {table: rows for table, rows in unread["rows"].items() if table not in WORDS | CURVES} == {}
