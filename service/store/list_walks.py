"""How a list is read: along the index of its order, or by that of a mark which few recipes have.

Along its order a page costs the entries that are passed over until it is full, so that nothing need be sorted
or counted; status and completeness stand in the index itself. That fails only where what is asked for is
rare; whether it is, is seen by counting a few.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple

from sqlalchemy import Connection, text

from ..review.urgency import Urgency
from .records import Order, Wanted

RARE = 1000
"""A mark that fewer recipes have is looked up by its own index, and what is found sorted."""

_ALONG: Mapping[Order, str] = {
    "key": "ix_recipes_by_key",
    "title": "ix_recipes_by_title",
    "sodium": "ix_recipes_by_sodium",
    "urgency": "ix_recipes_by_urgency",
    "doubtful": "ix_recipes_by_doubtful",
    "changed": "ix_recipes_by_changed",
}


class _Mark(NamedTuple):
    """A mark that lists can ask for. condition: as its index has it, on SQLite and PostgreSQL."""

    is_asked: Callable[[Wanted], bool]
    index_name: str
    sqlite: str
    postgresql: str


_MARKS = (
    _Mark(lambda wanted: wanted.stops, "ix_recipes_with_stops", "stops > 0", "stops > 0"),
    _Mark(
        lambda wanted: wanted.changed_since_signing,
        "ix_recipes_changed",
        "changed_since_signing IS 1",
        "changed_since_signing IS true",
    ),
    _Mark(lambda wanted: wanted.stale, "ix_recipes_stale", "stale IS 1", "stale IS true"),
    _Mark(
        lambda wanted: wanted.complete is False, "ix_recipes_incomplete", "complete IS 0", "complete IS false"
    ),
    _Mark(lambda wanted: wanted.doubtful, "ix_recipes_by_doubtful", "doubtful_mg > 0", "doubtful_mg > 0"),
)


def index_of(connection: Connection, wanted: Wanted) -> str | None:
    """The index that a list is to be read by; None where the database knows best."""
    if wanted.handled_by:
        return None
    for mark in _MARKS:
        if mark.is_asked(wanted) and _is_rare(connection, mark, wanted.state):
            return mark.index_name
    return _ALONG[wanted.order]


def _is_rare(connection: Connection, mark: _Mark, state: str) -> bool:
    on_sqlite = connection.dialect.name == "sqlite"
    source = f"recipes INDEXED BY {mark.index_name}" if on_sqlite else "recipes"
    having = f"state = :state AND {mark.sqlite if on_sqlite else mark.postgresql}"
    few = f"SELECT 1 FROM {source} WHERE {having} LIMIT {RARE}"
    counted = text(f"SELECT count(*) FROM ({few}) AS few")
    return int(connection.scalars(counted, {"state": state}).one()) < RARE


def least_urgency(wanted: Wanted) -> int:
    """The least rank of recipes with the marks that are asked for: the list need not be read beyond it."""
    if wanted.status != "open":
        return 0
    if wanted.stops:
        return Urgency(1, 0, False, 0.0, False, False).rank
    if wanted.complete is False:
        return Urgency(0, 0, True, 0.0, False, False).rank
    return Urgency(0, 0, False, 0.0, True, False).rank if wanted.changed_since_signing else 0


def go_along(connection: Connection, wanted: Wanted, index: str | None) -> None:
    """Have PostgreSQL read a list in its order rather than all that there is, until the transaction ends.

    It cannot tell how soon a page is full, and would compile the query, for a second, because what is to be
    avoided counts as so dear. SQLite is told the index by name.
    """
    if index == _ALONG[wanted.order] and connection.dialect.name != "sqlite":
        ways = ("enable_seqscan", "enable_bitmapscan", "enable_sort", "jit")
        settings = ", ".join(f"set_config('{way}', 'off', true)" for way in ways)
        connection.execute(text(f"SELECT {settings}"))
