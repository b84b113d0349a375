"""Keep answers packed: JSON compressed by Zstandard, a quarter of what they were.

A SQLite file keeps its size until it is vacuumed; what is free in it is used again.
"""

import json
from collections.abc import Callable
from typing import Any

import sqlalchemy as sa
import zstandard
from alembic import op

revision = "0012"
down_revision = "0011"

ROWS_AT_ONCE = 500


def upgrade() -> None:
    op.add_column("versions", sa.Column("packed", sa.LargeBinary(), nullable=True))
    _each(sa.JSON(), sa.LargeBinary(), "answer", "packed", _packed)
    op.drop_column("versions", "answer")
    op.alter_column("versions", "packed", new_column_name="answer")


def downgrade() -> None:
    op.add_column("versions", sa.Column("unpacked", sa.JSON(), nullable=True))
    _each(sa.LargeBinary(), sa.JSON(), "answer", "unpacked", _unpacked)
    op.drop_column("versions", "answer")
    op.alter_column("versions", "unpacked", new_column_name="answer")


def _each(before: Any, after: Any, source: str, target: str, made: Callable[[Any], Any]) -> None:
    """Fill one column from another, some rows at a time."""
    connection = op.get_bind()
    table = sa.table("versions", sa.column("id"), sa.column(source, before), sa.column(target, after))
    change = sa.update(table).where(table.c.id == sa.bindparam("of")).values({target: sa.bindparam("made")})
    last = 0
    while True:
        query = sa.select(table.c.id, table.c[source]).where(table.c.id > last).order_by(table.c.id)
        rows = connection.execute(query.limit(ROWS_AT_ONCE)).all()
        if not rows:
            return
        connection.execute(change, [{"of": id, "made": made(value)} for id, value in rows])
        last = rows[-1][0]


def _packed(document: Any) -> bytes:
    text = json.dumps(document, ensure_ascii=False, separators=(",", ":"))
    return zstandard.ZstdCompressor(3).compress(text.encode("utf-8", "surrogatepass"))


def _unpacked(kept: bytes) -> Any:
    return json.loads(zstandard.ZstdDecompressor().decompress(kept))
