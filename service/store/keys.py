"""API keys: made once, shown once, kept only as a hash.

A key is `slk_<public id>_<secret>`. The secret is 256 random bits, so a plain SHA-256 of it cannot be
searched through; slow password hashes are for words that people choose.
"""

from __future__ import annotations

import hashlib
import hmac
import secrets
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal, get_args

from sqlalchemy import Connection, RowMapping, insert, select, update

from .schema import api_keys, as_text, now

Scope = Literal["calculate", "save", "review", "sign"]
SCOPES: tuple[Scope, ...] = get_args(Scope)

PREFIX = "slk"


@dataclass(frozen=True, slots=True)
class ApiKey:
    """A key without its secret. revoked_at: None while it opens doors."""

    public_id: str
    label: str
    scopes: frozenset[str]
    created_at: str
    revoked_at: str | None
    kitchen: str | None = None
    """The kitchen that it belongs to, whose measurements it adds to and answers by; None: its own."""

    @property
    def kitchen_id(self) -> str:
        """What the store keeps a kitchen's measurements under."""
        return f"kitchen:{self.kitchen}" if self.kitchen else f"key:{self.public_id}"


def create(
    connection: Connection, label: str, scopes: Iterable[Scope], kitchen: str | None = None
) -> tuple[ApiKey, str]:
    """A new key and its text, which cannot be had again. Raises ValueError: no scope, or an unknown one."""
    wanted = set(scopes)
    if not wanted or wanted - set(SCOPES):
        raise ValueError(f"a key needs one or more of the scopes {', '.join(SCOPES)}")
    public_id, secret = secrets.token_hex(6), secrets.token_hex(32)
    named = as_text(kitchen) if kitchen else None
    made = ApiKey(public_id, as_text(label), frozenset(wanted), now(), None, named)
    connection.execute(
        insert(api_keys).values(
            label=made.label,
            public_id=public_id,
            secret_hash=_hashed(secret),
            scopes=" ".join(scope for scope in SCOPES if scope in wanted),
            created_at=made.created_at,
            kitchen=named,
        )
    )
    return made, f"{PREFIX}_{public_id}_{secret}"


def check(connection: Connection, text: str) -> ApiKey | None:
    """The key that `text` is, or None where it is none, or a revoked one."""
    prefix, _, rest = text.partition("_")
    public_id, _, secret = rest.partition("_")
    if prefix != PREFIX or not public_id.isalnum() or not public_id.isascii():
        return None
    row = connection.execute(select(api_keys).where(api_keys.c.public_id == public_id)).mappings().first()
    if row is None or row["revoked_at"] is not None:
        return None
    return _key(row) if hmac.compare_digest(row["secret_hash"], _hashed(secret)) else None


def any_active(connection: Connection) -> bool:
    """Whether at least one key opens doors."""
    query = select(api_keys.c.id).where(api_keys.c.revoked_at.is_(None)).limit(1)
    return connection.execute(query).first() is not None


def any_made(connection: Connection) -> bool:
    """Whether a key was ever made, revoked or not."""
    return connection.execute(select(api_keys.c.id).limit(1)).first() is not None


def every(connection: Connection) -> list[ApiKey]:
    """All keys, revoked ones too, the oldest first."""
    return [_key(row) for row in connection.execute(select(api_keys).order_by(api_keys.c.id)).mappings()]


def grant(connection: Connection, public_id: str, scope: Scope) -> bool:
    """Let a key do one thing more; False where there is none of this id that is open."""
    which = (api_keys.c.public_id == public_id) & api_keys.c.revoked_at.is_(None)
    row = connection.execute(select(api_keys).where(which)).mappings().first()
    if row is None:
        return False
    wanted = _key(row).scopes | {scope}
    scopes = " ".join(each for each in SCOPES if each in wanted)
    return connection.execute(update(api_keys).where(which).values(scopes=scopes)).rowcount > 0


def revoke(connection: Connection, public_id: str) -> bool:
    """Close a key for good; False where there is none of this id that is open."""
    which = (api_keys.c.public_id == public_id) & api_keys.c.revoked_at.is_(None)
    return connection.execute(update(api_keys).where(which).values(revoked_at=now())).rowcount > 0


def _hashed(secret: str) -> str:
    return hashlib.sha256(secret.encode("utf-8", "replace")).hexdigest()


def _key(row: RowMapping) -> ApiKey:
    scopes = frozenset(row["scopes"].split())
    return ApiKey(
        row["public_id"], row["label"], scopes, row["created_at"], row["revoked_at"], row["kitchen"]
    )
