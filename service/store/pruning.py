"""Taking out, by age, what nobody decided on: old versions and old events of a store that is kept for years.

A version goes only where it is neither the current one nor the one before it, carries no verdict, and nothing
that stays names it: no overrule, no measurement, no version that is made of it. What goes is on record, so
that `verify` knows it from what was taken out past the service. An event goes once every receiver has it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from sqlalchemy import Connection, Text, cast, delete, func, select

from ..review.chain import Actor
from . import journal, recipe_uses
from .database import Database
from .schema import deliveries, events, held_deliveries, measurements, overrules, recipes, sign_offs, versions

AT_ONCE = 500
"""So many are taken out in one transaction: nobody else writes meanwhile."""


def old_versions(connection: Connection, before: str) -> list[int]:
    """The numbers of the versions that may go, of those made before a moment (as the store writes it)."""
    kept = _made_of(connection)
    found = connection.execute(select(versions.c.id, versions.c.save_id).where(*_may_go(before)))
    return sorted(row.id for row in found if row.save_id not in kept)


def _may_go(before: str) -> Sequence[Any]:
    current = select(recipes.c.current).where(recipes.c.id == versions.c.recipe_id).scalar_subquery()
    measured = select(measurements.c.save_id).where(measurements.c.save_id.is_not(None))
    return (
        versions.c.created_at < before,
        versions.c.number < current - 1,
        versions.c.id.not_in(select(sign_offs.c.version_id)),
        versions.c.save_id.not_in(select(overrules.c.save_id)),
        versions.c.save_id.not_in(measured),
    )


def _made_of(connection: Connection) -> set[str]:
    """The versions that any version is made of, at any depth."""
    names_some = cast(versions.c.request, Text).like('%"recipe"%')
    query = select(versions.c.answer).where(names_some).execution_options(yield_per=100)
    return {
        save_id for answer in connection.scalars(query) for save_id in recipe_uses.pinned_in(answer).values()
    }


def take_out_versions(database: Database, ids: Sequence[int], before: str, by: Actor) -> Iterator[int]:
    """Take versions out, and put that on record; gives how many after each transaction.

    ids: as `old_versions` gave them; one that has come to be needed since stays. Raises StoreUnavailable.
    """
    for start in range(0, len(ids), AT_ONCE):
        some = ids[start : start + AT_ONCE]
        with database.write() as connection:
            chosen = (versions.c.id.in_(some), *_may_go(before))
            save_ids = list(connection.scalars(select(versions.c.save_id).where(*chosen)))
            if save_ids:
                connection.execute(delete(versions).where(versions.c.save_id.in_(save_ids)))
                told = {"before": before, "save_ids": save_ids, "by": by.document}
                journal.add(connection, "pruning", told)
        yield len(save_ids)


def old_events(connection: Connection, before: str) -> tuple[int, int]:
    """How many of the oldest events may go, made before a moment, and the number of the last of them.

    The newest event stays, and all that a receiver still waits for.
    """
    young = select(func.min(events.c.id)).where(events.c.created_at >= before)
    bounds = [young, select(func.max(events.c.id))]
    bounds += [select(func.min(deliveries.c.delivered) + 1), select(func.min(held_deliveries.c.event_id))]
    first_kept = min((found for each in bounds if (found := connection.scalar(each)) is not None), default=0)
    last = connection.scalar(select(func.max(events.c.id)).where(events.c.id < first_kept)) or 0
    query = select(func.count()).select_from(events).where(events.c.id <= last)
    return int(connection.scalar(query) or 0), last


def take_out_events(database: Database, last: int) -> Iterator[int]:
    """Take out the events up to a number; gives how many after each transaction. Raises StoreUnavailable."""
    while True:
        with database.write() as connection:
            oldest = select(events.c.id).where(events.c.id <= last).order_by(events.c.id).limit(AT_ONCE)
            ids = list(connection.scalars(oldest))
            if ids:
                connection.execute(delete(events).where(events.c.id <= ids[-1]))
        if not ids:
            return
        yield len(ids)
