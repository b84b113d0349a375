"""Opening, migrating, and the promises of the two kinds of transaction."""

from __future__ import annotations

import contextlib
import os
import subprocess
import sys
from collections.abc import Iterator
from functools import partial
from pathlib import Path
from typing import Any

import pytest
import saltledger.store.database as module
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from saltledger.core.errors import StoreUnavailable
from saltledger.store.database import LATEST, Database, UnknownStore
from saltledger.store.schema import events, metadata, now, sign_offs, versions
from sqlalchemy import insert, select, text
from sqlalchemy.exc import IntegrityError

from ..databases import KINDS, database_url

MIGRATIONS = Path(module.__file__).with_name("migrations")


@pytest.fixture(params=KINDS)
def url(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    """A database as the service first finds it, without its tables."""
    with database_url(request.param, tmp_path, migrated=False) as url:
        yield url


EVENT = {"kind": "recipe.saved", "payload": {}, "created_at": now()}


def test_the_migrations_build_what_the_tables_say(database: Database) -> None:
    with database.read() as connection:
        ours = partial(of_ours, connection.dialect.name)
        context = MigrationContext.configure(connection, opts={"include_object": ours})
        assert compare_metadata(context, metadata) == []


def of_ours(dialect: str, _object: Any, name: str, *_more: Any) -> bool:
    """All but the index of words, of which each database has its own kind; and on SQLite, where directions
    cannot be compared, the indexes of lists, which `test_no_list_is_sorted` holds."""
    left_out = ("recipe_words", "ix_recipes_words")
    return not name.startswith((*left_out, "ix_recipes_by_") if dialect == "sqlite" else left_out)


def test_the_newest_migration_is_the_one_that_is_asked_for() -> None:
    config = Config()
    config.set_main_option("script_location", str(MIGRATIONS))
    assert ScriptDirectory.from_config(config).get_heads() == [LATEST]


def test_opening_again_keeps_what_is_there(database: Database, url: str) -> None:
    with database.write() as connection:
        connection.execute(insert(events).values(EVENT))
    again = Database(url)
    with again.read() as connection:
        assert len(connection.execute(select(events)).all()) == 1
    again.close()


def test_processes_that_open_a_new_database_at_once_all_succeed(url: str) -> None:
    script = "import sys; from saltledger.store.database import Database; Database(sys.argv[1]).close()"
    running = [subprocess.Popen([sys.executable, "-c", script, url]) for _ in range(4)]
    assert [process.wait(60) for process in running] == [0, 0, 0, 0]


def test_a_write_that_fails_leaves_nothing(database: Database) -> None:
    with contextlib.suppress(ZeroDivisionError), database.write() as connection:
        connection.execute(insert(events).values(EVENT))
        raise ZeroDivisionError
    with database.read() as connection:
        assert connection.execute(select(events)).all() == []


def test_a_read_sees_one_moment(database: Database) -> None:
    with database.read() as reading:
        assert reading.execute(select(events)).all() == []
        with database.write() as connection:
            connection.execute(insert(events).values(EVENT))
        assert reading.execute(select(events)).all() == []


def test_a_writer_waits_for_the_other_and_gives_up_in_words(
    database: Database, url: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "BUSY_SECONDS", 1)
    hurried = Database(url)
    with database.write(), pytest.raises(StoreUnavailable, match="Nothing was saved"), hurried.write():
        pass
    hurried.close()


def test_rows_that_belong_together_are_held_together(database: Database) -> None:
    row = {"version_id": 99, "verdict": "signed", "name": "x", "note": "", "created_at": "now"}
    with pytest.raises(IntegrityError), database.write() as connection:
        connection.execute(insert(sign_offs).values(row))


def test_a_child_process_opens_connections_of_its_own(database: Database) -> None:
    with database.read() as connection:
        connection.execute(select(versions)).all()
    child = os.fork()
    if child == 0:  # pragma: no cover
        try:
            with database.write() as connection:
                connection.execute(insert(events).values(EVENT))
        except BaseException:
            os._exit(1)
        os._exit(0)
    assert os.waitpid(child, 0)[1] == 0
    with database.read() as connection:
        assert len(connection.execute(select(events)).all()) == 1


def test_sqlite_syncs_fully_and_logs_ahead(tmp_path: Path) -> None:
    database = Database(f"sqlite:///{tmp_path}/a/b/store.sqlite3")
    with database.read() as connection:
        assert connection.execute(text("PRAGMA journal_mode")).scalar() == "wal"
        assert connection.execute(text("PRAGMA synchronous")).scalar() == 2
        assert connection.execute(text("PRAGMA foreign_keys")).scalar() == 1
    database.close()


def test_a_database_that_cannot_be_reached_says_so(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("not a database " * 100)
    with pytest.raises(StoreUnavailable):
        Database("postgresql://nobody@127.0.0.1:1/none")
    with pytest.raises(StoreUnavailable, match="not a database"):
        Database(f"sqlite:///{tmp_path}/file")


@pytest.mark.parametrize(
    "url", ["mysql://root:secret@h/x", "sqlite://", "sqlite:///:memory:", "nonsense", "", "a:b"]
)
def test_a_store_of_no_known_kind_is_told_in_words(url: str) -> None:
    with pytest.raises(UnknownStore, match="wanted sqlite:///") as refused:
        Database(url)
    assert "secret" not in str(refused.value)
