"""Who else holds a figure: publications, kept apart from those it was made of, held against it."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from .tables import rows


def checked_against(row: str) -> tuple[str, ...]:
    """Ids (evidence_sources.csv) of the publications whose measurements stand on a row of the tables and did
    not make it; empty where nobody's do."""
    return publications_by_row().get(row, ())


@cache
def publications_by_row() -> Mapping[str, tuple[str, ...]]:
    """The same of every row that any stand on."""
    return {row["row"]: tuple(row["checked_by"].split()) for row in rows("evidence_rows")}
