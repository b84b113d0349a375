"""What becomes of a recipe besides its versions: deleted, archived, restored, renamed; each an act on record.

Nothing is ever lost: a deleted recipe keeps its versions and its journal, is gone from lists and queue, and
its key may be used again, which goes on counting its versions.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from sqlalchemy import Connection, update

from ..core.errors import Fault, InvalidRequest, NotFound
from ..review.chain import Actor, EntryKind
from . import event_feed, journal, listing, override_records, own_measurements, recipe_uses, recipes
from .database import Database
from .expectations import Condition
from .records import Kind, State, Version
from .schema import as_text
from .schema import recipes as table

ACTS: Mapping[State, tuple[EntryKind, Kind]] = {
    "deleted": ("deletion", "recipe.deleted"),
    "archived": ("archiving", "recipe.archived"),
    "active": ("restoring", "recipe.restored"),
}
"""What putting a recipe into a state is on record as, and as an event."""


def delete(database: Database, key: str, by: Actor, condition: Condition | None = None) -> Version:
    """Delete a recipe; the overrules that stood are taken back, so that a later recipe of its key has none.

    Recipes that it is an ingredient of are marked stale. Raises NotFound, PreconditionFailed,
    PreconditionRequired.
    """
    with database.write() as connection:
        seen = _current(connection, key)
        (condition or Condition()).check(key, seen)
        for each in override_records.standing(connection, key):
            assert each.id is not None
            override_records.withdraw(connection, key, each.id, by)
        _put(connection, seen, "deleted", by)
        recipe_uses.mark_above(connection, seen, by.short)
    return seen


def archive(database: Database, key: str, by: Actor) -> Version:
    """Put a recipe away: it is read and kept as it is, and gone from lists and queue. Raises NotFound."""
    with database.write() as connection:
        seen = _current(connection, key)
        if listing.state_of(connection, key) != "archived":
            _put(connection, seen, "archived", by)
    return seen


def restore(database: Database, key: str, by: Actor) -> Version:
    """Bring an archived or deleted recipe back as it was. Raises NotFound: the key never held one."""
    with database.write() as connection:
        state = listing.state_of(connection, key)
        if state is None:
            raise NotFound("recipe", key)
        if state != "active":
            listing.set_state(connection, key, "active")
            _put(connection, _current(connection, key), "active", by)
        return _current(connection, key)


def rename(database: Database, key: str, to: str, by: Actor) -> Version:
    """Give a recipe another key.

    Raises NotFound; InvalidRequest: the key is or was in use, or other recipes name it.
    """
    with database.write() as connection:
        seen = _current(connection, key)
        if key == to:
            return seen
        if listing.state_of(connection, to) is not None:
            message = f"The key {to!r} is in use, or was by a recipe that was deleted; choose another."
            raise InvalidRequest([Fault("/key", message)])
        if users := recipe_uses.users_of(connection, key):
            named = ", ".join(repr(each) for each in users[:10]) + (", …" if len(users) > 10 else "")
            message = f"{key!r} is an ingredient of {named}: save it under the new key, then change those."
            raise InvalidRequest([Fault("/key", message)])
        connection.execute(update(table).where(table.c.key == as_text(key)).values(key=as_text(to)))
        own_measurements.follow(connection, key, to)
        renamed = _current(connection, to)
        told = {"key": key, "to": to, "save_id": seen.save_id, "by": by.document}
        journal.add(connection, "renaming", told)
        listing.retell(connection, renamed)
        event_feed.record(connection, "recipe.renamed", renamed, by=by.short, renamed_from=key)
    return renamed


def _current(connection: Connection, key: str) -> Version:
    found = recipes.current(connection, key)
    if found is None:
        raise NotFound("recipe", key)
    return found


def _put(connection: Connection, seen: Version, state: State, by: Actor) -> None:
    entry, event = ACTS[state]
    listing.set_state(connection, seen.key, state)
    told: dict[str, Any] = {"key": seen.key, "save_id": seen.save_id, "by": by.document}
    journal.add(connection, entry, told)
    event_feed.record(connection, event, seen, by=by.short)
