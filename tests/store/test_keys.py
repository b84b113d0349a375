"""API keys: shown once, kept as a hash, closed for good."""

from __future__ import annotations

import pytest
from saltledger.store import keys
from saltledger.store.database import Database
from sqlalchemy import text


def test_a_key_opens_until_it_is_revoked(database: Database) -> None:
    with database.write() as connection:
        assert not keys.any_active(connection)
        made, secret = keys.create(connection, "newsroom", ["save", "calculate"])
        assert keys.check(connection, secret) == made
        assert made.scopes == {"save", "calculate"}
        assert keys.any_active(connection)
        assert keys.revoke(connection, made.public_id)
        assert not keys.revoke(connection, made.public_id)
        assert keys.check(connection, secret) is None
        assert not keys.any_active(connection)
        assert [each.label for each in keys.every(connection)] == ["newsroom"]


def test_the_text_of_a_key_is_nowhere_in_the_store(database: Database) -> None:
    with database.write() as connection:
        _, secret = keys.create(connection, "newsroom", ["save"])
        row = str(connection.execute(text("SELECT * FROM api_keys")).all())
    assert secret.split("_")[2] not in row


@pytest.mark.parametrize(
    "change", [lambda k: k[:-1], lambda k: k[:-1] + "\ud800", lambda k: "x" + k, lambda k: ""]
)
def test_anything_else_does_not_open(database: Database, change: object) -> None:
    with database.write() as connection:
        _, secret = keys.create(connection, "newsroom", ["save"])
        assert keys.check(connection, change(secret)) is None  # type: ignore[operator]
        assert keys.check(connection, "slk_nobody_" + secret[-64:]) is None
        assert keys.check(connection, "slk_\0_x") is None


@pytest.mark.parametrize("scopes", [[], ["everything"]])
def test_a_key_without_a_known_scope_is_refused(database: Database, scopes: list[str]) -> None:
    with database.write() as connection, pytest.raises(ValueError, match="calculate, save, review"):
        keys.create(connection, "newsroom", scopes)  # type: ignore[arg-type]
