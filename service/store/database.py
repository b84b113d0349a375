"""Opening the database, and its two kinds of transaction: many readers, one writer at a time.

SQLite (write-ahead log, full sync) is the default; PostgreSQL serves by URL. On both a write
transaction waits its turn before it reads: what it decided on is still true when it commits, and
events get their numbers in the order in which they can be seen.
"""

from __future__ import annotations

import glob
import os
import sqlite3
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from threading import Lock
from typing import Any
from urllib.parse import quote

from sqlalchemy import Connection, Engine, create_engine, event, inspect, text
from sqlalchemy.dialects.sqlite.base import SQLiteCompiler
from sqlalchemy.engine import URL, make_url
from sqlalchemy.exc import ArgumentError, DatabaseError, DBAPIError, InterfaceError, OperationalError

from ..core.errors import SaltledgerError, StoreUnavailable


class SqliteChanges:
    """A number of a SQLite file that is another one after every change, whoever made it, in any process.

    It is told by a connection of its own, which makes none of the changes; use it in one process only.
    """

    def __init__(self, file: str) -> None:
        self._uri, self._lock = f"file:{quote(file)}?mode=ro", Lock()
        self._connection: sqlite3.Connection | None = None

    def number(self) -> int | None:
        """The number now; None where the file cannot be asked."""
        with self._lock:
            try:
                if self._connection is None:
                    self._connection = sqlite3.connect(self._uri, uri=True, check_same_thread=False)
                found: int = self._connection.execute("PRAGMA data_version").fetchone()[0]
            except sqlite3.Error:
                self._close()
                return None
            return found

    def close(self) -> None:
        with self._lock:
            self._close()

    def _close(self) -> None:
        if self._connection is not None:
            self._connection.close()
            self._connection = None


LATEST = "0016"
"""The newest migration; a test holds it to the folder of migrations."""

BUSY_SECONDS = 15
AWAY_SECONDS = 1.0
"""After a database could not be reached: so long nobody waits for it again, and all are told so at once."""
PATIENCE = {
    "connect_timeout": 2,
    "keepalives_idle": 5,
    "keepalives_interval": 2,
    "keepalives_count": 2,
    "tcp_user_timeout": 5000,
}
"""Of PostgreSQL's client, in seconds (the last in ms): how soon it notices that nobody is there."""
_WRITER_LOCK = 0x5A17  # one number that all our processes agree on


class UnknownStore(SaltledgerError):
    """A database URL that names no database we keep a store in; `scheme` is what it begins with."""

    def __init__(self, scheme: str) -> None:
        self.scheme = scheme
        super().__init__(scheme)

    def __str__(self) -> str:
        return (
            f"SALTLEDGER_DATABASE_URL: found {self.scheme!r}, wanted sqlite:/// and the path of a file, "
            "or postgresql://user@host:port/name; leave it out for the default file."
        )


class NewerStore(StoreUnavailable):
    """A store whose schema a newer release has brought up to date."""

    def __init__(self, revision: str) -> None:
        self.revision = revision
        super().__init__(revision)

    def __str__(self) -> str:
        return (
            f"The store has schema {self.revision} of a newer release, and this one knows {LATEST}: run the "
            "newer release, or put the backup back that was made before the upgrade."
        )


class HalfImported(StoreUnavailable):
    """A store into which an archive was brought only in part."""

    def __init__(self) -> None:
        super().__init__("an archive was brought into it in part")

    def __str__(self) -> str:
        return (
            "An archive was brought into this store only in part, so it serves nobody. Run `saltledger "
            "import` with the same file again, which goes on where it was cut off."
        )


