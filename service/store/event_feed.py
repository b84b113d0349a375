"""The feed of what happened, numbered in the order in which it can be seen; nothing in it changes later."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from typing import Any

from sqlalchemy import Connection, func, insert, select

from ..review.chain import Entry
from . import journal
from .records import Event, Figure, Kind, Version
from .schema import as_text, events, now

SAME_FIGURE_MG = 0.05
"""Figures that differ by no more are the same to whoever reads them: pages and labels show whole mg."""


def record(connection: Connection, kind: Kind, about: Version, **more: Any) -> Event:
    """Add to the feed, in the caller's write transaction: it is seen if and when that commits.

    With it goes the newest entry of the journal, so that whoever follows the feed holds a copy outside.
    """
    payload = _payload(about, journal.last(connection), more)
    moment = now()
    new = (
        insert(events)
        .values(kind=kind, key=as_text(about.key), payload=payload, created_at=moment)
        .returning(events.c.id)
    )
    return Event(connection.scalars(new).one(), kind, payload, moment)


def record_figure(connection: Connection, about: Version, before: Figure | None, by: str) -> None:
    """Add that a version has another figure than the one before it, and that it is incomplete now, if so."""
    for kind, more in _of_figure(about, before):
        record(connection, kind, about, by=by, **more)


def _of_figure(about: Version, before: Figure | None) -> Iterator[tuple[Kind, dict[str, Any]]]:
    if before is not None and abs(about.sodium_mg - before.sodium_mg) > SAME_FIGURE_MG:
        yield "recipe.figure_changed", {"before_mg": before.sodium_mg}
    if about.answer["sodium"].get("complete") is False and (before is None or before.complete is not False):
        yield "recipe.incomplete", {}


def record_saved(
    connection: Connection, about: Iterable[tuple[Version, Entry, Figure | None]], by: str
) -> None:
    """Add that versions were saved and what became of their figures, each with the entry of the journal that
    tells of it and the figure before it; one at the least."""
    rows = []
    for version, entry, before in about:
        for kind, more in [("recipe.saved", {}), *_of_figure(version, before)]:
            payload = _payload(version, entry, {"by": by, **more})
            rows.append({"kind": kind, "key": version.key, "payload": payload, "created_at": now()})
    connection.execute(insert(events), rows)


def _payload(about: Version, newest: Entry | None, more: Mapping[str, Any]) -> dict[str, Any]:
    return {
        "key": about.key,
        "version": about.number,
        "save_id": about.save_id,
        "calculation_id": about.answer["id"],
        "sodium_per_serving_mg": about.sodium_mg,
        "record": {"number": newest.number, "sha256": newest.hash} if newest else None,
        "complete": about.answer["sodium"].get("complete"),
        **more,
    }


def after(
    connection: Connection, event_id: int, limit: int, *, kinds: Collection[str] = (), key: str | None = None
) -> list[Event]:
    """At most `limit` events with a number above `event_id`, the oldest first.

    kinds: those alone, all where none are named. key: those of one recipe alone.
    """
    query = select(events).where(events.c.id > event_id)
    if kinds:
        query = query.where(events.c.kind.in_(kinds))
    if key is not None:
        query = query.where(events.c.key == as_text(key))
    query = query.order_by(events.c.id).limit(limit)
    return [Event(row.id, row.kind, row.payload, row.created_at) for row in connection.execute(query)]


def count_after(connection: Connection, event_id: int) -> int:
    """How many events have a number above `event_id`."""
    query = select(func.count()).select_from(events).where(events.c.id > event_id)
    return connection.scalars(query).one()


def ends(connection: Connection) -> tuple[int, int]:
    """The numbers of the oldest and of the newest event, 0 where there is none."""
    return connection.scalar(select(func.min(events.c.id))) or 0, latest_id(connection)


def latest_id(connection: Connection) -> int:
    """The number of the newest event, 0 where there is none."""
    return connection.scalars(select(func.max(events.c.id))).one() or 0
