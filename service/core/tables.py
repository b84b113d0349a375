"""The one reader of the tables in seed_foods/: the domain modules do no other I/O.

A table is a CSV file, UTF-8. Lines that begin with "#" say what it is: its columns, units and sources.
"""

from __future__ import annotations

import csv
import hashlib
import json
from collections.abc import Callable, Iterator
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from sys import intern
from typing import Any, Self, TypeVar

from .errors import BrokenTable


class Source(str):
    """Where a figure comes from, in words. row: the row's name ("drip:meat/roast"), "" where it is of none.

    A string like any other: compared, printed and kept as its words.
    """

    __slots__ = ("row",)
    row: str

    def __new__(cls, words: str, row: str = "") -> Self:
        made = super().__new__(cls, words)
        made.row = row
        return made


def row_of(source: str) -> str:
    """The row that words stand in; "" where they are anybody's."""
    return source.row if isinstance(source, Source) else ""


def with_words(source: str, words: str) -> Source:
    """Other words for the same row: what the source says, and more."""
    return Source(words, row_of(source))


Row = dict[str, str]
T = TypeVar("T")


def seed_foods() -> Traversable:
    """The folder of bundled data, in a checkout and in an installed wheel alike."""
    return files(f"{__name__.partition('.')[0]}.seed_foods")


@cache
def rows(name: str) -> tuple[Row, ...]:
    """The rows of seed_foods/`name`.csv, each a dict by column; empty cells are ''.

    A cell of the column `source` knows the name of its row (`Source.row`, "drained_cans:beans/yes").
    Raises BrokenTable: a row has more or fewer cells than there are columns.
    """
    head, *cells = each_row(name)
    found = [dict(zip(head, map(intern, each), strict=True)) for each in cells]  # most are in many rows
    if found and "source" in found[0]:
        telling = _telling(found)
        for row in found:
            row["source"] = Source(row["source"], f"{name}:{'/'.join(row[each] for each in telling)}")
    return tuple(found)


def each_row(name: str) -> Iterator[list[str]]:
    """The cells of each row of seed_foods/`name`.csv, the column heads first: for a large table of which
    something else is made, and nothing kept.

    Raises BrokenTable: a row has more or fewer cells than there are columns.
    """
    with seed_foods().joinpath(f"{name}.csv").open(encoding="utf-8") as lines:
        found = filter(None, csv.reader(line for line in lines if not line.startswith("#")))
        head = next(found, [])
        yield head
        for number, cells in enumerate(found, 1):
            if len(cells) != len(head):
                told = ", ".join(cells)[:200]
                raise BrokenTable(f"{name}.csv", number, f"more or fewer cells than columns: {told}")
            yield cells


def _telling(found: list[Row]) -> list[str]:
    """As many columns from the left as it takes to tell every row from every other."""
    columns = list(found[0])
    for count in range(1, len(columns)):
        if len({tuple(row[each] for each in columns[:count]) for row in found}) == len(found):
            return columns[:count]
    return columns


def load(name: str, make: Callable[[Row], T]) -> tuple[T, ...]:
    """Each row of seed_foods/`name`.csv through `make`; a row that fails is named in the error.

    Raises BrokenTable: the file and the row, counted from 1 below the column heads.
    """
    made = []
    for number, row in enumerate(rows(name), 1):
        try:
            made.append(make(row))
        except (KeyError, TypeError, ValueError) as fault:
            raise BrokenTable(f"{name}.csv", number, str(fault)) from fault
    return tuple(made)


HOUSEHOLD = "household_weights"
"""In place of a table's name: a household weight of a food, as the dataset has it ("…:02047/1 tsp")."""


@cache
def row_names() -> frozenset[str]:
    """The name of every row of figures, over all tables."""
    names = (file.name[:-4] for file in seed_foods().iterdir() if file.name.endswith(".csv"))
    return frozenset(each for name in names for each in _names_of(name))


def _names_of(name: str) -> Iterator[str]:
    """The names of a table's rows; those of a derived table, which has one source for all, by its key."""
    found = rows(name)
    if found and "source" in found[0]:
        yield from (row_of(row["source"]) for row in found)
    elif found and "likely" in found[0]:
        telling = _telling(list(found))
        yield from (f"{name}:{'/'.join(row[each] for each in telling)}" for row in found)


def is_row(name: str) -> bool:
    """Whether an assumption can stand on a row of this name."""
    return name in row_names() or name.startswith(f"{HOUSEHOLD}:")


@cache
def document(name: str) -> Any:
    """The parsed seed_foods/`name`.json."""
    return json.loads(seed_foods().joinpath(f"{name}.json").read_text(encoding="utf-8"))


@cache
def tables_sha256() -> str:
    """One SHA-256 over the hand-kept tables, each by name and content; the dataset in data/ has its own.

    The same files give the same value on every machine, whatever ends their lines.
    """
    digest = hashlib.sha256()
    for file in sorted(seed_foods().iterdir(), key=lambda each: each.name):
        if file.name.endswith((".csv", ".txt")):
            digest.update(file.name.encode() + b"\0" + file.read_bytes().replace(b"\r\n", b"\n"))
    return digest.hexdigest()
