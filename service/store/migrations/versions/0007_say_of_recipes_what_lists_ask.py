"""Say of each recipe what lists ask of it and what state it is in, and of each version its key."""

import json
from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"

COLUMNS: tuple[sa.Column[Any], ...] = (
    sa.Column("state", sa.Text(), nullable=False, server_default="active"),
    sa.Column("title", sa.Text(), nullable=False, server_default=""),
    sa.Column("words", sa.Text(), nullable=False, server_default=""),
    sa.Column("status", sa.Text(), nullable=False, server_default="open"),
    sa.Column("sodium_mg", sa.Float(), nullable=False, server_default="0"),
    sa.Column("high_mg", sa.Float(), nullable=True),
    sa.Column("complete", sa.Boolean(), nullable=True),
    sa.Column("stops", sa.Integer(), nullable=False, server_default="0"),
    sa.Column("checks", sa.Integer(), nullable=False, server_default="0"),
    sa.Column("doubtful_mg", sa.Float(), nullable=False, server_default="0"),
    sa.Column("changed_since_signing", sa.Boolean(), nullable=False, server_default=sa.false()),
    sa.Column("urgency", sa.Integer(), nullable=False, server_default="0"),
    sa.Column("changed_at", sa.Text(), nullable=False, server_default=""),
)
INDEXES = {
    "ix_recipes_state_sodium_mg_key": ["state", "sodium_mg", "key"],
    "ix_recipes_state_urgency_sodium_mg_key": ["state", "urgency", "sodium_mg", "key"],
    "ix_recipes_state_changed_at_key": ["state", "changed_at", "key"],
    "ix_recipes_state_status": ["state", "status"],
}


def upgrade() -> None:
    for column in COLUMNS:
        op.add_column("recipes", column._copy())
    op.add_column("versions", sa.Column("saved_key", sa.Text(), nullable=False, server_default=""))
    _fill()
    for name, columns in INDEXES.items():
        op.create_index(name, "recipes", columns)


def downgrade() -> None:
    for name in INDEXES:
        op.drop_index(name, "recipes")
    with op.batch_alter_table("recipes") as batch:
        for column in COLUMNS:
            batch.drop_column(column.name)
    with op.batch_alter_table("versions") as batch:
        batch.drop_column("saved_key")


def _fill() -> None:
    """Tell of the current versions what they hold, as far as can be told without the service."""
    connection, metadata = op.get_bind(), sa.MetaData()
    metadata.reflect(connection, only=["recipes", "versions"])
    recipes, versions = metadata.tables["recipes"], metadata.tables["versions"]
    for recipe in connection.execute(sa.select(recipes.c.id, recipes.c.key, recipes.c.current)).all():
        mine = versions.c.recipe_id == recipe.id
        connection.execute(sa.update(versions).where(mine).values(saved_key=recipe.key))
        row = (
            connection.execute(sa.select(versions).where(mine, versions.c.number == recipe.current))
            .mappings()
            .first()
        )
        if row is not None:
            values = _told(recipe.key, row)
            connection.execute(sa.update(recipes).where(recipes.c.id == recipe.id).values(values))


def _told(key: str, row: Any) -> dict[str, Any]:
    answer = json.loads(row["answer"]) if isinstance(row["answer"], str) else row["answer"]
    severities = [each["severity"] for each in answer.get("notices", ())]
    lines = [each.get("line") or "" for each in answer.get("ingredients", ())]
    stops, incomplete = severities.count("stop"), row["complete"] is False or row["complete"] == 0
    return {
        "title": row["title"],
        "words": "\n".join([row["title"], key, *lines])[:8000].casefold(),
        "status": row["status"],
        "sodium_mg": row["sodium_mg"],
        "high_mg": row["high_mg"],
        "complete": row["complete"],
        "stops": stops,
        "checks": severities.count("check"),
        "urgency": 24 * (stops > 0) + 12 * incomplete,
        "changed_at": row["created_at"],
    }
