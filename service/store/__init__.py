"""What is kept: recipes and their versions, reviews, events, keys, reviewers, in SQLite or PostgreSQL.

The modules that load SQLAlchemy, which takes a third of a second, are imported when one is first used as an
attribute of this package (PEP 562): a service that only calculates never loads them.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from . import (
        bulk,
        database,
        deliveries,
        event_feed,
        journal,
        keys,
        lifecycle,
        listing,
        override_records,
        own_measurements,
        reaching,
        recipe_uses,
        recipes,
        reviewers,
        saving,
        second_foods,
    )

__all__ = [
    "bulk",
    "database",
    "deliveries",
    "event_feed",
    "journal",
    "keys",
    "lifecycle",
    "listing",
    "override_records",
    "own_measurements",
    "reaching",
    "recipe_uses",
    "recipes",
    "reviewers",
    "saving",
    "second_foods",
]


def __getattr__(name: str) -> Any:
    if name not in __all__:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return import_module(f".{name}", __name__)
