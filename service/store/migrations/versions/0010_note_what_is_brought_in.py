"""Note which archive is being brought in, and how much of it is in."""

import sqlalchemy as sa
from alembic import op

revision = "0010"
down_revision = "0009"


def upgrade() -> None:
    op.create_table(
        "imports",
        sa.Column("archive_id", sa.Text(), nullable=False),
        sa.Column("rows", sa.BigInteger(), nullable=False),
        sa.Column("started_at", sa.Text(), nullable=False),
        sa.Column("finished_at", sa.Text(), nullable=True),
        sa.PrimaryKeyConstraint("archive_id", name="pk_imports"),
    )


def downgrade() -> None:
    op.drop_table("imports")
