"""Who else holds a figure: publications, kept apart from those it was made of, held against it; and texts of
law and advice that state a row of theirs again."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from .tables import Row, rows

HELD = {"read": "its own text was read", "quoted": "read where it is quoted"}
"""How a text that states a row again was seen, where it was; a statement from memory is nobody's."""


def checked_against(row: str) -> tuple[str, ...]:
    """Ids (evidence_sources.csv) of the publications whose measurements stand on a row of the tables and did
    not make it; empty where nobody's do."""
    return publications_by_row().get(row, ())


def stated_by(row: str) -> tuple[str, ...]:
    """The texts that state a row of law and safety, by its `law_name`, a second time, each with how it was
    seen; empty where nobody outside the tables does."""
    said = law_statements().get(row)
    return (f"{said['again']} ({HELD[said['seen']]})",) if said and said["seen"] in HELD else ()


def law_name(table: str, row: Row) -> str:
    """The name of a row of law and safety: its table, and the cells that tell it."""
    return f"{table}:{'/'.join(row[column] for column in law_keys()[table])}"


@cache
def law_statements() -> Mapping[str, Row]:
    """By the row's name: who states it a second time, and how that was seen (law_statements.csv)."""
    return {row["row"]: row for row in rows("law_statements")}


@cache
def law_keys() -> Mapping[str, tuple[str, ...]]:
    """By table, the columns that tell its rows."""
    return {row["row"].partition(":")[0]: tuple(row["by"].split()) for row in rows("law_statements")}


@cache
def publications_by_row() -> Mapping[str, tuple[str, ...]]:
    """The same of every row that any stand on."""
    return {row["row"]: tuple(row["checked_by"].split()) for row in rows("evidence_rows")}
