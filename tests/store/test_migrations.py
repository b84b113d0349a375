"""Stores that earlier releases made, brought up to date."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
import saltledger.store.database as module
from alembic import command
from alembic.config import Config
from saltledger.store import recipes, verifying
from saltledger.store.database import Database, parsed
from saltledger.store.verifying import Today
from sqlalchemy import create_engine, text

from ..databases import KINDS, database_url
from .conftest import calculate

MIGRATIONS = Path(module.__file__).with_name("migrations")
ANSWER = '{"id": "c1", "dataset": {"sha256": "d"}, "sodium": {"per_serving_mg": {"likely": 25.0}}}'
OLD_ROWS = (
    "INSERT INTO api_keys VALUES (1, 'desk', 'ab12', 'x', 'save review', '2026-01-01', NULL)",
    "INSERT INTO recipes VALUES (1, 'soup', 2, '2026-01-01')",
    *(
        f"INSERT INTO versions VALUES ({n}, 1, {n}, 'save_{n}', 'c1', '{{\"servings\": 4}}', '{ANSWER}', "
        f"'Soup', '[]', 'h', 'd', 'f', 25.0, 'saved', 'cms', '{status}', '2026-01-0{n}')"
        for n, status in ((1, "sent_back"), (2, "signed"))
    ),
    "INSERT INTO overrules VALUES (1, 1, 'save_1', 't', NULL, '{}', 'grams', '3.5', 'weighed', 'Ines', "
    "'2026-01-01', '2026-01-02')",
    "INSERT INTO sign_offs VALUES (1, 1, 'sent_back', 'Ines', 'salt?', '2026-01-01')",
    "INSERT INTO sign_offs VALUES (2, 2, 'signed', 'Ines', '', '2026-01-02')",
)


@pytest.fixture(params=KINDS)
def url(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    """A database as the service first finds it, without its tables."""
    with database_url(request.param, tmp_path, migrated=False) as url:
        yield url


def config(connection) -> Config:
    made = Config()
    made.set_main_option("script_location", str(MIGRATIONS))
    made.attributes["connection"] = connection
    return made


@pytest.fixture
def old_url(url: str) -> str:
    """The URL of a store as the first release laid it out, with something in it."""
    engine = create_engine(parsed(url))
    with engine.begin() as connection:
        command.upgrade(config(connection), "0001")
        for statement in OLD_ROWS:
            connection.execute(text(statement.replace(":", "\\:")))
    engine.dispose()
    return url


def test_what_was_there_is_put_on_record_and_found_whole(old_url: str) -> None:
    database = Database(old_url)
    with database.read() as connection:
        found = verifying.verify(
            connection, Today(lambda version, recipe: calculate(recipe), "other", "other")
        )
        assert (found.altered, found.versions, found.entries) == ([], 2, 2 + 2 + 2)
        (signed,) = recipes.sign_offs_of(connection, "save_2")
        version = recipes.by_save_id(connection, "save_2")
    assert version is not None
    assert (signed.name, signed.by.kind, signed.version_sha256) == ("Ines", "unknown", version.sha256)
    database.close()


def test_no_key_that_was_there_may_sign(old_url: str) -> None:
    database = Database(old_url)
    with database.read() as connection:
        scopes = connection.execute(text("SELECT scopes FROM api_keys")).scalar()
    assert scopes == "save review"
    database.close()


def test_the_way_back_leaves_what_the_first_release_kept(old_url: str) -> None:
    Database(old_url).close()
    engine = create_engine(parsed(old_url))
    with engine.begin() as connection:
        command.downgrade(config(connection), "0001")
        assert connection.execute(text("SELECT count(*) FROM versions")).scalar() == 2
        assert connection.execute(text("SELECT name FROM sign_offs")).scalars().all() == ["Ines", "Ines"]
    engine.dispose()
