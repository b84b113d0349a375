"""Law and safety are checked twice: each row against its statement, and no row without one."""

import csv
from collections import Counter

import pytest
from saltledger.core.tables import rows, seed_foods

from ...mutation.slips import slips_of
from . import KEYS
from .__main__ import FILE, text
from .holding import faults
from .rows import STATED


@pytest.mark.parametrize("table", KEYS)
def test_each_row_is_what_its_source_states_and_none_is_left_unstated(table):
    wrong = list(faults(table, rows(table)))
    assert not wrong, "\n".join(wrong)


@pytest.mark.parametrize("table", KEYS)
def test_no_slip_in_a_row_goes_by(table):
    """Each number a tenth larger, each flag turned, each row dropped: a sentence names the row."""
    text = seed_foods().joinpath(f"{table}.csv").read_text(encoding="utf-8")
    for slip in slips_of(text):
        lines = [line for line in slip.text.splitlines() if not line.startswith("#")]
        told = next(faults(table, list(csv.DictReader(lines))), None)
        assert told, f"{table}, {slip.where}: nobody notices"
        assert told.startswith(table)


def test_no_row_is_stated_twice():
    assert [name for name, count in Counter(said.name for said in STATED).items() if count > 1] == []


def test_the_service_tells_what_is_stated_here():
    assert FILE.read_text(encoding="utf-8") == text(), "run python -m tests.published.law --write"
