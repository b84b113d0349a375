"""Figures with a range and a source: what every row of a figure table comes to."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache
from typing import Any, Protocol

from .spread import Spread
from .tables import Row, load, row_of


@dataclass(frozen=True, slots=True)
class SourcedFigure:
    """A spread, in the unit that the giving function states, and its source, which knows its row.

    The mark of the row (a publication, common practice, from memory) stands with it on /method.
    """

    spread: Spread
    source: str

    @property
    def row(self) -> str:
        """The row of the tables that it is ("drip:meat/roast"); "" where it is of none."""
        return row_of(self.source)

    def scaled(self, factor: float) -> SourcedFigure:
        """In another unit, or of so much of it; factor zero or more."""
        return replace(self, spread=self.spread.scaled(factor))


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


@cache
def figures(table: str, *columns: str, prefix: str = "") -> dict[Any, SourcedFigure]:
    """The figures of a table by the cell that tells them, or by the tuple of such cells where there are more.

    prefix: of the columns that hold the figure, where a row has several. Raises BrokenTable.
    """

    def keyed(row: Row) -> tuple[Any, SourcedFigure]:
        cells = tuple(row[column] for column in columns)
        return cells if len(cells) > 1 else cells[0], figure_of(row, prefix)

    return dict(load(table, keyed))
