"""The lock of the figures: every row of every table as it was accepted, and what differs from it now.

`figures.lock` has one line a row, sorted, each a JSON array: table, row, cells by column, source, mark. The
line of a table (its row is "") has a digest of the table's rows in their order, so that an unchanged table is
told without being read. Two people who change different rows change different lines.
"""

from __future__ import annotations

import csv
import hashlib
import json
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache

from ..core.tables import seed_foods

LOCK = "figures.lock"
_DIGEST = "digest"
_WHOLE = (".csv", ".json", ".txt")

Cells = Mapping[str, str]
Rows = dict[str, Cells]


@dataclass(frozen=True, slots=True)
class Difference:
    """One cell, row or table that is not as it was accepted; `was` or `now` is "" where there is none."""

    table: str
    row: str
    column: str
    was: str
    now: str

    @property
    def name(self) -> str:
        """The row as answers name it ("drip:meat/roast"), or the table."""
        return f"{self.table}:{self.row}" if self.row else self.table

    def __str__(self) -> str:
        if not self.row:
            return f"{self.name}: {self.column or 'the order of its rows'} differs from what was accepted"
        if not self.column:
            return f"{self.name}: this row is {'new' if self.now else 'gone'}"
        return f"{self.name}: {self.column} was {self.was!r} and is {self.now!r}"


def differences() -> list[Difference]:
    """What the tables say today and the accepted ones do not, by table and row."""
    lines = _lines(LOCK)
    locked, now = _digests(lines), {name: _digest(name) for name in names()}
    changed = [name for name in sorted(now.keys() | locked.keys()) if now.get(name) != locked.get(name)]
    was = _locked_rows(lines, changed) if changed else {}
    found: list[Difference] = []
    for name in changed:
        found += _between(_label(name), was.get(name, {}), rows_of(name) if name in now else {})
    return found


def lock_text() -> str:
    """The lock of the tables as they are."""
    lines = []
    for name in names():
        lines.append(_line(name, "", {_DIGEST: _digest(name)}))
        lines += [_line(name, row, cells) for row, cells in rows_of(name).items()]
    return "\n".join(sorted(lines)) + "\n"


@cache
def fingerprint() -> str:
    """SHA-256 of the lock of the tables as they are, by the digest of each."""
    whole = "\n".join(f"{name} {_digest(name)}" for name in names())
    return hashlib.sha256(whole.encode()).hexdigest()


def names() -> list[str]:
    """The files that hold figures: the tables, and the dataset in data/."""
    top = seed_foods()
    own = [file.name for file in top.iterdir() if file.name.endswith(_WHOLE)]
    return sorted(own + [f"data/{file.name}" for file in top.joinpath("data").iterdir()])


def rows_of(name: str) -> Rows:
    """The rows of a table by name: as many columns from the left as tell them apart."""
    if name.endswith(".csv") and not name.startswith("data/"):
        return _named(list(csv.DictReader(_lines(name))))
    if name.endswith(".txt"):
        return {line.partition("=")[0].strip(): {"line": line} for line in _lines(name)}
    return {}


def _named(found: list[dict[str, str]]) -> Rows:
    columns = list(found[0]) if found else []
    keys: list[str] = []
    for count in range(1, len(columns) + 1):
        keys = ["/".join(row[each] for each in columns[:count]) for row in found]
        if len(set(keys)) == len(found):
            break
    # Only a row that stands twice word for word is left with the name of another.
    seen: Counter[str] = Counter()
    named = {}
    for told, row in zip(keys, found, strict=True):
        key = told or "(blank)"
        seen[key] += 1
        named[key if seen[key] == 1 else f"{key} ({seen[key]})"] = row
    return dict(named)


def _lines(name: str) -> list[str]:
    text = seed_foods().joinpath(name).read_text(encoding="utf-8")
    return [line for line in text.splitlines() if line.strip() and not line.startswith("#")]


def _digest(name: str) -> str:
    return hashlib.sha256("\n".join(_lines(name)).encode()).hexdigest()[:16]


def _line(table: str, row: str, cells: Cells) -> str:
    kept = {column: cell for column, cell in cells.items() if cell and column not in ("source", "mark")}
    parts = [table, row, kept, cells.get("source", ""), cells.get("mark", "")]
    return json.dumps(parts, ensure_ascii=False, separators=(",", ":"))


def _digests(lines: Iterable[str]) -> dict[str, str]:
    """The accepted digest of each file; "" where it stands twice, as after a merge of two changes."""
    found: dict[str, str] = {}
    for line in lines:
        if f',"",{{"{_DIGEST}":' in line:
            table, _, cells, *_ = json.loads(line)
            found[table] = "" if table in found else cells[_DIGEST]
    return found


def _locked_rows(lines: Iterable[str], tables: Iterable[str]) -> dict[str, Rows]:
    """The accepted rows of some tables. Of a row that two people changed at once the later line is taken."""
    starts = tuple(json.dumps([name], ensure_ascii=False)[:-1] + "," for name in tables)
    found: dict[str, Rows] = {}
    for line in lines:
        if line.startswith(starts):
            table, row, cells, source, mark = json.loads(line)
            if row:
                found.setdefault(table, {})[row] = cells | {"source": source, "mark": mark}
    return found


def _label(name: str) -> str:
    return name.removesuffix(".csv")


def _between(table: str, was: Rows, now: Rows) -> Iterator[Difference]:
    if not now and not was:
        yield Difference(table, "", "its content", "", "")
        return
    some = False
    for row in sorted(was.keys() | now.keys()):
        before, after = was.get(row), now.get(row)
        if before is None or after is None:
            some = True
            yield Difference(table, row, "", _words(before), _words(after))
            continue
        for column in sorted(before.keys() | after.keys()):
            if before.get(column, "") != after.get(column, ""):
                some = True
                yield Difference(table, row, column, before.get(column, ""), after.get(column, ""))
    if not some:
        yield Difference(table, "", "", "", "")


def _words(cells: Cells | None) -> str:
    return "" if cells is None else ", ".join(f"{column} {cell}" for column, cell in cells.items() if cell)


def in_words(found: Iterable[Difference], most: int) -> list[str]:
    """The differences in words, the first `most` of them."""
    listed = list(found)
    words = [str(each) for each in listed[:most]]
    return [*words, f"and {len(listed) - most} more"] if len(listed) > most else words
