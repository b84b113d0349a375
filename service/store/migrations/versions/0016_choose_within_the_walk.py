"""Let a list's index hold what most lists choose by, so that what is passed over is not looked up."""

from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0016"
down_revision = "0015"

CHOOSE = ["status", "complete"]
BEFORE: dict[str, list[Any]] = {
    "ix_recipes_by_sodium": ["state", sa.text("sodium_mg DESC"), "key"],
    "ix_recipes_by_urgency": ["state", sa.text("urgency DESC"), sa.text("sodium_mg DESC"), "key"],
    "ix_recipes_by_doubtful": ["state", sa.text("doubtful_mg DESC"), "key"],
    "ix_recipes_by_changed": ["state", sa.text("changed_at DESC"), "key"],
    "ix_recipes_by_key": ["state", "key"],
}
TITLE_BEFORE, TITLE_AFTER = "ix_recipes_state_by_title_key", "ix_recipes_by_title"
BY_TITLE = ["state", "by_title", "key"]


def upgrade() -> None:
    for name, columns in BEFORE.items():
        op.drop_index(name, "recipes")
        op.create_index(name, "recipes", [*columns, *CHOOSE])
    op.drop_index(TITLE_BEFORE, "recipes")
    op.create_index(TITLE_AFTER, "recipes", [*BY_TITLE, *CHOOSE])


def downgrade() -> None:
    for name, columns in BEFORE.items():
        op.drop_index(name, "recipes")
        op.create_index(name, "recipes", columns)
    op.drop_index(TITLE_AFTER, "recipes")
    op.create_index(TITLE_BEFORE, "recipes", BY_TITLE)
