"""Note how far a run over all recipes has come, so that one that was stopped can be gone on with."""

import sqlalchemy as sa
from alembic import op

revision = "0013"
down_revision = "0012"


def upgrade() -> None:
    op.create_table(
        "long_runs",
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("about", sa.JSON(), nullable=False),
        sa.Column("mark", sa.JSON(), nullable=False),
        sa.Column("changed_at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("name", name="pk_long_runs"),
    )


def downgrade() -> None:
    op.drop_table("long_runs")
