"""The rows of a table held against the statements of it: what is wrong, in sentences that name the row."""

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import groupby

from saltledger.core.tables import Row

from . import KEYS, WORDS, Stated, labels
from .rows import STATED, agrees, name_of

_ORDERS = {"label_rules_eu": labels.ORDER_EU, "label_rules_fda": labels.ORDER_FDA}
"""Tables whose order a rule sets, by the tags of their rows."""
_BY_TABLE = {
    table: {said.name: said for said in those}
    for table, those in groupby(sorted(STATED, key=lambda said: said.table), key=lambda said: said.table)
}


def faults(table: str, found: Sequence[Row]) -> Iterator[str]:
    """Every difference between the rows of a table and what is stated of them."""
    stated = _BY_TABLE[table]
    names = [name_of(table, row) for row in found]
    counted = Counter(names)
    for name, said in stated.items():
        if name not in counted:
            yield f"{name} is gone; {said.source} states it"
    for name, row in zip(names, found, strict=True):
        if counted[name] > 1:
            yield f"{name} stands there twice"
        elif name in stated:
            yield from _differences(row, stated[name])
        else:
            yield f"{name} has no check: state its figures from their source in tests/published/law"
    if table in _ORDERS and [row["tag"] for row in found] != _ORDERS[table]:
        yield f"{table} is not in the order of the rule: {' '.join(_ORDERS[table])}"


def _differences(row: Row, said: Stated) -> Iterator[str]:
    for column, cell in said.cells:
        if not agrees(row[column], cell):
            yield f"{said.name}: {column} is {row[column]!r}; {said.source}: {cell!r}"
    left = set(row) - set(KEYS[said.table]) - WORDS - {column for column, _ in said.cells}
    if left:
        yield f"{said.name}: nothing states {', '.join(sorted(left))}"
