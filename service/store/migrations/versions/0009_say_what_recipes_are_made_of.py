"""Say of each recipe which others are ingredients of it, and whether one of them changed since."""

import sqlalchemy as sa
from alembic import op

revision = "0009"
down_revision = "0008"


def upgrade() -> None:
    op.add_column("recipes", sa.Column("stale", sa.Boolean(), nullable=False, server_default=sa.false()))
    op.create_table(
        "recipe_uses",
        sa.Column("recipe_id", sa.BigInteger().with_variant(sa.Integer(), "sqlite"), nullable=False),
        sa.Column("part", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["recipe_id"], ["recipes.id"], name="fk_recipe_uses_recipe_id_recipes"),
        sa.PrimaryKeyConstraint("recipe_id", "part", name="pk_recipe_uses"),
    )
    op.create_index("ix_recipe_uses_part", "recipe_uses", ["part"])


def downgrade() -> None:
    op.drop_table("recipe_uses")
    op.drop_column("recipes", "stale")  # in place: building the table anew would lose its triggers
