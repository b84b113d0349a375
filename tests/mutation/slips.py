"""Slips in a table: each number a tenth larger, each flag turned, each row dropped."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator
from dataclasses import dataclass

FLAGS = {
    "yes": "no",
    "no": "yes",
    "us": "eu",
    "below": "at_most",
    "at_most": "below",
    "contains": "may",
    "may": "contains",
}


@dataclass(frozen=True, slots=True)
class Slip:
    """A table's text with one slip in it, told by row and column."""

    where: str
    text: str


def slips_of(text: str) -> Iterator[Slip]:
    """Every slip of a table, one after the other."""
    lines = text.splitlines()
    first = next(number for number, line in enumerate(lines) if line and not line.startswith("#"))
    (columns,) = csv.reader([lines[first]])
    for number, line in enumerate(lines[first + 1 :], first + 1):
        if not line or line.startswith("#"):
            continue
        (cells,) = csv.reader([line])
        yield Slip(f"{cells[0]} (line {number + 1}) dropped", _with(lines, number, None))
        for place, cell in enumerate(cells):
            slipped = _slipped(cell)
            if slipped is not None:
                told = f"line {number + 1}, {columns[place]}: {cell} -> {slipped}"
                yield Slip(told, _with(lines, number, [*cells[:place], slipped, *cells[place + 1 :]]))


def _slipped(cell: str) -> str | None:
    if cell in FLAGS:
        return FLAGS[cell]
    try:
        value = float(cell)
    except ValueError:
        return None
    return f"{value * 1.1:.6g}" if value else "1"


def _with(lines: list[str], number: int, cells: list[str] | None) -> str:
    out = io.StringIO()
    if cells is not None:
        csv.writer(out, lineterminator="").writerow(cells)
    kept = [*lines[:number], *([] if cells is None else [out.getvalue()]), *lines[number + 1 :]]
    return "\n".join(kept) + "\n"
