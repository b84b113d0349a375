"""Reviewers, their passwords (Argon2id) and their sessions.

A session's token is known to the browser alone; the store keeps its hash. Five wrong passwords close a
login for half a minute, which stops guessing and does not lock anyone out for long.
"""

from __future__ import annotations

import hashlib
import secrets
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from functools import cache

from argon2 import PasswordHasher
from argon2.exceptions import VerificationError
from sqlalchemy import Connection, delete, insert, select, update

from .database import Database
from .schema import as_text, now, reviewers, sessions, stamp

LEAST_PASSWORD = 10
SESSION_HOURS = 10


@dataclass(frozen=True, slots=True)
class Reviewer:
    """Someone who signs: `login` for the form, `name` for the signature."""

    login: str
    name: str
    active: bool
    created_at: str


@dataclass(frozen=True, slots=True)
class Session:
    """A browser that came in. reviewer: None where the service is open and asks for no login.
    form_token: every form of this session carries it, so that no other site can send one."""

    reviewer: Reviewer | None
    form_token: str


@cache
def _hasher() -> PasswordHasher:
    return PasswordHasher()


@cache
def _hash_of_nobody() -> str:
    """Checked for unknown logins, so that they take as long to refuse as known ones."""
    return _hasher().hash(secrets.token_hex(16))


def add(connection: Connection, login: str, name: str, password: str) -> Reviewer:
    """A new reviewer. Raises ValueError: the login is taken or not plain, or the password is too short."""
    if not login.isascii() or not login.replace(".", "").replace("-", "").replace("_", "").isalnum():
        raise ValueError("a login is made of letters, digits, dot, hyphen and underscore")
    if not name.strip():
        raise ValueError("a reviewer needs a name to sign with")
    if connection.execute(select(reviewers.c.id).where(reviewers.c.login == login)).first():
        raise ValueError(f"there is a reviewer {login!r} already")
    made = Reviewer(login, as_text(name.strip()), True, now())
    connection.execute(
        insert(reviewers).values(
            login=login, name=made.name, password_hash=_hashed(password), created_at=made.created_at
        )
    )
    return made


def set_password(connection: Connection, login: str, password: str) -> bool:
    """Give a reviewer a new password and end every session; False where there is no such reviewer."""
    row = connection.execute(select(reviewers.c.id).where(reviewers.c.login == login)).first()
    if row is None:
        return False
    _change(connection, row.id, password_hash=_hashed(password))
    connection.execute(delete(sessions).where(sessions.c.reviewer_id == row.id))
    return True


def remove(connection: Connection, login: str) -> bool:
    """Let a reviewer in no more; signatures stay. False where there is no such active reviewer."""
    query = select(reviewers.c.id).where(reviewers.c.login == login, reviewers.c.active)
    row = connection.execute(query).first()
    if row is None:
        return False
    _change(connection, row.id, active=False)
    connection.execute(delete(sessions).where(sessions.c.reviewer_id == row.id))
    return True


def every(connection: Connection) -> list[Reviewer]:
    """All reviewers, by login."""
    columns = (reviewers.c.login, reviewers.c.name, reviewers.c.active, reviewers.c.created_at)
    return [Reviewer(*row) for row in connection.execute(select(*columns).order_by(reviewers.c.login))]


def any_active(connection: Connection) -> bool:
    """Whether anyone can log in."""
    return connection.execute(select(reviewers.c.id).where(reviewers.c.active).limit(1)).first() is not None


def any_made(connection: Connection) -> bool:
    """Whether anyone ever could."""
    return connection.execute(select(reviewers.c.id).limit(1)).first() is not None


def log_in(database: Database, login: str, password: str) -> str | None:
    """The token of a new session, or None: wrong, unknown or removed. How often is the caller's to limit.

    The password is checked between two transactions: it is slow on purpose, and nobody should wait for it.
    """
    with database.read() as connection:
        query = select(reviewers).where(reviewers.c.login == as_text(login))
        row = connection.execute(query).mappings().first()
    if row is None or not row["active"]:
        _matches(_hash_of_nobody(), password)
        return None
    if not _matches(row["password_hash"], password):
        return None
    with database.write() as connection:
        return _open(connection, row["id"])


def session(connection: Connection, token: str) -> Session | None:
    """The session that a token belongs to, or None where it has none or has ended."""
    query = select(sessions.c.form_token, sessions.c.reviewer_id, reviewers)
    query = query.outerjoin(reviewers, reviewers.c.id == sessions.c.reviewer_id)
    query = query.where(sessions.c.token_hash == _token_hash(token), sessions.c.expires_at > now())
    row = connection.execute(query).mappings().first()
    if row is None:
        return None
    if row["reviewer_id"] is None:
        return Session(None, row["form_token"])
    return Session(Reviewer(row["login"], row["name"], row["active"], row["created_at"]), row["form_token"])


def log_out(connection: Connection, token: str) -> None:
    """End a session, and clear away those that ran out."""
    ended = (sessions.c.token_hash == _token_hash(token)) | (sessions.c.expires_at <= now())
    connection.execute(delete(sessions).where(ended))


def _open(connection: Connection, reviewer_id: int | None) -> str:
    token, opened = secrets.token_urlsafe(32), datetime.now(UTC)
    connection.execute(delete(sessions).where(sessions.c.expires_at <= stamp(opened)))
    connection.execute(
        insert(sessions).values(
            token_hash=_token_hash(token),
            reviewer_id=reviewer_id,
            form_token=secrets.token_urlsafe(24),
            created_at=stamp(opened),
            expires_at=stamp(opened + timedelta(hours=SESSION_HOURS)),
        )
    )
    return token


def _change(connection: Connection, reviewer_id: int, **values: object) -> None:
    connection.execute(update(reviewers).where(reviewers.c.id == reviewer_id).values(**values))


def _hashed(password: str) -> str:
    if len(password) < LEAST_PASSWORD:
        raise ValueError(f"a password has at least {LEAST_PASSWORD} characters")
    return _hasher().hash(password.encode("utf-8", "replace"))


def _matches(hashed: str, password: str) -> bool:
    try:
        return _hasher().verify(hashed, password.encode("utf-8", "replace"))
    except VerificationError:
        return False


def _token_hash(token: str) -> str:
    return hashlib.sha256(token.encode("utf-8", "replace")).hexdigest()
