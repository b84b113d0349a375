"""Slips in the tables of law and safety, in one process, against the statements of tests/published/law.

Rules over names of foods (allergens, hazards) lose a row, a word or a group, or have a flag turned, and meet
the foods that are stated of them.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Iterator
from functools import _lru_cache_wrapper
from types import ModuleType
from typing import Any
from unittest import mock

from saltledger.core import tables
from saltledger.core.tables import Row, rows, seed_foods
from saltledger.nutrition import allergens
from saltledger.safety import dish

from ..published.law import KEYS, test_allergens, test_hazards
from ..published.law.holding import faults
from .slips import slips_of

Faults = Callable[[str], Iterator[str]]
_RULES: dict[str, tuple[str, ModuleType, Faults]] = {
    "allergen_rules": ("allergen", allergens, test_allergens.faults),
    "hazard_foods": ("hazard", dish, test_hazards.faults),
}
"""Table: the column that says what a rule is about, the module that reads it, what is wrong with it."""


def slips() -> Iterator[tuple[str, str, bool]]:
    """Table, what is changed in words, and whether it is noticed."""
    for table in KEYS:
        for slip in slips_of(_text(table)):
            yield table, slip.where, next(faults(table, _rows(slip.text)), None) is not None
    for table in _RULES:
        for where, about, found in _of_rules(table):
            yield table, where, _is_noticed(table, about, found)


def _text(table: str) -> str:
    return seed_foods().joinpath(f"{table}.csv").read_text(encoding="utf-8")


def _rows(text: str) -> list[Row]:
    lines = (line for line in text.splitlines() if not line.startswith("#"))
    return list(csv.DictReader(io.StringIO("\n".join(lines))))


def _of_rules(table: str) -> Iterator[tuple[str, str, list[Row]]]:
    column = _RULES[table][0]
    told = [row[column] for row in rows(table)]
    for slip in slips_of(_text(table)):
        found = _rows(slip.text)
        at = next(
            (at for at, (row, was) in enumerate(zip(found, rows(table), strict=False)) if row != was), -1
        )
        yield slip.where, told[at], found
    for at, row in enumerate(rows(table)):
        for cell, parting in (("words", "|"), ("groups", " ")):
            parts = row[cell].split(parting)
            for part in parts if len(parts) > 1 else ():
                left = parting.join(each for each in parts if each != part)
                changed = [*rows(table)[:at], {**row, cell: left}, *rows(table)[at + 1 :]]
                yield f"row {at + 1}, {told[at]}: {cell} without {part!r}", told[at], changed


def _is_noticed(table: str, about: str, found: list[Row]) -> bool:
    _, module, wrong = _RULES[table]
    real = tables.rows

    def others(name: str) -> Any:
        return tuple(found) if name == table else real(name)

    with mock.patch.object(tables, "rows", others):
        _forget(module)
        noticed = next(wrong(about), None) is not None
    _forget(module)
    return noticed


def _forget(module: ModuleType) -> None:
    for each in vars(module).values():
        if isinstance(each, _lru_cache_wrapper):
            each.cache_clear()
