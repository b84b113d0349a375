"""Backup and restore by the database's own ways, while saving goes on; schemas of other releases."""

from __future__ import annotations

import shutil
import sqlite3
import subprocess
import threading
from pathlib import Path

import pytest
from saltledger.store import recipes, verifying
from saltledger.store.database import LATEST, Database, NewerStore
from saltledger.store.saving import Workbench
from saltledger.store.verifying import Today
from sqlalchemy import create_engine, make_url, text

from ..databases import database_url
from .conftest import CMS, INES, calculate, recipe


def fill(bench: Workbench, first: int, count: int) -> None:
    for number in range(first, first + count):
        saved = bench.save(f"soup {number}", recipe(f"line {number}"), CMS).version
        bench.decide(saved.save_id, "signed", INES, "")


def check(url: str, least: int) -> None:
    """What came back is whole, and can be saved to."""
    database = Database(url)
    with database.read() as connection:
        found = verifying.verify(
            connection, Today(lambda version, asked: calculate(asked), "data-1", "factors-1")
        )
        assert (found.altered, found.differs) == ([], [])
        assert found.versions >= least
        assert recipes.current(connection, "soup 0") is not None
    fill(Workbench(database, calculate, "factors-1"), 900, 1)
    database.close()


def test_a_copy_of_sqlite_made_while_saving_goes_on_is_whole(tmp_path: Path) -> None:
    database = Database(f"sqlite:///{tmp_path}/store.sqlite3")
    bench = Workbench(database, calculate, "factors-1")
    fill(bench, 0, 5)
    writer = threading.Thread(target=fill, args=(bench, 5, 15))
    writer.start()
    with sqlite3.connect(tmp_path / "store.sqlite3") as source, sqlite3.connect(tmp_path / "copy") as target:
        source.backup(target, pages=5)
    writer.join(60)
    source.close()
    target.close()
    database.close()
    check(f"sqlite:///{tmp_path}/copy", 5)


@pytest.mark.postgresql
def test_a_dump_of_postgresql_comes_back_whole(tmp_path: Path) -> None:
    if shutil.which("pg_dump") is None:
        pytest.skip("pg_dump is not installed")
    with database_url("postgresql", tmp_path) as url:
        database = Database(url)
        fill(Workbench(database, calculate, "factors-1"), 0, 5)
        database.close()
        parsed = make_url(url)
        schema = str(parsed.query["options"]).split()[0].removeprefix("-csearch_path=")
        server = parsed.set(drivername="postgresql", query={}).render_as_string(hide_password=False)
        dump = str(tmp_path / "dump")
        subprocess.run(["pg_dump", "-Fc", "-n", schema, "-f", dump, server], check=True, timeout=60)
        engine = create_engine(make_url(server).set(drivername="postgresql+psycopg"))
        with engine.begin() as connection:
            connection.execute(text(f"DROP SCHEMA {schema} CASCADE"))
        engine.dispose()
        subprocess.run(["pg_restore", "-d", server, dump], check=True, timeout=60)
        check(url, 5)


def test_a_store_of_a_newer_release_is_refused_in_one_sentence(database: Database, url: str) -> None:
    with database.write() as connection:
        connection.execute(text("UPDATE alembic_version SET version_num = '9999'"))
    with pytest.raises(NewerStore, match=f"schema 9999 of a newer release, and this one knows {LATEST}"):
        Database(url)
