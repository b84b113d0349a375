"""That a recipe was read from prose is an assumption like any other (`reading_spread.csv`)."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ..core.notices import Assumption
from ..core.spread import Spread
from ..core.tables import Row, Source, load

READING = "reading"
"""Its id among the assumptions, and the cause its draws belong to."""


def reading_assumption(document: Mapping[str, Any]) -> Assumption | None:
    """How far the sodium may lie off because the recipe was read from prose; None where it was not."""
    written = document.get("written")
    if not written:
        return None
    wanted = "answered" if written.get("answers") else "read"
    spread, source = next((s, of) for name, s, of in load("reading_spread", _row) if name == wanted)
    return Assumption(READING, spread, "ratio", Source(source, f"reading_spread:{wanted}"))


def _row(row: Row) -> tuple[str, Spread, str]:
    return row["id"], Spread(*(float(row[end]) for end in ("low", "likely", "high"))), row["source"]
