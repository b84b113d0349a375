"""Law and safety are checked twice: each row against its statement, and no row without one."""

from collections import Counter

import pytest
from saltledger.core.tables import rows

from . import KEYS, WORDS, Stated, labels
from .__main__ import FILE, text
from .rows import STATED, agrees, rows_by_name


@pytest.mark.parametrize("said", STATED, ids=[said.name for said in STATED])
def test_a_row_is_what_its_source_states(said: Stated):
    row = rows_by_name().get(said.name)
    assert row is not None, f"{said.name} is gone; {said.source} states it"
    for column, cell in said.cells:
        assert agrees(row[column], cell), f"{said.name}: {column} is {row[column]!r}; {said.source}: {cell!r}"


@pytest.mark.parametrize("table", KEYS)
def test_every_row_and_every_figure_of_it_is_stated(table):
    columns = {said.name: {column for column, _ in said.cells} for said in STATED}
    for name, row in rows_by_name().items():
        if name.startswith(f"{table}:"):
            assert name in columns, (
                f"{name} has no check: state its figures from their source in tests/published/law"
            )
            left = set(row) - set(KEYS[table]) - WORDS - columns[name]
            assert not left, f"{name}: nothing states {', '.join(sorted(left))}"


@pytest.mark.parametrize("table", KEYS)
def test_the_key_tells_rows_apart(table):
    counted = Counter(tuple(row[column] for column in KEYS[table]) for row in rows(table))
    assert max(counted.values()) == 1


def test_no_row_is_stated_twice():
    assert [name for name, count in Counter(said.name for said in STATED).items() if count > 1] == []


@pytest.mark.parametrize(
    ("table", "order"), [("label_rules_eu", labels.ORDER_EU), ("label_rules_fda", labels.ORDER_FDA)]
)
def test_a_label_has_the_order_of_the_rule(table, order):
    assert [row["tag"] for row in rows(table)] == order


def test_the_service_tells_what_is_stated_here():
    assert FILE.read_text(encoding="utf-8") == text(), "run python -m tests.published.law --write"
