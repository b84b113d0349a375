"""Find recipes with a rare mark without going through all of them."""

import sqlalchemy as sa
from alembic import op

revision = "0011"
down_revision = "0010"

WITH = {
    "ix_recipes_with_stops": ("stops > 0", "stops > 0"),
    "ix_recipes_changed": ("changed_since_signing IS 1", "changed_since_signing IS true"),
    "ix_recipes_incomplete": ("complete IS 0", "complete IS false"),
}
"""Each index's condition, in SQLite's words and in PostgreSQL's."""


def upgrade() -> None:
    for name, (sqlite, postgresql) in WITH.items():
        op.create_index(
            name, "recipes", ["state"], sqlite_where=sa.text(sqlite), postgresql_where=sa.text(postgresql)
        )


def downgrade() -> None:
    for name in WITH:
        op.drop_index(name, "recipes")
