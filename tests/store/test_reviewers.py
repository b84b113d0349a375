"""Reviewers log in, sessions end, guessing is slow."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest
from saltledger.store import reviewers
from saltledger.store.database import Database
from saltledger.store.schema import sessions, stamp
from sqlalchemy import text, update

PASSWORD = "tide-table-at-noon"


@pytest.fixture(autouse=True)
def one_reviewer(database: Database) -> None:
    with database.write() as connection:
        reviewers.add(connection, "ines", "Ines Ware, RD", PASSWORD)


def test_a_login_opens_a_session_that_logging_out_ends(database: Database) -> None:
    token = reviewers.log_in(database, "ines", PASSWORD)
    assert token is not None
    with database.write() as connection:
        session = reviewers.session(connection, token)
        assert session is not None
        assert session.reviewer is not None
        assert session.reviewer.name == "Ines Ware, RD"
        assert token not in str(connection.execute(text("SELECT * FROM sessions")).all())
        reviewers.log_out(connection, token)
        assert reviewers.session(connection, token) is None


@pytest.mark.parametrize(("login", "password"), [("ines", "wrong"), ("nobody", PASSWORD), ("\0", "\ud800")])
def test_anything_else_is_refused(database: Database, login: str, password: str) -> None:
    assert reviewers.log_in(database, login, password) is None
    with database.read() as connection:
        assert reviewers.session(connection, "no token") is None


def test_sessions_run_out(database: Database) -> None:
    token = reviewers.log_in(database, "ines", PASSWORD)
    assert token is not None
    with database.write() as connection:
        assert reviewers.session(connection, token) is not None
        connection.execute(update(sessions).values(expires_at=stamp(datetime.now(UTC))))
        assert reviewers.session(connection, token) is None


def test_a_new_password_ends_every_session(database: Database) -> None:
    token = reviewers.log_in(database, "ines", PASSWORD)
    with database.write() as connection:
        assert reviewers.set_password(connection, "ines", "another-tide-table")
        assert reviewers.session(connection, token or "") is None
        assert not reviewers.set_password(connection, "nobody", PASSWORD)
    assert reviewers.log_in(database, "ines", PASSWORD) is None
    assert reviewers.log_in(database, "ines", "another-tide-table") is not None


def test_a_removal_ends_every_session(database: Database) -> None:
    token = reviewers.log_in(database, "ines", PASSWORD)
    with database.write() as connection:
        assert reviewers.any_active(connection)
        assert reviewers.remove(connection, "ines")
        assert not reviewers.remove(connection, "ines")
        assert reviewers.session(connection, token or "") is None
        assert not reviewers.any_active(connection)
        assert [(each.login, each.active) for each in reviewers.every(connection)] == [("ines", False)]
    assert reviewers.log_in(database, "ines", PASSWORD) is None


@pytest.mark.parametrize(
    ("login", "name", "password", "fault"),
    [
        ("ines", "Ines", PASSWORD, "already"),
        ("in es", "Ines", PASSWORD, "letters, digits"),
        ("otto", " ", PASSWORD, "name to sign with"),
        ("otto", "Otto", "short", "at least 10"),
    ],
)
def test_reviewers_that_cannot_be_made(
    database: Database, login: str, name: str, password: str, fault: str
) -> None:
    with database.write() as connection, pytest.raises(ValueError, match=fault):
        reviewers.add(connection, login, name, password)
