"""Keep beside a version whether its sodium is complete, and with a signature what was not counted."""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"


def upgrade() -> None:
    op.add_column("versions", sa.Column("complete", sa.Boolean(), nullable=True))
    op.add_column("versions", sa.Column("high_mg", sa.Float(), nullable=True))
    op.add_column("sign_offs", sa.Column("uncounted", sa.JSON(), nullable=True))


def downgrade() -> None:
    op.drop_column("sign_offs", "uncounted")
    op.drop_column("versions", "high_mg")
    op.drop_column("versions", "complete")
