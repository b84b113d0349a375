"""The store's tables, as SQLAlchemy knows them; the migrations build the same and a test holds them together.

Times are ISO 8601 in UTC with microseconds, fixed width, so that they sort as text on every database.
JSON is kept as the caller's document, key for key, answers packed; nothing inside it is queried.
"""

from __future__ import annotations

from datetime import UTC, datetime

from sqlalchemy import (
    JSON,
    BigInteger,
    Boolean,
    Column,
    Float,
    ForeignKey,
    Index,
    Integer,
    MetaData,
    Table,
    Text,
    UniqueConstraint,
    false,
    text,
    true,
)

from .packing import PackedJson

metadata = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "fk": "fk_%(table_name)s_%(column_0_N_name)s",
        "pk": "pk_%(table_name)s",
    }
)

# SQLite counts only an INTEGER PRIMARY KEY up by itself.
Serial = BigInteger().with_variant(Integer, "sqlite")


def now() -> str:
    """This moment, as the store writes it."""
    return stamp(datetime.now(UTC))


def stamp(moment: datetime) -> str:
    """`moment` (aware) as the store writes it."""
    return moment.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%S.%fZ")


def as_text(words: str) -> str:
    """`words` as every database can hold them: NUL and half surrogate pairs become a mark."""
    return words.replace("\0", "\ufffd").encode("utf-16", "replace").decode("utf-16", "replace")


recipes = Table(
    "recipes",
    metadata,
    Column("id", Serial, primary_key=True),
    Column("key", Text, nullable=False, unique=True),
    Column("current", Integer, nullable=False),
    Column("created_at", Text, nullable=False),
    # What lists ask, of the current version (`listing.tell_of`).
    Column("state", Text, nullable=False, server_default="active"),
    Column("title", Text, nullable=False, server_default=""),
    Column("words", Text, nullable=False, server_default=""),
    Column("status", Text, nullable=False, server_default="open"),
    Column("by_title", Text, nullable=False, server_default=""),
    Column("sodium_mg", Float, nullable=False, server_default="0"),
    Column("low_mg", Float, nullable=True),
    Column("high_mg", Float, nullable=True),
    Column("complete", Boolean, nullable=True),
    Column("stops", Integer, nullable=False, server_default="0"),
    Column("checks", Integer, nullable=False, server_default="0"),
    Column("doubtful_mg", Float, nullable=False, server_default="0"),
    Column("changed_since_signing", Boolean, nullable=False, server_default=false()),
    Column("near_limit", Boolean, nullable=False, server_default=false()),
    Column("urgency", Integer, nullable=False, server_default="0"),
    Column("handled_by", Text, nullable=False, server_default=""),
    Column("changed_at", Text, nullable=False, server_default=""),
    Column("stale", Boolean, nullable=False, server_default=false()),
    # Each list is an index that is walked in its own direction; what most lists choose by stands at its end,
    # so that what is passed over need not be looked up.
    *(
        Index(name, "state", *by, "key", "status", "complete")
        for name, by in (
            ("ix_recipes_by_sodium", [text("sodium_mg DESC")]),
            ("ix_recipes_by_urgency", [text("urgency DESC"), text("sodium_mg DESC")]),
            ("ix_recipes_by_doubtful", [text("doubtful_mg DESC")]),
            ("ix_recipes_by_changed", [text("changed_at DESC")]),
            ("ix_recipes_by_title", ["by_title"]),
            ("ix_recipes_by_key", []),
        )
    ),
    Index(None, "handled_by"),
    *(
        # Of recipes with a mark alone; told as words, since its own argument would load all of a dialect.
        Index(name, "state", info={"sqlite": sqlite, "postgresql": postgresql})
        for name, sqlite, postgresql in (
            ("ix_recipes_with_stops", "stops > 0", "stops > 0"),
            ("ix_recipes_changed", "changed_since_signing IS 1", "changed_since_signing IS true"),
            ("ix_recipes_incomplete", "complete IS 0", "complete IS false"),
            ("ix_recipes_stale", "stale IS 1", "stale IS true"),
        )
    ),
)

