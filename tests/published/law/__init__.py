"""Figures of law and safety, stated anew from the texts that set them and held against the tables.

Each module states figures in the layout of their source, or as the arithmetic by which the source gives
them; none reads a table. `seen` says how a figure came to stand here: "read" (the source's own text was
read), "quoted" (a page that quotes it was read) or "memory" (from memory of the source; not read again).
"""

from __future__ import annotations

from dataclasses import dataclass

KEYS = {
    "allergens": ("allergen",),
    "audiences": ("audience",),
    "claims": ("id", "kinds", "basis"),
    "curing_limits": ("scheme", "product_class", "agent"),
    "curing_salts": ("kind",),
    "energy_factors": ("scheme", "tag"),
    "food_safety": ("food_class", "form"),
    "label_rounding": ("scheme", "rule", "below"),
    "label_rules_eu": ("tag",),
    "label_rules_fda": ("tag",),
    "label_schemes": ("scheme",),
    "label_tolerances": ("scheme", "tags", "below"),
    "lethality_times": ("table", "temperature_f"),
    "reference_amounts": ("dish_class",),
    "reference_values": ("reference", "tag", "audience"),
    "safety_limits": ("id",),
}
"""The tables that are checked twice, and the columns by which a row is known."""

WORDS = {"name", "note", "source", "mark", "printed_name", "printed_unit", "rows", "caption", "lead"} | {
    "first_head", "percent_head", "less_than", "statement", "conventions"
}  # fmt: skip
"""Columns that hold words for people and no figure."""


@dataclass(frozen=True, slots=True)
class Stated:
    """What a source says of one row: its key, and the cells that follow from the source, by column."""

    table: str
    key: tuple[str, ...]
    cells: tuple[tuple[str, str], ...]
    source: str
    seen: str

    @property
    def name(self) -> str:
        return f"{self.table}:{'/'.join(self.key)}"


def stated(
    table: str,
    columns: str,
    lines: str,
    /,
    *,
    source: str,
    seen: str,
    split: str | None = None,
    **same: object,
) -> list[Stated]:
    """One statement a line of `lines`, its cells in the order of `columns`; "." is an empty cell.

    same: cells that all lines share. split: what parts the cells, white space where not given.
    """
    assert seen in ("read", "quoted", "memory")
    shared = {column: str(cell) for column, cell in same.items()}
    found = []
    for line in filter(None, map(str.strip, lines.splitlines())):
        row = shared | dict(zip(columns.split(), map(_cell, line.split(split)), strict=True))
        key = tuple(row.pop(column) for column in KEYS[table])
        found.append(Stated(table, key, tuple(sorted(row.items())), source, seen))
    return found


def _cell(words: str) -> str:
    return "" if words.strip() == "." else words.strip()
