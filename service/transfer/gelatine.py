"""Gelatine that a pot takes out of bones (`gelatine.csv`)."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ..core.sourced import SourcedFigure, figure_of
from ..core.tables import Row, load


@dataclass(frozen=True, slots=True)
class Gelatine:
    """most: g of protein from a gram of raw food by the end of time; half of it in half_h hours."""

    most: SourcedFigure
    half_h: float


def gelatine_of(kind: str | None) -> Gelatine | None:
    """By the food's kind as yields know it; None where it gives none worth counting."""
    return _table().get(kind or "") or _table().get((kind or "").partition("/")[0])


@cache
def _table() -> dict[str, Gelatine]:
    return dict(load("gelatine", _row_of))


def _row_of(row: Row) -> tuple[str, Gelatine]:
    return row["kind"], Gelatine(figure_of(row), float(row["half_h"]))
