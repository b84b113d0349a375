"""Chain what was saved, overruled and signed, with who did it; keys sign only by a scope of their own.

What was kept before is put on record now, as "adopted": the chain vouches for it from here on, not for how it
came to be, and its actors are not known. No key is given the scope `sign`: one that signed by its scope
`review` so far is told so, and `saltledger keys grant KEY_ID sign` lets it.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"

Tables = Mapping[str, sa.Table]

NEW_COLUMNS: dict[str, list[sa.Column[Any]]] = {
    "versions": [sa.Column("sha256", sa.Text(), nullable=True)],
    "overrules": [sa.Column("actor", sa.JSON(), nullable=True)],
    "sign_offs": [
        sa.Column("actor", sa.JSON(), nullable=True),
        sa.Column("version_sha256", sa.Text(), nullable=True),
        sa.Column("entry", sa.BigInteger(), nullable=True),
    ],
}


def upgrade() -> None:
    for table, columns in NEW_COLUMNS.items():
        for column in columns:
            op.add_column(table, column._copy())
    op.create_table(
        "journal",
        sa.Column("number", sa.BigInteger(), autoincrement=False, nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("payload", sa.JSON(), nullable=False),
        sa.Column("created_at", sa.Text(), nullable=False),
        sa.Column("previous", sa.Text(), nullable=False),
        sa.Column("hash", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("number", name="pk_journal"),
    )
    _adopt()


def downgrade() -> None:
    op.drop_table("journal")
    for table, columns in NEW_COLUMNS.items():
        with op.batch_alter_table(table) as batch:
            for column in columns:
                batch.drop_column(column.name)


def _adopt() -> None:
    """Put what is there on record, in the form of the day; later releases may write other forms."""
    connection, metadata = op.get_bind(), sa.MetaData()
    metadata.reflect(connection, only=["recipes", "versions", "overrules", "sign_offs", "journal"])
    tables: Tables = metadata.tables
    # Reflection knows JSON on PostgreSQL alone; SQLite keeps it as text.
    for table, names in {
        "versions": ["request", "answer", "overrules"],
        "overrules": ["value"],
        "sign_offs": ["uncounted"],
    }.items():
        for name in names:
            tables[table].c[name].type = sa.JSON()
    tables["journal"].c.payload.type = sa.JSON()
    chain = _Chain(connection, tables["journal"])
    shas = _adopt_versions(connection, tables, chain)
    _adopt_overrules(connection, tables, chain)
    _adopt_verdicts(connection, tables, chain, shas)


class _Chain:
    """The journal as it grows."""

    def __init__(self, connection: sa.Connection, journal: sa.Table) -> None:
        self.connection, self.journal = connection, journal
        self.number, self.previous = 0, "0" * 64
        self.moment = datetime.now(UTC).strftime("%Y-%m-%dT%H:%M:%S.%fZ")

    def add(self, kind: str, payload: Mapping[str, Any]) -> int:
        self.number += 1
        payload = {**payload, "by": {"kind": "unknown", "id": "", "label": ""}, "adopted": True}
        made = _sha256([self.number, kind, payload, self.moment, self.previous])
        row = {"number": self.number, "kind": kind, "payload": payload, "created_at": self.moment}
        self.connection.execute(sa.insert(self.journal).values(**row, previous=self.previous, hash=made))
        self.previous = made
        return self.number


def _adopt_versions(connection: sa.Connection, tables: Tables, chain: _Chain) -> dict[int, str]:
    recipes, versions = tables["recipes"], tables["versions"]
    query = sa.select(recipes.c.key, versions).join(recipes, recipes.c.id == versions.c.recipe_id)
    ids = connection.scalars(sa.select(versions.c.id).order_by(versions.c.id)).all()
    shas: dict[int, str] = {}
    for version_id in ids:
        row = connection.execute(query.where(versions.c.id == version_id)).mappings().one()
        heading = ["key", "number", "save_id", "cause", "saved_by", "sodium_mg", "dataset_sha256"]
        parts = {
            "recipe": _sha256(row["request"]),
            "answer": _sha256(row["answer"]),
            "overrules": _sha256(row["overrules"]),
            "heading": _sha256([row[name] for name in [*heading, "factors_sha256", "created_at"]]),
        }
        sha256 = shas[version_id] = _sha256(parts)
        connection.execute(sa.update(versions).where(versions.c.id == version_id).values(sha256=sha256))
        told = {name: row[name] for name in ("key", "number", "save_id", "cause")}
        chain.add("version", {**told, "parts": parts, "sha256": sha256})
    return shas


def _adopt_overrules(connection: sa.Connection, tables: Tables, chain: _Chain) -> None:
    recipes, overrules = tables["recipes"], tables["overrules"]
    query = sa.select(recipes.c.key, overrules).join(recipes, recipes.c.id == overrules.c.recipe_id)
    for row in connection.execute(query.order_by(overrules.c.id)).mappings().all():
        names = ("key", "save_id", "id", "created_at", "field", "value", "reason", "reviewer")
        told = {name: row[name] for name in names}
        chain.add("overrule", {**told, "target": row["target_key"]})
        if row["withdrawn_at"] is not None:
            chain.add("withdrawal", {"key": row["key"], "id": row["id"]})


def _adopt_verdicts(
    connection: sa.Connection, tables: Tables, chain: _Chain, shas: Mapping[int, str]
) -> None:
    versions, sign_offs = tables["versions"], tables["sign_offs"]
    query = sa.select(versions.c.save_id, sign_offs).join(versions, versions.c.id == sign_offs.c.version_id)
    for row in connection.execute(query.order_by(sign_offs.c.id)).mappings().all():
        told = {name: row[name] for name in ("verdict", "name", "note", "save_id", "uncounted")}
        sha256 = shas[row["version_id"]]
        entry = chain.add("verdict", {**told, "version_sha256": sha256})
        changed = sa.update(sign_offs).where(sign_offs.c.id == row["id"])
        connection.execute(changed.values(entry=entry, version_sha256=sha256))


def _sha256(value: Any) -> str:
    text = json.dumps(value, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode()).hexdigest()
