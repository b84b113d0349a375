"""How far the feed of events was delivered to each receiver, what of it is held back, and when the next try
is due.

While a receiver is away all of its events wait. What it refuses of one recipe holds back that recipe's events
alone, which stay in order; all others go on. Every function works inside a transaction of `Database`.
"""

from __future__ import annotations

import random
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Any

from sqlalchemy import Connection, Row, Select, delete, insert, select, update

from . import event_feed
from .records import Event
from .schema import as_text, deliveries, held_deliveries, now, stamp

FIRST_PAUSE, LONGEST_PAUSE = timedelta(seconds=5), timedelta(hours=1)
"""Pauses between tries of one event: they double from the first to the longest, and never end."""
MOST_JITTER = 0.25
"""A pause is longer by a chance share of itself, at most this: receivers that come back are not overrun."""


@dataclass(frozen=True, slots=True)
class Standing:
    """Where a receiver stands. delivered: the last event of the feed that is dealt with; waiting: how many
    come after it; held: recipes whose events it refuses; tries: failed in a row; due_at: of the next."""

    url: str
    delivered: int
    waiting: int
    held: tuple[tuple[str, int, int, str], ...]
    """Key, event, tries and when the next is due."""
    tries: int
    due_at: str


def any_due(connection: Connection, url: str) -> bool:
    """Whether an event waits and its next try is due; a receiver that is new is always due."""
    row = connection.execute(_of(url)).first()
    if row is None:
        return True
    if row.due_at > now():
        return False
    return _held_and_due(connection, url) is not None or bool(event_feed.after(connection, row.delivered, 1))


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
    found = _next(connection, url, row.delivered)
    if found is not None:
        _set(connection, url, due_at=stamp(datetime.now(UTC) + lease))
    return found


def _next(connection: Connection, url: str, delivered: int) -> Event | None:
    """What is tried next: an event that was held back and is due, or the next of the feed whose recipe is
    not held back. The feed moves past those that are: they follow when theirs is taken."""
    if (held := _held_and_due(connection, url)) is not None:
        return event_feed.after(connection, held.event_id - 1, 1)[0]
    while found := event_feed.after(connection, delivered, 1):
        if _held(connection, url, found[0].payload["key"]) is None:
            return found[0]
        delivered = found[0].id
        _advance(connection, url, delivered)
    return None


def done(connection: Connection, url: str, event: Event) -> None:
    """The receiver has taken the event."""
    _set(connection, url, tries=0, due_at=now())
    _advance(connection, url, event.id)
    key = event.payload["key"]
    if (held := _held(connection, url, key)) is None or held.event_id > event.id:
        return
    reached = connection.execute(_of(url)).one().delivered
    following = event_feed.after(connection, event.id, 1, key=key)
    if following and following[0].id <= reached:
        _hold(connection, url, key, event_id=following[0].id, tries=0, due_at=now())
    else:
        connection.execute(delete(held_deliveries).where(*_about(url, key)))


def failed(connection: Connection, url: str, after: timedelta | None = None) -> None:
    """The receiver is away: all is tried again after a pause, no sooner than it asked for (`after`)."""
    tries = connection.execute(_of(url)).one().tries
    _set(connection, url, tries=tries + 1, due_at=_later(tries, after))


def refused(connection: Connection, url: str, event: Event, after: timedelta | None = None) -> None:
    """The receiver does not take this event: those of its recipe are held back and tried again after a
    pause, the others go on."""
    key = event.payload["key"]
    held = _held(connection, url, key)
    tries = held.tries if held is not None else 0
    _hold(connection, url, key, event_id=event.id, tries=tries + 1, due_at=_later(tries, after))
    _set(connection, url, tries=0, due_at=now())
    _advance(connection, url, event.id)


def retry_now(connection: Connection) -> None:
    """Make every try that waits due now, as after a receiver was mended."""
    for table in (deliveries, held_deliveries):
        connection.execute(update(table).values(tries=0, due_at=now()))


def forget(connection: Connection, url: str) -> bool:
    """Let go of a receiver; it would be a new one if it came back. False where there is none."""
    connection.execute(delete(held_deliveries).where(held_deliveries.c.url == url))
    return connection.execute(delete(deliveries).where(deliveries.c.url == url)).rowcount > 0


def standing(connection: Connection) -> list[Standing]:
    """Where every receiver stands that anything was ever delivered to."""
    latest = event_feed.latest_id(connection)
    found = []
    for row in connection.execute(select(deliveries).order_by(deliveries.c.url)):
        of_it = select(held_deliveries).where(held_deliveries.c.url == row.url)
        held = connection.execute(of_it.order_by(held_deliveries.c.event_id)).all()
        told = tuple((each.key, each.event_id, each.tries, each.due_at) for each in held)
        waiting = event_feed.count_after(connection, row.delivered) if latest > row.delivered else 0
        found.append(Standing(row.url, row.delivered, waiting, told, row.tries, row.due_at))
    return found


def _later(tries: int, after: timedelta | None) -> str:
    pause = min(FIRST_PAUSE * 2 ** min(tries, 20), LONGEST_PAUSE)
    pause = max(pause, min(after or pause, LONGEST_PAUSE))
    return stamp(datetime.now(UTC) + pause * (1 + MOST_JITTER * random.random()))


def _held_and_due(connection: Connection, url: str) -> Row[Any] | None:
    query = select(held_deliveries).where(held_deliveries.c.url == url, held_deliveries.c.due_at <= now())
    return connection.execute(query.order_by(held_deliveries.c.due_at).limit(1)).first()


def _held(connection: Connection, url: str, key: str) -> Row[Any] | None:
    return connection.execute(select(held_deliveries).where(*_about(url, key))).first()


def _hold(connection: Connection, url: str, key: str, **values: object) -> None:
    if _held(connection, url, key) is None:
        connection.execute(insert(held_deliveries).values(url=url, key=as_text(key), **values))
    else:
        connection.execute(update(held_deliveries).where(*_about(url, key)).values(**values))


def _about(url: str, key: str) -> tuple[Any, ...]:
    return held_deliveries.c.url == url, held_deliveries.c.key == as_text(key)


def _of(url: str) -> Select[Any]:
    return select(deliveries).where(deliveries.c.url == url)


def _set(connection: Connection, url: str, **values: object) -> None:
    connection.execute(update(deliveries).where(deliveries.c.url == url).values(**values))


def _advance(connection: Connection, url: str, event_id: int) -> None:
    """Move on to an event, never back: whoever was late tells what others have told already."""
    behind = (deliveries.c.url == url, deliveries.c.delivered < event_id)
    connection.execute(update(deliveries).where(*behind).values(delivered=event_id))
