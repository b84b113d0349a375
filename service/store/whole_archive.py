"""The whole store as one file, and back: for backup, and for moving between SQLite and PostgreSQL.

The file is newline-delimited JSON: a head, a row a line, table by table, and an end with the number of rows
and a hash over all before it. Rows keep their numbers, so that the journal, its hashes and the signatures are
the very ones. Sessions of the review pages are left out.
"""

from __future__ import annotations

import hashlib
import json
import secrets
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import groupby, islice
from operator import itemgetter
from typing import IO, Any

from sqlalchemy import JSON, Column, Connection, MetaData, Table, func, insert, select, text, update

from ..core.errors import SaltledgerError
from .database import LATEST, Database
from .schema import imports, long_runs, metadata, now, recipe_counts, sessions

FORMAT = "saltledger archive"
FORMAT_VERSION = 1
LEFT_OUT = frozenset({sessions.name, imports.name, long_runs.name, recipe_counts.name})
WHO_MAY = frozenset({"api_keys", "reviewers"})
"""Tables of those who may come in; their secrets are kept as hashes."""

ROWS_AT_ONCE = 500
"""So many rows are written in one transaction."""


class BadArchive(SaltledgerError):
    """A file that is no archive, or not a whole one; the message says what and what to do."""


class NotEmpty(SaltledgerError):
    """A store that holds something else than the archive that is to be brought in."""

    def __str__(self) -> str:
        return (
            "The store holds something already. An archive is brought into an empty store: name a new one in "
            "SALTLEDGER_DATABASE_URL."
        )


@dataclass(frozen=True, slots=True)
class Counted:
    """What was written or brought in. rows: in all; before: those that an earlier run had brought in."""

    rows: int
    versions: int
    before: int = 0


def tables(*, with_keys: bool = True) -> list[Table]:
    """The tables of an archive, in an order in which every row finds those that it names."""
    left_out = LEFT_OUT if with_keys else LEFT_OUT | WHO_MAY
    return [table for table in metadata.sorted_tables if table.name not in left_out]


# Out.


def write(database: Database, out: IO[bytes], *, with_keys: bool = True) -> Counted:
    """Write all that is kept, as it stands at one moment, to `out`. Raises StoreUnavailable."""
    rows, digest = 0, hashlib.sha256()

    def put(document: dict[str, Any]) -> None:
        line = _line(document)
        digest.update(line)
        out.write(line)

    with database.read() as connection:
        counts = {table.name: _count(connection, table) for table in tables(with_keys=with_keys)}
        head = {"format": FORMAT, "version": FORMAT_VERSION, "schema": LATEST, "id": secrets.token_hex(12)}
        put({**head, "made_at": now(), "rows": counts})
        for table in tables(with_keys=with_keys):
            for row in _every(connection, table):
                put({"table": table.name, "row": row})
                rows += 1
    out.write(_line({"end": True, "rows": rows, "sha256": digest.hexdigest()}))
    return Counted(rows, counts["versions"])


def _line(document: dict[str, Any]) -> bytes:
    return json.dumps(document, ensure_ascii=False, separators=(",", ":")).encode() + b"\n"


def _count(connection: Connection, table: Table) -> int:
    return int(connection.scalars(select(func.count()).select_from(table)).one())


def _every(connection: Connection, table: Table) -> Iterator[dict[str, Any]]:
    order = list(table.primary_key.columns) or list(table.columns)
    found = connection.execution_options(yield_per=ROWS_AT_ONCE).execute(select(table).order_by(*order))
    return (dict(row) for row in found.mappings())


# In.


def check(lines: Iterable[bytes]) -> Counted:
    """Whether a file is a whole archive that this release can bring in. Raises BadArchive."""
    archive = _Archive(lines)
    versions = sum(table.name == "versions" for table, _ in archive.rows())
    return Counted(archive.seen, versions)


def read(database: Database, lines: Iterable[bytes]) -> Counted:
    """Bring an archive into an empty store, or go on where an earlier run of the same one was cut off.

    Until all of it is in, the store is opened for nothing else. Raises BadArchive, NotEmpty,
    StoreUnavailable.
    """
    archive = _Archive(lines)
    before = done = _begin(database, archive.id)
    versions = 0
    for rows in _portions(archive.rows(), before):
        with database.write() as connection:
            for table, part in groupby(rows, key=itemgetter(0)):
                values = [row for _, row in part]
                connection.execute(insert(table), values)
                versions += len(values) * (table.name == "versions")
            done += len(rows)
            _note(connection, archive.id, rows=done)
    with database.write() as connection:
        _count_on(connection)
        _note(connection, archive.id, finished_at=now())
    return Counted(archive.seen, versions, before)


