"""The tables of law and safety row by row, each with who states it a second time; for /method."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from ..core.checked import HELD, law_keys, law_name, law_statements
from ..core.tables import Row, rows

SEEN = {**HELD, "memory": "from memory of it: nobody outside holds it"}
"""How a second statement came about, best first."""

_ABOUT = ("name", "source", "mark", "note")
"""Columns that are shown on their own, or not at all."""


@dataclass(frozen=True, slots=True)
class LawRow:
    """key: the cells that tell the row. figures: the others, with their columns. seen, again: the second
    statement, its source and how that was seen (SEEN); "" where there is none."""

    name: str
    key: str
    figures: tuple[tuple[str, str], ...]
    source: str
    mark: str
    seen: str
    again: str

    @property
    def is_held(self) -> bool:
        """Whether somebody outside the table holds it: a text that was read, or read where it is quoted."""
        return self.seen in HELD


@cache
def law_tables() -> Mapping[str, tuple[LawRow, ...]]:
    """By name, every table whose rows are stated a second time (law_statements.csv)."""
    return {table: tuple(_law_row(table, by, row) for row in rows(table)) for table, by in law_keys().items()}


def _law_row(table: str, by: tuple[str, ...], row: Row) -> LawRow:
    name = law_name(table, row)
    said = law_statements().get(name, {"seen": "", "again": ""})
    return LawRow(
        name=name,
        key=", ".join(row[column] for column in by if row[column]),
        figures=tuple((each, row[each]) for each in row if row[each] and each not in (*by, *_ABOUT)),
        source=row.get("source", ""),
        mark=row.get("mark", ""),
        seen=said["seen"],
        again=said["again"],
    )
