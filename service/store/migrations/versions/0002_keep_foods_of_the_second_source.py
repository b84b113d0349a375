"""Keep foods of the second source, what was asked for, and which recipes wait for it."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"

SERIAL = sa.BigInteger().with_variant(sa.Integer(), "sqlite")


def upgrade() -> None:
    op.create_table(
        "kept_foods",
        sa.Column("id", SERIAL, nullable=False),
        sa.Column("code", sa.Text(), nullable=False),
        sa.Column("sha256", sa.Text(), nullable=False),
        sa.Column("document", sa.JSON(), nullable=False),
        sa.Column("role", sa.Text(), nullable=False),
        sa.Column("kept_at", sa.Text(), nullable=False),
        sa.Column("replaced_at", sa.Text(), nullable=True),
        sa.PrimaryKeyConstraint("id", name="pk_kept_foods"),
    )
    op.create_index("ix_kept_foods_code", "kept_foods", ["code"])
    op.create_index("ix_kept_foods_sha256", "kept_foods", ["sha256"])
    op.create_table(
        "look_ups",
        sa.Column("words", sa.Text(), nullable=False),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("offered", sa.JSON(), nullable=False),
        sa.Column("tries", sa.Integer(), nullable=False),
        sa.Column("due_at", sa.Text(), nullable=False),
        sa.Column("changed_at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("words", name="pk_look_ups"),
    )
    op.create_index("ix_look_ups_due_at", "look_ups", ["due_at"])
    op.create_table(
        "waiting",
        sa.Column("recipe_id", sa.BigInteger().with_variant(sa.Integer(), "sqlite"), nullable=False),
        sa.Column("words", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["recipe_id"], ["recipes.id"], name="fk_waiting_recipe_id"),
        sa.PrimaryKeyConstraint("recipe_id", "words", name="pk_waiting"),
    )
    op.create_index("ix_waiting_words", "waiting", ["words"])


def downgrade() -> None:
    for table in ("waiting", "look_ups", "kept_foods"):
        op.drop_table(table)