recipe_counts = Table(
    "recipe_counts",
    metadata,
    # How many recipes there are, kept by triggers on their table.
    Column("state", Text, primary_key=True),
    Column("status", Text, primary_key=True),
    Column("count", BigInteger, nullable=False),
)

recipe_lines = Table(
    "recipe_lines",
    metadata,
    # The lines and foods of each recipe's current version (`listing.tell_of`).
    Column("recipe_id", ForeignKey("recipes.id"), nullable=False, index=True),
    Column("line_key", Text, nullable=True, index=True),
    Column("food_code", Text, nullable=True, index=True),
)

versions = Table(
    "versions",
    metadata,
    Column("id", Serial, primary_key=True),
    Column("recipe_id", ForeignKey("recipes.id"), nullable=False),
    Column("number", Integer, nullable=False),
    Column("save_id", Text, nullable=False, unique=True),
    Column("calculation_id", Text, nullable=False, index=True),
    Column("request", JSON, nullable=False),
    Column("answer", PackedJson, nullable=True),
    Column("title", Text, nullable=False),
    Column("saved_key", Text, nullable=False, server_default=""),
    Column("overrules", JSON, nullable=False),
    Column("content_hash", Text, nullable=False),
    Column("dataset_sha256", Text, nullable=False),
    Column("factors_sha256", Text, nullable=False),
    Column("sodium_mg", Float, nullable=False),
    Column("high_mg", Float, nullable=True),
    Column("complete", Boolean, nullable=True),
    Column("cause", Text, nullable=False),
    Column("saved_by", Text, nullable=False),
    Column("status", Text, nullable=False),
    Column("created_at", Text, nullable=False),
    Column("sha256", Text, nullable=True),
    UniqueConstraint("recipe_id", "number"),
    Index(None, "status", "sodium_mg"),
)

recipe_uses = Table(
    "recipe_uses",
    metadata,
    Column("recipe_id", ForeignKey("recipes.id"), primary_key=True),
    Column("part", Text, primary_key=True, index=True),
)

overrules = Table(
    "overrules",
    metadata,
    Column("id", Serial, primary_key=True),
    Column("recipe_id", ForeignKey("recipes.id"), nullable=False, index=True),
    Column("save_id", Text, nullable=False),
    Column("target_key", Text, nullable=False),
    Column("line_key", Text, nullable=True, index=True),
    Column("reach", Text, nullable=False, server_default="recipe"),
    Column("food_code", Text, nullable=True),
    Column("target", JSON, nullable=False),
    Column("field", Text, nullable=False),
    Column("value", JSON, nullable=False),
    Column("reason", Text, nullable=False),
    Column("reviewer", Text, nullable=False),
    Column("created_at", Text, nullable=False),
    Column("withdrawn_at", Text, nullable=True),
    Column("actor", JSON, nullable=True),
    Index(None, "reach", "withdrawn_at"),
)

sign_offs = Table(
    "sign_offs",
    metadata,
    Column("id", Serial, primary_key=True),
    Column("version_id", ForeignKey("versions.id"), nullable=False, index=True),
    Column("verdict", Text, nullable=False),
    Column("name", Text, nullable=False),
    Column("note", Text, nullable=False),
    Column("uncounted", JSON, nullable=True),
    Column("created_at", Text, nullable=False),
    Column("actor", JSON, nullable=True),
    Column("version_sha256", Text, nullable=True),
    Column("entry", BigInteger, nullable=True),
)

journal = Table(
    "journal",
    metadata,
    Column("number", BigInteger, primary_key=True, autoincrement=False),
    Column("kind", Text, nullable=False),
    Column("payload", JSON, nullable=False),
    Column("created_at", Text, nullable=False),
    Column("previous", Text, nullable=False),
    Column("hash", Text, nullable=False),
)

events = Table(
    "events",
    metadata,
    Column("id", Serial, primary_key=True),
    Column("kind", Text, nullable=False),
    Column("key", Text, nullable=False, server_default="", index=True),
    Column("payload", JSON, nullable=False),
    Column("created_at", Text, nullable=False),
    sqlite_autoincrement=True,  # an event's number is never given twice
)