def _begin(database: Database, archive_id: str) -> int:
    """How many rows of an archive are in the store. Raises NotEmpty."""
    with database.write() as connection:
        done = connection.scalars(select(imports.c.rows).where(imports.c.archive_id == archive_id)).first()
        if done is not None:
            return int(done)
        if any(_count(connection, table) for table in (*tables(), imports)):
            raise NotEmpty
        started = {"archive_id": archive_id, "rows": 0, "started_at": now()}
        connection.execute(insert(imports).values(started))
    return 0


def _note(connection: Connection, archive_id: str, **values: Any) -> None:
    connection.execute(update(imports).where(imports.c.archive_id == archive_id).values(values))


def _portions(rows: Iterator[_Row], done: int) -> Iterator[list[_Row]]:
    """The rows after the first `done`, as many at once as are written in one transaction."""
    portion: list[_Row] = []
    for row in islice(rows, done, None):
        portion.append(row)
        if len(portion) == ROWS_AT_ONCE:
            yield portion
            portion = []
    if portion:
        yield portion


def _count_on(connection: Connection) -> None:
    """Let new rows get numbers after those that came with theirs; SQLite does so by itself."""
    if connection.dialect.name == "postgresql":
        for table in tables():
            if isinstance(table.columns.get("id"), Column) and table.c.id.autoincrement is not False:
                name = f"pg_get_serial_sequence('{table.name}', 'id')"
                newest = f"(SELECT max(id) FROM {table.name})"
                connection.execute(text(f"SELECT setval({name}, {newest}) WHERE {newest} IS NOT NULL"))


_Row = tuple[Table, dict[str, Any]]


class _Archive:
    """The lines of an archive, each checked as it is taken. seen: how many rows were taken."""

    def __init__(self, lines: Iterable[bytes]) -> None:
        self._lines, self._digest, self.seen = iter(lines), hashlib.sha256(), 0
        head = self._parsed(next(self._lines, b""))
        if head.get("format") != FORMAT or head.get("version") != FORMAT_VERSION:
            raise BadArchive("This is no archive of this service: its first line does not say so.")
        if head.get("schema") != LATEST:
            raise BadArchive(
                f"The archive was made with schema {head.get('schema')}, and this release has {LATEST}. "
                "Bring it in with the release that made it, and let this one open that store."
            )
        self.id = str(head.get("id"))
        self._tables = {table.name: table for table in _null_tables()}

    def rows(self) -> Iterator[_Row]:
        """Every row with its table, in order. Raises BadArchive: a row is not as it was written, or the file
        ends too early."""
        for line in self._lines:
            so_far = self._digest.hexdigest()
            told = self._parsed(line)
            if told.get("end"):
                if (told.get("rows"), told.get("sha256")) != (self.seen, so_far):
                    raise BadArchive("The archive was altered: its hash is not that of its rows.")
                return
            table = self._tables.get(str(told.get("table")))
            if table is None or not isinstance(told.get("row"), dict):
                raise BadArchive(f"Line {self.seen + 2} is no row of an archive.")
            if set(told["row"]) != set(table.columns.keys()):
                raise BadArchive(f"Line {self.seen + 2} has other columns than {table.name}.")
            self.seen += 1
            yield table, told["row"]
        raise BadArchive(f"The archive breaks off after {self.seen} rows; use a whole copy of it.")

    def _parsed(self, line: bytes) -> dict[str, Any]:
        self._digest.update(line)
        try:
            found = json.loads(line)
        except ValueError as fault:
            raise BadArchive(f"Line {self.seen + 1} is not JSON; use a whole copy of the archive.") from fault
        if not isinstance(found, dict):
            raise BadArchive(f"Line {self.seen + 1} is no object; this is no archive.")
        return found


def _null_tables() -> Iterator[Table]:
    """The tables, as what null in an archive is: no value at all, in columns of JSON too."""
    for table in tables():
        made = table.to_metadata(MetaData())
        for column in made.columns:
            if isinstance(column.type, JSON) and column.nullable:
                column.type = JSON(none_as_null=True)
        yield made
