"""Every figure that answers rest on, table by table: its source, its mark, and what was held against it.

The tables of law and safety too, row by row, each with who states it a second time.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache

from ..core.checked import HELD, checked_against, law_keys, law_name, law_statements
from ..core.tables import Row, row_of, rows, seed_foods

MARKS = ("verified", "verified-2nd", "derived", "memory", "common practice")
"""How well a figure is known, best first: read in the source; read where it is quoted; worked out from data
that is bundled; from memory of a source; what kitchens do, with no source."""

MARK_WORDS = {
    "verified": "read in the source",
    "verified-2nd": "read where the source is quoted",
    "derived": "worked out from the dataset or a trial",
    "memory": "from memory of a source, not read again",
    "common practice": "common practice or our own judgement, no source",
}

_SAID = (
    ("common practice", ("common practice", "own judgement", "our judgement", "as in the pot", "by analogy")),
    ("memory", ("from memory", "memory")),
    ("derived", ("derived", "fitted", "computed", "sr28", "household weights")),
    ("verified-2nd", ("second hand", "quoted", "industry handbook", "cooking pages")),
)

SEEN = {**HELD, "memory": "from memory of it: nobody outside holds it"}
"""How a second statement came about, best first."""

_ABOUT = ("name", "source", "mark", "note")
"""Columns that are shown on their own, or not at all."""


@dataclass(frozen=True, slots=True)
class TableRow:
    """A row: its name, its figures in words by what they are of, source, mark, inside and of, and who
    else."""

    name: str
    key: str
    figures: tuple[tuple[str, str], ...]
    source: str
    mark: str
    inside: int
    of: int
    checked_against: tuple[str, ...]


def mark_of(row: Row) -> str:
    """The mark of a row: as it says itself, else by the words of its source."""
    if row.get("mark") in MARKS:
        return row["mark"]
    said = row["source"].lower()
    return next((mark for mark, words in _SAID if any(word in said for word in words)), "verified")


@cache
def figure_tables() -> Mapping[str, tuple[TableRow, ...]]:
    """By name, every table whose rows are figures with a range and a source."""
    names = sorted(file.name[:-4] for file in seed_foods().iterdir() if file.name.endswith(".csv"))
    return {name: tuple(_rows(name)) for name in names if _is_of_figures(rows(name))}


def _is_of_figures(found: tuple[Row, ...]) -> bool:
    return bool(found) and "source" in found[0] and any(column.endswith("likely") for column in found[0])


def _rows(name: str) -> Iterator[TableRow]:
    held = _held()
    for row in rows(name):
        key = row_of(row["source"])
        shown = key.partition(":")[2].rstrip("/").replace("/", ", ") or key
        inside, of = held.get(key, (0, 0))
        yield TableRow(
            key, shown, tuple(_figures(row)), row["source"], mark_of(row), inside, of, checked_against(key)
        )


def _figures(row: Row) -> Iterator[tuple[str, str]]:
    for column in row:
        if column.endswith("likely") and row[column]:
            of = column[: -len("likely")]
            yield (
                of.rstrip("_").replace("_", " "),
                f"{row[of + 'likely']} ({row[of + 'low']} to {row[of + 'high']})",
            )


@cache
def _held() -> Mapping[str, tuple[int, int]]:
    return {row["row"]: (int(row["inside"]), int(row["of"])) for row in rows("evidence_rows")}


def audit() -> Mapping[str, Counter[str]]:
    """How many rows of each table have which mark."""
    return {name: Counter(row.mark for row in table) for name, table in figure_tables().items()}


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
