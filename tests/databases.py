"""The databases that tests of the store run on, each test in one of its own."""

from __future__ import annotations

import os
import secrets
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
import redis
from sqlalchemy import create_engine, make_url, text

KINDS = ("sqlite", pytest.param("postgresql", marks=pytest.mark.postgresql))

POSTGRESQL = "TEST_POSTGRESQL_URL"
"""Where this variable is set the PostgreSQL tests run, and fail if the server is not there."""


@contextmanager
def database_url(kind: str, folder: Path) -> Iterator[str]:
    """The URL of an empty database: a file in `folder`, or a schema of the test server."""
    if kind == "sqlite":
        yield f"sqlite:///{folder / 'store.sqlite3'}"
        return
    server = os.environ.get(POSTGRESQL)
    if not server:
        pytest.skip(f"{POSTGRESQL} is not set")
    schema = f"t_{secrets.token_hex(6)}"
    _run(server, f"CREATE SCHEMA {schema}")
    try:
        url = make_url(server).update_query_dict({"options": f"-csearch_path={schema}"})
        yield url.render_as_string(hide_password=False)
    finally:
        _run(server, f"DROP SCHEMA {schema} CASCADE")


def _run(server: str, statement: str) -> None:
    engine = create_engine(make_url(server).set(drivername="postgresql+psycopg"))
    with engine.begin() as connection:
        connection.execute(text(statement))
    engine.dispose()


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
