"""Lay out recipes and their versions, reviews, events, keys and reviewers."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None

SERIAL = sa.BigInteger().with_variant(sa.Integer(), "sqlite")


def upgrade() -> None:
    op.create_table(
        "api_keys",
        sa.Column("id", SERIAL, nullable=False),
        sa.Column("label", sa.Text(), nullable=False),
        sa.Column("public_id", sa.Text(), nullable=False),
        sa.Column("secret_hash", sa.Text(), nullable=False),
        sa.Column("scopes", sa.Text(), nullable=False),
        sa.Column("created_at", sa.Text(), nullable=False),
        sa.Column("revoked_at", sa.Text(), nullable=True),
        sa.PrimaryKeyConstraint("id", name="pk_api_keys"),
        sa.UniqueConstraint("public_id", name="uq_api_keys_public_id"),
    )
    op.create_table(
        "events",
        sa.Column("id", SERIAL, nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("payload", sa.JSON(), nullable=False),
        sa.Column("created_at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_events"),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "recipes",
        sa.Column("id", SERIAL, nullable=False),
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("current", sa.Integer(), nullable=False),
        sa.Column("created_at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_recipes"),
        sa.UniqueConstraint("key", name="uq_recipes_key"),
    )
    op.create_table(
        "reviewers",
        sa.Column("id", SERIAL, nullable=False),
        sa.Column("login", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("password_hash", sa.Text(), nullable=False),
        sa.Column("active", sa.Boolean(), server_default=sa.text("true"), nullable=False),
        sa.Column("failed_logins", sa.Integer(), server_default="0", nullable=False),
        sa.Column("locked_until", sa.Text(), nullable=True),
        sa.Column("created_at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_reviewers"),
        sa.UniqueConstraint("login", name="uq_reviewers_login"),
    )
    op.create_table(
        "overrules",
        sa.Column("id", SERIAL, nullable=False),
        sa.Column("recipe_id", SERIAL, nullable=False),
        sa.Column("save_id", sa.Text(), nullable=False),
        sa.Column("target_key", sa.Text(), nullable=False),
        sa.Column("line_key", sa.Text(), nullable=True),
        sa.Column("target", sa.JSON(), nullable=False),
        sa.Column("field", sa.Text(), nullable=False),
        sa.Column("value", sa.JSON(), nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.Column("reviewer", sa.Text(), nullable=False),
        sa.Column("created_at", sa.Text(), nullable=False),
        sa.Column("withdrawn_at", sa.Text(), nullable=True),
        sa.ForeignKeyConstraint(["recipe_id"], ["recipes.id"], name="fk_overrules_recipe_id"),
        sa.PrimaryKeyConstraint("id", name="pk_overrules"),
    )
    op.create_index("ix_overrules_line_key", "overrules", ["line_key"], unique=False)
    op.create_index("ix_overrules_recipe_id", "overrules", ["recipe_id"], unique=False)
    op.create_table(
        "sessions",
        sa.Column("token_hash", sa.Text(), nullable=False),
        sa.Column("reviewer_id", SERIAL, nullable=True),
        sa.Column("form_token", sa.Text(), nullable=False),
        sa.Column("created_at", sa.Text(), nullable=False),
        sa.Column("expires_at", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["reviewer_id"], ["reviewers.id"], name="fk_sessions_reviewer_id"),
        sa.PrimaryKeyConstraint("token_hash", name="pk_sessions"),
    )
    op.create_table(
        "versions",
        sa.Column("id", SERIAL, nullable=False),
        sa.Column("recipe_id", SERIAL, nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("save_id", sa.Text(), nullable=False),
        sa.Column("calculation_id", sa.Text(), nullable=False),
        sa.Column("request", sa.JSON(), nullable=False),
        sa.Column("answer", sa.JSON(), nullable=False),
        sa.Column("title", sa.Text(), nullable=False),
        sa.Column("overrules", sa.JSON(), nullable=False),
        sa.Column("content_hash", sa.Text(), nullable=False),
        sa.Column("dataset_sha256", sa.Text(), nullable=False),
        sa.Column("factors_sha256", sa.Text(), nullable=False),
        sa.Column("sodium_mg", sa.Float(), nullable=False),
        sa.Column("cause", sa.Text(), nullable=False),
        sa.Column("saved_by", sa.Text(), nullable=False),
        sa.Column("status", sa.Text(), nullable=False),
        sa.Column("created_at", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["recipe_id"], ["recipes.id"], name="fk_versions_recipe_id"),
        sa.PrimaryKeyConstraint("id", name="pk_versions"),
        sa.UniqueConstraint("recipe_id", "number", name="uq_versions_recipe_id_number"),
        sa.UniqueConstraint("save_id", name="uq_versions_save_id"),
    )
    op.create_index("ix_versions_calculation_id", "versions", ["calculation_id"], unique=False)
    op.create_index("ix_versions_status_sodium_mg", "versions", ["status", "sodium_mg"], unique=False)
    op.create_table(
        "sign_offs",
        sa.Column("id", SERIAL, nullable=False),
        sa.Column("version_id", SERIAL, nullable=False),
        sa.Column("verdict", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("created_at", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["version_id"], ["versions.id"], name="fk_sign_offs_version_id"),
        sa.PrimaryKeyConstraint("id", name="pk_sign_offs"),
    )
    op.create_index("ix_sign_offs_version_id", "sign_offs", ["version_id"], unique=False)


def downgrade() -> None:
    for table in (
        "sign_offs",
        "versions",
        "sessions",
        "overrules",
        "reviewers",
        "recipes",
        "events",
        "api_keys",
    ):
        op.drop_table(table)
