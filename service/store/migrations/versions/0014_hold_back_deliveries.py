"""Hold back what a receiver refuses of one recipe, so that it keeps nobody else's events waiting."""

import sqlalchemy as sa
from alembic import op

revision = "0014"
down_revision = "0013"


def upgrade() -> None:
    op.create_table(
        "held_deliveries",
        sa.Column("url", sa.Text(), nullable=False),
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("event_id", sa.BigInteger(), nullable=False),
        sa.Column("tries", sa.Integer(), nullable=False),
        sa.Column("due_at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("url", "key", name="pk_held_deliveries"),
    )


def downgrade() -> None:
    op.drop_table("held_deliveries")