class Database:
    """One database, its schema brought up to date; safe to share between threads and across a fork."""

    def __init__(self, url: str, *, importing: bool = False) -> None:
        """Open `url` (an SQLAlchemy database URL) and bring its schema up to date.

        importing: whether an archive is to be brought in. Raises UnknownStore: no such kind of database;
        StoreUnavailable: it cannot be opened; HalfImported: no more than a part of an archive is in it.
        """
        self._engine, self._away_until = _engine(parsed(url)), 0.0
        self._changes = self._sqlite_changes()
        os.register_at_fork(after_in_child=self._forget_connections)
        try:
            upgrade(self._engine)
            if not importing and _half_imported(self._engine):
                raise HalfImported
        except DatabaseError as fault:
            raise StoreUnavailable(_reason(fault)) from fault

    @contextmanager
    def read(self) -> Iterator[Connection]:
        """A transaction that only reads, all of it seeing the same moment."""
        with _told_as_unavailable(), self._connected() as connection, connection.begin():
            yield connection

    @contextmanager
    def write(self) -> Iterator[Connection]:
        """A transaction that may write; the only one of its kind until it ends."""
        with _told_as_unavailable(), self._connected() as connection, _writing(connection):
            yield connection

    @contextmanager
    def _connected(self) -> Iterator[Connection]:
        if time.monotonic() < self._away_until:
            raise StoreUnavailable("it could not be reached a moment ago")
        try:
            connection = self._engine.connect()
        except (OperationalError, InterfaceError):
            self._away_until = time.monotonic() + AWAY_SECONDS
            raise
        with connection:
            yield connection

    def check(self) -> None:
        """Make sure that what is saved could be kept. Raises StoreUnavailable."""
        with self.read() as connection:
            if connection.dialect.name == "sqlite":
                connection.execute(text("SELECT 1 FROM alembic_version"))
                read_only = not os.access(self._engine.url.database or "", os.W_OK)
            else:
                read_only = bool(connection.execute(text("SELECT pg_is_in_recovery()")).scalar())
        if read_only:
            raise StoreUnavailable("it can only be read")

    def changes(self) -> int | None:
        """A number that stands as long as nobody, in any process, changes anything; None where only asking
        tells (PostgreSQL)."""
        return None if self._changes is None else self._changes.number()

    def _sqlite_changes(self) -> SqliteChanges | None:
        url = self._engine.url
        return SqliteChanges(url.database or "") if url.get_backend_name() == "sqlite" else None

    def close(self) -> None:
        self._engine.dispose()
        if self._changes is not None:
            self._changes.close()

    def _forget_connections(self) -> None:
        self._engine.dispose(close=False)
        self._changes = self._sqlite_changes()


def parsed(url: str) -> URL:
    """A database URL, with the driver that we use. Raises UnknownStore."""
    try:
        found = make_url(url)
    except ArgumentError as fault:
        raise UnknownStore(url.partition(":")[0][:40]) from fault
    backend = found.get_backend_name()
    if backend in {"postgres", "postgresql"}:
        return found.set(drivername="postgresql+psycopg")
    if backend != "sqlite" or not found.database or found.database == ":memory:":
        raise UnknownStore(f"{found.drivername}://{found.database or ''}")
    return found


def _engine(url: URL) -> Engine:
    if url.get_backend_name() == "sqlite":
        return _sqlite_engine(url)
    return create_engine(
        url,
        pool_pre_ping=True,
        pool_timeout=BUSY_SECONDS,
        isolation_level="REPEATABLE READ",
        connect_args=PATIENCE,
    )


def _sqlite_engine(url: URL) -> Engine:
    file = Path(url.database or "").absolute()
    _make_folder(file.parent)
    _make_private(file)
    engine = create_engine(url, connect_args={"timeout": BUSY_SECONDS})
    engine.dialect.statement_compiler = _Hinted
    event.listen(engine, "connect", _prepare_sqlite)
    event.listen(engine, "begin", _begin_sqlite)
    return engine


class _Hinted(SQLiteCompiler):
    """Writes what a query says of the index to use; SQLAlchemy does so for other databases alone."""

    def get_from_hint_text(self, table: Any, text: str | None) -> str | None:
        return text


def _make_folder(folder: Path) -> None:
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    except OSError as fault:
        raise StoreUnavailable(
            f"{folder}: {fault.strerror}; SALTLEDGER_DATABASE_URL says where to"
        ) from fault