api_keys = Table(
    "api_keys",
    metadata,
    Column("id", Serial, primary_key=True),
    Column("label", Text, nullable=False),
    Column("public_id", Text, nullable=False, unique=True),
    Column("secret_hash", Text, nullable=False),
    Column("scopes", Text, nullable=False),
    Column("created_at", Text, nullable=False),
    Column("revoked_at", Text, nullable=True),
    Column("kitchen", Text, nullable=True),
)

recipe_kitchens = Table(
    "recipe_kitchens",
    metadata,
    Column("key", Text, primary_key=True),
    Column("kitchen", Text, nullable=False),
)

measurements = Table(
    "measurements",
    metadata,
    Column("id", Serial, primary_key=True),
    Column("kitchen", Text, nullable=False, index=True),
    Column("save_id", Text, nullable=True),
    Column("request", JSON, nullable=False),
    Column("what", Text, nullable=False),
    Column("component", Text, nullable=True),
    Column("after_step", Integer, nullable=True),
    Column("amount", Float, nullable=False),
    Column("uncertainty_percent", Float, nullable=False),
    Column("measured_by", Text, nullable=False),
    Column("measured_on", Text, nullable=True),
    Column("note", Text, nullable=False),
    Column("confirmed", Boolean, nullable=False),
    Column("kept_by", Text, nullable=False),
    Column("created_at", Text, nullable=False),
    Column("withdrawn_at", Text, nullable=True),
)

reviewers = Table(
    "reviewers",
    metadata,
    Column("id", Serial, primary_key=True),
    Column("login", Text, nullable=False, unique=True),
    Column("name", Text, nullable=False),
    Column("password_hash", Text, nullable=False),
    Column("active", Boolean, nullable=False, server_default=true()),
    Column("failed_logins", Integer, nullable=False, server_default="0"),
    Column("locked_until", Text, nullable=True),
    Column("created_at", Text, nullable=False),
)

sessions = Table(
    "sessions",
    metadata,
    Column("token_hash", Text, primary_key=True),
    Column("reviewer_id", ForeignKey("reviewers.id"), nullable=True),
    Column("form_token", Text, nullable=False),
    Column("created_at", Text, nullable=False),
    Column("expires_at", Text, nullable=False),
)

kept_foods = Table(
    "kept_foods",
    metadata,
    Column("id", Serial, primary_key=True),
    Column("code", Text, nullable=False, index=True),
    Column("sha256", Text, nullable=False, index=True),
    Column("document", JSON, nullable=False),
    Column("role", Text, nullable=False),
    Column("kept_at", Text, nullable=False),
    Column("replaced_at", Text, nullable=True),
)

look_ups = Table(
    "look_ups",
    metadata,
    Column("words", Text, primary_key=True),
    Column("state", Text, nullable=False),
    Column("offered", JSON, nullable=False),
    Column("tries", Integer, nullable=False),
    Column("due_at", Text, nullable=False, index=True),
    Column("changed_at", Text, nullable=False),
)

waiting = Table(
    "waiting",
    metadata,
    Column("recipe_id", ForeignKey("recipes.id"), primary_key=True),
    Column("words", Text, primary_key=True, index=True),
)

imports = Table(
    "imports",
    metadata,
    Column("archive_id", Text, primary_key=True),
    Column("rows", BigInteger, nullable=False),
    Column("started_at", Text, nullable=False),
    Column("finished_at", Text, nullable=True),
)

long_runs = Table(
    "long_runs",
    metadata,
    Column("name", Text, primary_key=True),
    Column("about", JSON, nullable=False),
    Column("mark", JSON, nullable=False),
    Column("changed_at", Text, nullable=False),
)

deliveries = Table(
    "deliveries",
    metadata,
    Column("url", Text, primary_key=True),
    Column("delivered", BigInteger, nullable=False),
    Column("tries", Integer, nullable=False),
    Column("due_at", Text, nullable=False),
)

held_deliveries = Table(
    "held_deliveries",
    metadata,
    Column("url", Text, primary_key=True),
    Column("key", Text, primary_key=True),
    Column("event_id", BigInteger, nullable=False),
    Column("tries", Integer, nullable=False),
    Column("due_at", Text, nullable=False),
)
