"""How far the feed of events was delivered to each receiver, and when the next try is due.

Every function works inside a transaction of `Database`.
"""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import Any

from sqlalchemy import Connection, Select, insert, select, update

from . import event_feed
from .records import Event
from .schema import deliveries, now, stamp

FIRST_PAUSE, LONGEST_PAUSE = timedelta(seconds=5), timedelta(hours=1)
"""Pauses between tries of one event: they double from the first to the longest, and never end."""


def any_due(connection: Connection, url: str) -> bool:
    """Whether an event waits and its next try is due; a receiver that is new is always due."""
    row = connection.execute(_of(url)).first()
    if row is None:
        return True
    return row.due_at <= now() and bool(event_feed.after(connection, row.delivered, 1))


def claim(connection: Connection, url: str, lease: timedelta) -> Event | None:
    """The next event for a receiver, given to nobody else for the time of the lease; None where none is due.

    A receiver that is new begins with what happens from now on.
    """
    row = connection.execute(_of(url)).first()
    if row is None:
        latest = event_feed.latest_id(connection)
        connection.execute(insert(deliveries).values(url=url, delivered=latest, tries=0, due_at=now()))
        return None
    if row.due_at > now():
        return None
    found = event_feed.after(connection, row.delivered, 1)
    if not found:
        return None
    _set(connection, url, due_at=stamp(datetime.now(UTC) + lease))
    return found[0]


def done(connection: Connection, url: str, event_id: int) -> None:
    """The receiver has taken the event."""
    _set(connection, url, delivered=event_id, tries=0, due_at=now())


def failed(connection: Connection, url: str) -> None:
    """The receiver has not taken it; it is tried again after a pause."""
    tries = connection.execute(_of(url)).one().tries
    pause = min(FIRST_PAUSE * 2 ** min(tries, 20), LONGEST_PAUSE)
    _set(connection, url, tries=tries + 1, due_at=stamp(datetime.now(UTC) + pause))


def _of(url: str) -> Select[Any]:
    return select(deliveries).where(deliveries.c.url == url)


def _set(connection: Connection, url: str, **values: object) -> None:
    connection.execute(update(deliveries).where(deliveries.c.url == url).values(**values))
