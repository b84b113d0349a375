"""Keep a kitchen's own measurements, whose kitchen a recipe is, and which kitchen a key belongs to."""

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"

SERIAL = sa.BigInteger().with_variant(sa.Integer(), "sqlite")


def upgrade() -> None:
    op.add_column("api_keys", sa.Column("kitchen", sa.Text(), nullable=True))
    op.create_table(
        "recipe_kitchens",
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("kitchen", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("key", name="pk_recipe_kitchens"),
    )
    op.create_table(
        "measurements",
        sa.Column("id", SERIAL, nullable=False),
        sa.Column("kitchen", sa.Text(), nullable=False),
        sa.Column("save_id", sa.Text(), nullable=True),
        sa.Column("request", sa.JSON(), nullable=False),
        sa.Column("what", sa.Text(), nullable=False),
        sa.Column("component", sa.Text(), nullable=True),
        sa.Column("after_step", sa.Integer(), nullable=True),
        sa.Column("amount", sa.Float(), nullable=False),
        sa.Column("uncertainty_percent", sa.Float(), nullable=False),
        sa.Column("measured_by", sa.Text(), nullable=False),
        sa.Column("measured_on", sa.Text(), nullable=True),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("confirmed", sa.Boolean(), nullable=False),
        sa.Column("kept_by", sa.Text(), nullable=False),
        sa.Column("created_at", sa.Text(), nullable=False),
        sa.Column("withdrawn_at", sa.Text(), nullable=True),
        sa.PrimaryKeyConstraint("id", name="pk_measurements"),
    )
    op.create_index("ix_measurements_kitchen", "measurements", ["kitchen"])


def downgrade() -> None:
    op.drop_table("measurements")
    op.drop_table("recipe_kitchens")
    op.drop_column("api_keys", "kitchen")