def _make_private(file: Path) -> None:
    """Let nobody else read the store's files; SQLite gives the log's the same mode."""
    with suppress(OSError):  # opening it says what is wrong, and another's file keeps its mode
        os.close(os.open(file, os.O_RDWR | os.O_CREAT, 0o600))
        for each in file.parent.glob(f"{glob.escape(file.name)}*"):
            if each.name.removeprefix(file.name) in ("", "-wal", "-shm", "-journal"):
                each.chmod(0o600)


def _prepare_sqlite(connection: sqlite3.Connection, _record: Any) -> None:
    connection.isolation_level = None  # we say BEGIN ourselves
    connection.execute(f"PRAGMA busy_timeout = {BUSY_SECONDS * 1000}")
    connection.execute("PRAGMA foreign_keys = ON")
    connection.execute("PRAGMA synchronous = FULL")
    _use_write_ahead_log(connection)


def _use_write_ahead_log(connection: sqlite3.Connection) -> None:
    """Switch the log over; SQLite does not wait by itself here where two processes start at once."""
    deadline = time.monotonic() + BUSY_SECONDS
    while True:
        try:
            connection.execute("PRAGMA journal_mode = WAL")
            return
        except sqlite3.OperationalError:
            if time.monotonic() > deadline:
                raise
            time.sleep(0.02)


def _begin_sqlite(connection: Connection) -> None:
    writes = connection.get_execution_options().get("writes", False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")


@contextmanager
def _writing(connection: Connection) -> Iterator[None]:
    # Read committed on PostgreSQL, so that what is read after the wait is what the last writer left.
    on_sqlite = connection.dialect.name == "sqlite"
    connection.execution_options(**({"writes": True} if on_sqlite else {"isolation_level": "READ COMMITTED"}))
    with connection.begin():
        if not on_sqlite:
            connection.execute(text(f"SET LOCAL lock_timeout = '{BUSY_SECONDS}s'"))
            connection.execute(text("SELECT pg_advisory_xact_lock(:lock)"), {"lock": _WRITER_LOCK})
        yield


@contextmanager
def _told_as_unavailable() -> Iterator[None]:
    try:
        yield
    except (OperationalError, InterfaceError) as fault:
        raise StoreUnavailable(_reason(fault)) from fault


def _reason(fault: DBAPIError) -> str:
    return str(fault.orig).strip().splitlines()[0] if fault.orig else type(fault).__name__


def is_up_to_date(url: str) -> bool:
    """Whether a store need not be brought up to date; so too where opening it says what is wrong with it.

    Raises UnknownStore.
    """
    engine = _engine(parsed(url))
    try:
        with engine.connect() as connection:
            return _revision(connection) == LATEST
    except DatabaseError:
        return True
    finally:
        engine.dispose()


def upgrade(engine: Engine) -> None:
    """Bring the schema to LATEST; processes that start together wait for the one that does it.

    Raises NewerStore.
    """
    with engine.connect() as connection:
        revision = _revision(connection)
    if revision == LATEST:
        return
    if revision is not None and revision > LATEST:
        raise NewerStore(revision)
    with engine.connect() as connection, _writing(connection):
        if _revision(connection) != LATEST:
            _migrate(connection)


def _half_imported(engine: Engine) -> bool:
    with engine.connect() as connection:
        unfinished = text("SELECT 1 FROM imports WHERE finished_at IS NULL")
        return connection.execute(unfinished).first() is not None


def _revision(connection: Connection) -> str | None:
    if not inspect(connection).has_table("alembic_version"):
        return None
    revision: str | None = connection.execute(text("SELECT version_num FROM alembic_version")).scalar()
    return revision


def _migrate(connection: Connection) -> None:
    # Imported here: Alembic is needed once per new schema, not in every process that starts.
    from alembic import command  # noqa: PLC0415
    from alembic.config import Config  # noqa: PLC0415

    config = Config()
    config.set_main_option("script_location", str(Path(__file__).with_name("migrations")))
    config.attributes["connection"] = connection
    command.upgrade(config, LATEST)
