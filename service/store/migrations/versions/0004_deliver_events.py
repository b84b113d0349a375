"""Name the recipe of each event in a column, and note how far events were delivered."""

import json

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"


def upgrade() -> None:
    op.add_column("events", sa.Column("key", sa.Text(), nullable=False, server_default=""))
    events = sa.table("events", sa.column("id"), sa.column("key"), sa.column("payload", sa.JSON()))
    connection = op.get_bind()
    for row in connection.execute(sa.select(events.c.id, events.c.payload)).all():
        payload = json.loads(row.payload) if isinstance(row.payload, str) else row.payload
        key = payload.get("key", "")
        connection.execute(sa.update(events).where(events.c.id == row.id).values(key=key))
    op.create_index("ix_events_key", "events", ["key"])
    op.create_table(
        "deliveries",
        sa.Column("url", sa.Text(), nullable=False),
        sa.Column("delivered", sa.BigInteger(), nullable=False),
        sa.Column("tries", sa.Integer(), nullable=False),
        sa.Column("due_at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("url", name="pk_deliveries"),
    )


def downgrade() -> None:
    op.drop_table("deliveries")
    op.drop_index("ix_events_key", "events")
    op.drop_column("events", "key")
