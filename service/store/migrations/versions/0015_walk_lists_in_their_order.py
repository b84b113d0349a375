"""Index lists in the very order in which they are read, and keep the counts of recipes.

An index whose columns all go upward does not serve a list whose figures come largest first and whose keys,
among equals, go upward. The counts are kept by triggers, so that whatever writes recipes keeps them right.
"""

from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0015"
down_revision = "0014"

BEFORE = {
    "ix_recipes_state_sodium_mg_key": ["state", "sodium_mg", "key"],
    "ix_recipes_state_urgency_sodium_mg_key": ["state", "urgency", "sodium_mg", "key"],
    "ix_recipes_state_doubtful_mg_key": ["state", "doubtful_mg", "key"],
    "ix_recipes_state_changed_at_key": ["state", "changed_at", "key"],
    "ix_recipes_state_status": ["state", "status"],
}
AFTER: dict[str, list[Any]] = {
    "ix_recipes_by_sodium": ["state", sa.text("sodium_mg DESC"), "key"],
    "ix_recipes_by_urgency": ["state", sa.text("urgency DESC"), sa.text("sodium_mg DESC"), "key"],
    "ix_recipes_by_doubtful": ["state", sa.text("doubtful_mg DESC"), "key"],
    "ix_recipes_by_changed": ["state", sa.text("changed_at DESC"), "key"],
    "ix_recipes_by_key": ["state", "key"],
}

STALE: dict[str, Any] = {"sqlite_where": sa.text("stale IS 1"), "postgresql_where": sa.text("stale IS true")}

_ADD = (
    "INSERT INTO recipe_counts (state, status, count) VALUES (new.state, new.status, 1) "
    "ON CONFLICT (state, status) DO UPDATE SET count = count + 1;"
)
_TAKE = "UPDATE recipe_counts SET count = count - 1 WHERE state = old.state AND status = old.status;"
ON_SQLITE = (
    f"CREATE TRIGGER recipe_counts_new AFTER INSERT ON recipes BEGIN {_ADD} END",
    f"CREATE TRIGGER recipe_counts_old AFTER DELETE ON recipes BEGIN {_TAKE} END",
    "CREATE TRIGGER recipe_counts_other AFTER UPDATE OF state, status ON recipes "
    f"WHEN old.state <> new.state OR old.status <> new.status BEGIN {_TAKE} {_ADD} END",
)


def _counting(changed: str) -> str:
    """What changed rows add to the counts. changed: rows of state, status and 1 or -1."""
    return (
        "INSERT INTO recipe_counts AS kept (state, status, count) "
        f"SELECT state, status, sum(by) FROM ({changed}) AS changed "
        "GROUP BY state, status HAVING sum(by) <> 0 "
        "ON CONFLICT (state, status) DO UPDATE SET count = kept.count + EXCLUDED.count;"
    )


_NEW, _OLD = "SELECT state, status, 1 AS by FROM new_rows", "SELECT state, status, -1 AS by FROM old_rows"
ON_POSTGRESQL = tuple(
    statement
    for event, tables, changed in (
        ("insert", "NEW TABLE AS new_rows", _NEW),
        ("delete", "OLD TABLE AS old_rows", _OLD),
        ("update", "OLD TABLE AS old_rows NEW TABLE AS new_rows", f"{_NEW} UNION ALL {_OLD}"),
    )
    for statement in (
        f"CREATE FUNCTION recipe_counts_{event}() RETURNS trigger LANGUAGE plpgsql AS "
        f"$$ BEGIN {_counting(changed)} RETURN NULL; END $$",
        f"CREATE TRIGGER recipe_counts_{event} AFTER {event} ON recipes REFERENCING {tables} "
        f"FOR EACH STATEMENT EXECUTE FUNCTION recipe_counts_{event}()",
    )
)


def upgrade() -> None:
    for name in BEFORE:
        op.drop_index(name, "recipes")
    for name, columns in AFTER.items():
        op.create_index(name, "recipes", columns)
    op.create_index("ix_recipes_stale", "recipes", ["state"], **STALE)
    op.create_table(
        "recipe_counts",
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("status", sa.Text(), nullable=False),
        sa.Column("count", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("state", "status", name="pk_recipe_counts"),
    )
    op.execute("INSERT INTO recipe_counts SELECT state, status, count(*) FROM recipes GROUP BY state, status")
    for statement in ON_SQLITE if _on_sqlite() else ON_POSTGRESQL:
        op.execute(statement)


def downgrade() -> None:
    if _on_sqlite():
        for name in ("new", "old", "other"):
            op.execute(f"DROP TRIGGER recipe_counts_{name}")
    else:
        for event in ("insert", "delete", "update"):
            op.execute(f"DROP TRIGGER recipe_counts_{event} ON recipes")
            op.execute(f"DROP FUNCTION recipe_counts_{event}()")
    op.drop_table("recipe_counts")
    for name in (*AFTER, "ix_recipes_stale"):
        op.drop_index(name, "recipes")
    for name, columns in BEFORE.items():
        op.create_index(name, "recipes", columns)


def _on_sqlite() -> bool:
    return op.get_bind().dialect.name == "sqlite"
