"""A figure of the salt tables: its spread and the words that say where it comes from."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from .spread import Spread
from .tables import Row


@dataclass(frozen=True, slots=True)
class SourcedFigure:
    """A spread, in the unit that the giving function states, and its source."""

    spread: Spread
    source: str


class Named(Protocol):
    """The part of a dataset food that these tables go by; the group code's first two figures count."""

    @property
    def name(self) -> str: ...
    @property
    def group_code(self) -> str: ...


def spread_of(row: Row, prefix: str = "") -> Spread:
    """The columns `<prefix>low`, `<prefix>likely`, `<prefix>high` of a table's row."""
    return Spread(*(float(row[f"{prefix}{part}"]) for part in ("low", "likely", "high")))


def figure_of(row: Row, prefix: str = "") -> SourcedFigure:
    return SourcedFigure(spread_of(row, prefix), row["source"])
