"""The number that tells whether a store has changed: another one after every change, whoever made it."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from saltledger.store import keys
from saltledger.store.database import Database, SqliteChanges

from ..databases import database_url

ELSEWHERE = """
import sys
from saltledger.store import keys
from saltledger.store.database import Database
with Database(sys.argv[1]).write() as connection:
    keys.create(connection, "from elsewhere", ["calculate"])
"""


def test_every_change_is_another_number_whoever_makes_it(tmp_path: Path) -> None:
    url = f"sqlite:///{tmp_path}/store.sqlite3"
    database, other = Database(url), Database(url)
    numbers = [database.changes()]
    for each in (database, other):
        with each.write() as connection:
            keys.create(connection, "a cook", ["calculate"])
        numbers.append(database.changes())
    subprocess.run([sys.executable, "-c", ELSEWHERE, url], check=True)
    numbers.append(database.changes())
    with database.read() as connection:
        assert len(keys.every(connection)) == 3
    assert None not in numbers
    assert len(set(numbers)) == 4
    assert database.changes() == numbers[-1]


def test_an_open_transaction_is_no_change_until_it_is_kept(tmp_path: Path) -> None:
    database = Database(f"sqlite:///{tmp_path}/store.sqlite3")
    before = database.changes()
    with database.write() as connection:
        keys.create(connection, "a cook", ["calculate"])
        assert database.changes() == before
    assert database.changes() != before


def test_a_child_process_asks_for_itself(tmp_path: Path) -> None:
    database = Database(f"sqlite:///{tmp_path}/store.sqlite3")
    database.changes()
    child = os.fork()
    if child == 0:
        before = database.changes()
        with database.write() as connection:
            keys.create(connection, "a cook", ["calculate"])
        os._exit(0 if before is not None and before != database.changes() else 1)
    assert os.waitpid(child, 0)[1] == 0


def test_a_file_of_an_odd_name_and_one_that_is_not_there(tmp_path: Path) -> None:
    odd = tmp_path / "a #1 ?% b.sqlite3"
    assert SqliteChanges(str(odd)).number() is None
    odd.write_bytes(b"")
    assert SqliteChanges(str(odd)).number() is not None


@pytest.mark.postgresql
def test_postgresql_has_to_be_asked(tmp_path: Path) -> None:
    with database_url("postgresql", tmp_path) as url:
        database = Database(url)
        assert database.changes() is None
        database.close()
