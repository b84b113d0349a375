"""Search recipes by an index of words, find them by line and food, and let overrules reach further.

SQLite keeps the words in a full-text table that triggers on `recipes` hold to `recipes.words`; PostgreSQL
in an index over an expression. Whoever copies `recipes` in SQLite anew (a batch) makes the triggers again.
"""

import hashlib
import json
import unicodedata
from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0008"
down_revision = "0007"

COLUMNS: tuple[sa.Column[Any], ...] = (
    sa.Column("by_title", sa.Text(), nullable=False, server_default=""),
    sa.Column("low_mg", sa.Float(), nullable=True),
    sa.Column("near_limit", sa.Boolean(), nullable=False, server_default=sa.false()),
    sa.Column("handled_by", sa.Text(), nullable=False, server_default=""),
)
INDEXES = {
    "ix_recipes_state_doubtful_mg_key": ("recipes", ["state", "doubtful_mg", "key"]),
    "ix_recipes_state_by_title_key": ("recipes", ["state", "by_title", "key"]),
    "ix_recipes_handled_by": ("recipes", ["handled_by"]),
    "ix_overrules_reach_withdrawn_at": ("overrules", ["reach", "withdrawn_at"]),
}
OF_LINES = ("recipe_id", "line_key", "food_code")

_OLD = "INSERT INTO recipe_words(recipe_words, rowid, words) VALUES ('delete', old.id, old.words);"
_NEW = "INSERT INTO recipe_words(rowid, words) VALUES (new.id, new.words);"
ON_SQLITE = (
    "CREATE VIRTUAL TABLE recipe_words "
    "USING fts5(words, content='recipes', content_rowid='id', prefix='2 3')",
    f"CREATE TRIGGER recipe_words_new AFTER INSERT ON recipes BEGIN {_NEW} END",
    f"CREATE TRIGGER recipe_words_old AFTER DELETE ON recipes BEGIN {_OLD} END",
    "CREATE TRIGGER recipe_words_other AFTER UPDATE OF words ON recipes WHEN old.words <> new.words "
    f"BEGIN {_OLD} {_NEW} END",
    "INSERT INTO recipe_words(recipe_words) VALUES ('rebuild')",
)
ON_POSTGRESQL = (
    "CREATE INDEX ix_recipes_words ON recipes USING gin (array_to_tsvector(string_to_array(words, ' ')))",
)


def upgrade() -> None:
    for column in COLUMNS:
        op.add_column("recipes", column._copy())
    op.add_column("overrules", sa.Column("reach", sa.Text(), nullable=False, server_default="recipe"))
    op.add_column("overrules", sa.Column("food_code", sa.Text(), nullable=True))
    op.create_table(
        "recipe_lines",
        sa.Column("recipe_id", sa.BigInteger().with_variant(sa.Integer(), "sqlite"), nullable=False),
        sa.Column("line_key", sa.Text(), nullable=True),
        sa.Column("food_code", sa.Text(), nullable=True),
        sa.ForeignKeyConstraint(["recipe_id"], ["recipes.id"], name="fk_recipe_lines_recipe_id_recipes"),
    )
    _fill()
    for name in OF_LINES:
        op.create_index(f"ix_recipe_lines_{name}", "recipe_lines", [name])
    for name, (table, columns) in INDEXES.items():
        op.create_index(name, table, columns)
    on_sqlite = op.get_bind().dialect.name == "sqlite"
    for statement in ON_SQLITE if on_sqlite else ON_POSTGRESQL:
        op.execute(statement)


def downgrade() -> None:
    if op.get_bind().dialect.name == "sqlite":
        for name in ("new", "old", "other"):
            op.execute(f"DROP TRIGGER recipe_words_{name}")
        op.execute("DROP TABLE recipe_words")
    else:
        op.drop_index("ix_recipes_words", "recipes")
    for name, (table, _) in INDEXES.items():
        op.drop_index(name, table)
    op.drop_table("recipe_lines")
    with op.batch_alter_table("overrules") as batch:
        batch.drop_column("reach")
        batch.drop_column("food_code")
    with op.batch_alter_table("recipes") as batch:
        for column in COLUMNS:
            batch.drop_column(column.name)


def _fill() -> None:
    """Tell of the current versions what they hold, as far as can be told without the service."""
    connection, metadata = op.get_bind(), sa.MetaData()
    metadata.reflect(connection, only=["recipes", "versions", "recipe_lines"])
    recipes, versions = metadata.tables["recipes"], metadata.tables["versions"]
    for recipe in connection.execute(sa.select(recipes)).mappings().all():
        query = sa.select(versions.c.answer, versions.c.title)
        query = query.where(versions.c.recipe_id == recipe["id"], versions.c.number == recipe["current"])
        row = connection.execute(query).first()
        if row is None:
            continue
        answer = json.loads(row.answer) if isinstance(row.answer, str) else row.answer
        told = {
            "words": " ".join(_words(recipe["words"])),
            "by_title": " ".join(_words(row.title))[:200],
            "low_mg": answer["sodium"]["per_serving_mg"].get("low"),
        }
        connection.execute(sa.update(recipes).where(recipes.c.id == recipe["id"]).values(told))
        lines = [
            {"recipe_id": recipe["id"], "line_key": _key(each.get("line")), "food_code": _code(each)}
            for each in answer.get("ingredients", ())
        ]
        if lines:
            connection.execute(sa.insert(metadata.tables["recipe_lines"]), lines)


def _words(text: str) -> list[str]:
    plain = unicodedata.normalize("NFKD", text.casefold())
    plain = "".join(each for each in plain if not unicodedata.combining(each))
    words = "".join(each if each.isalnum() else " " for each in plain).split()
    return list(dict.fromkeys(word[:60] for word in words))


def _key(line: str | None) -> str | None:
    if not line:
        return None
    plain = " ".join(unicodedata.normalize("NFKC", line).casefold().split()).strip(" .,;")
    return hashlib.sha256(json.dumps(plain, sort_keys=True, separators=(",", ":")).encode()).hexdigest()


def _code(ingredient: Any) -> str | None:
    return ingredient["food"]["code"] if ingredient.get("food") else None
