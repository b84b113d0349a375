"""The databases that tests of the store run on, each test in one of its own.

Migrating one takes longer than most tests, so it is done once a process and copied.
"""

from __future__ import annotations

import atexit
import os
import secrets
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path

import psycopg
import pytest
import redis
from saltledger.store.database import Database
from sqlalchemy import make_url

KINDS = ("sqlite", pytest.param("postgresql", marks=pytest.mark.postgresql))

POSTGRESQL = "TEST_POSTGRESQL_URL"
"""Where this variable is set the PostgreSQL tests run, and fail if the server is not there."""


@contextmanager
def database_url(kind: str, folder: Path, *, migrated: bool = True) -> Iterator[str]:
    """The URL of a database that holds nothing: a file in `folder`, or a schema of the test server.

    migrated: with the tables of this release; without them it is as the service first finds one.
    """
    if kind == "sqlite":
        if migrated:
            folder.mkdir(parents=True, exist_ok=True)
            shutil.copy(_migrated_file(), folder / "store.sqlite3")
        yield f"sqlite:///{folder / 'store.sqlite3'}"
        return
    server = os.environ.get(POSTGRESQL)
    if not server:
        pytest.skip(f"{POSTGRESQL} is not set")
    with _schema(server, _script(server) if migrated else "") as schema:
        yield _url(server, schema)


@cache
def _migrated_file() -> Path:
    folder = tempfile.mkdtemp(prefix="saltledger-tests-")
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    file = Path(folder) / "store.sqlite3"
    _migrate(f"sqlite:///{file}")
    return file


@cache
def _script(server: str) -> str:
    """What makes the tables in a schema SCHEMA; nothing without pg_dump: each test migrates its own then."""
    if shutil.which("pg_dump") is None:
        return ""
    with _schema(server) as schema:
        _migrate(_url(server, schema))
        asked = ["pg_dump", "--no-owner", "--no-privileges", "--inserts", "-n", schema, server]
        told = subprocess.run(asked, check=True, capture_output=True, text=True).stdout
    kept = (line for line in told.splitlines() if not line.startswith(("CREATE SCHEMA", "\\")))
    return "\n".join(kept).replace(schema, "SCHEMA")


def _migrate(url: str) -> None:
    Database(url).close()


@contextmanager
def _schema(server: str, script: str = "") -> Iterator[str]:
    schema = f"t_{secrets.token_hex(6)}"
    _run(server, f"CREATE SCHEMA {schema}; {script.replace('SCHEMA', schema)}")
    try:
        yield schema
    finally:
        _run(server, f"DROP SCHEMA {schema} CASCADE")


def _url(server: str, schema: str) -> str:
    """A URL of a schema. No test takes the server's power away, so none waits for its disk."""
    options = f"-csearch_path={schema} -csynchronous_commit=off"
    url = make_url(server).update_query_dict({"options": options})
    return url.render_as_string(hide_password=False)


def _run(server: str, statements: str) -> None:
    plain = make_url(server).set(drivername="postgresql").render_as_string(hide_password=False)
    with psycopg.connect(plain, options="-csynchronous_commit=off") as connection:
        connection.execute(statements.encode())


REDIS = "TEST_REDIS_URL"
"""Where this variable is set the Redis tests run, and fail if the server is not there."""


def empty_redis() -> str:
    """The URL of the test server's database, emptied."""
    url = os.environ.get(REDIS)
    if not url:
        pytest.skip(f"{REDIS} is not set")
    with redis.from_url(url) as client:
        client.flushdb()
    return url
