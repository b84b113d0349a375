"""Which saved recipes are ingredients of which, and what a change of one means for those above it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from graphlib import TopologicalSorter
from typing import Any

from sqlalchemy import Connection, delete, insert, select, update

from ..core.errors import SaltledgerError
from ..recipe.sub_recipes import Find, MadeOfItself, SavedRecipe, named_in
from ..review.overrides import as_worked_out
from . import event_feed, recipes
from .database import Database
from .records import Document, Version
from .schema import as_text, now, recipe_uses
from .schema import recipes as table


class PartMoved(SaltledgerError):
    """A recipe that another is made of changed between the calculation and the write."""


def finder(database: Database, pinned: Mapping[str, str] | None = None) -> Find:
    """What gives a calculation the saved recipes that it names, as they stand, their overrides laid over.

    pinned: by key, the save id of the version to use instead.
    """

    def find(key: str) -> SavedRecipe | None:
        save_id = (pinned or {}).get(key)
        with database.read() as connection:
            found = recipes.by_save_id(connection, save_id) if save_id else recipes.current(connection, key)
        if found is None:
            return None
        title = found.request.get("title") or ""
        document = as_worked_out(found.request, found.overrules)
        return SavedRecipe(key, found.number, found.save_id, title, document)

    return find


def pinned_in(answer: Mapping[str, Any]) -> dict[str, str]:
    """The versions of recipes that an answer was made of, at any depth: save id by key."""
    return {each["key"]: each["save_id"] for each in _every(answer.get("recipes", ()))}


def _every(used: Iterable[Document]) -> Iterator[Document]:
    for each in used:
        yield each
        yield from _every(each["recipes"])


def check(connection: Connection, answer: Mapping[str, Any]) -> None:
    """Make sure that what an answer was made of still stands. Raises PartMoved."""
    if moved := _moved(connection, answer):
        raise PartMoved(*moved)


def _moved(connection: Connection, answer: Mapping[str, Any]) -> list[str]:
    """The recipes that an answer was made of which are others by now."""
    pinned = pinned_in(answer)
    return [key for key, save_id in pinned.items() if recipes.current_save_id(connection, key) != save_id]


def tell_of(connection: Connection, version: Version) -> None:
    """Say of a recipe which others are ingredients of it, and whether one of them changed since.

    Raises MadeOfItself.
    """
    parts = {key for _, key in named_in(version.request)}
    if version.number == 1 and not parts:
        return
    which = select(table.c.id).where(table.c.key == as_text(version.key))
    recipe_id = connection.scalars(which).one()
    connection.execute(delete(recipe_uses).where(recipe_uses.c.recipe_id == recipe_id))
    stale = bool(_moved(connection, version.answer))
    connection.execute(update(table).where(table.c.id == recipe_id).values(stale=stale))
    if parts:
        rows = [{"recipe_id": recipe_id, "part": as_text(part)} for part in sorted(parts)]
        connection.execute(insert(recipe_uses), rows)
        for path in paths_above(connection, version.key):
            if path[0] == version.key:
                raise MadeOfItself("", path)


def is_used(connection: Connection, key: str) -> bool:
    """Whether any recipe names this one as an ingredient."""
    return bool(used_among(connection, [key]))


def used_among(connection: Connection, keys: Iterable[str]) -> set[str]:
    """Those of some keys whose recipes others name as ingredients."""
    query = select(recipe_uses.c.part).where(recipe_uses.c.part.in_([as_text(key) for key in keys]))
    return set(connection.scalars(query.distinct()))


def users_of(connection: Connection, key: str) -> list[str]:
    """The keys of the recipes that name this one as an ingredient, in order."""
    return [path[0] for path in paths_above(connection, key) if len(path) == 2]


def paths_above(connection: Connection, key: str) -> list[list[str]]:
    """Every recipe that is made of this one, as the keys that lead from it down to this one; the nearest
    first."""
    paths: dict[str, list[str]] = {}
    level = {key: [key]}
    while level:
        query = select(table.c.key, recipe_uses.c.part).join(table, table.c.id == recipe_uses.c.recipe_id)
        query = query.where(recipe_uses.c.part.in_(sorted(level)), table.c.state != "deleted")
        found: dict[str, list[str]] = {}
        for above, part in connection.execute(query.order_by(table.c.key)):
            if above not in paths and above not in found:
                found[above] = [above, *level[part]]
        paths |= found
        level = found
    return list(paths.values())


def mark_above(connection: Connection, changed: Version, by: str) -> None:
    """Mark every recipe above a changed one as stale, each with an event that says by which way."""
    paths = {path[0]: path for path in paths_above(connection, changed.key)}
    fresh = select(table.c.key).where(table.c.key.in_(sorted(paths)), table.c.stale.is_(False))
    for key in connection.scalars(fresh.order_by(table.c.key)).all():
        values = {"stale": True, "changed_at": now()}
        connection.execute(update(table).where(table.c.key == key).values(values))
        about = recipes.current(connection, key)
        assert about is not None
        told = {"because": changed.key, "path": paths[key], "by": by}
        event_feed.record(connection, "recipe.stale", about, **told)


def mark_fresh(connection: Connection, key: str) -> None:
    """Say of a recipe that today's calculation gives what is kept of it."""
    connection.execute(update(table).where(table.c.key == as_text(key)).values(stale=False))


def is_stale(connection: Connection, key: str) -> bool:
    query = select(table.c.stale).where(table.c.key == as_text(key))
    return bool(connection.scalars(query).first())


def levels(connection: Connection) -> list[list[str]]:
    """The keys of the recipes that others are ingredients of, in levels: each recipe stands in a later one
    than those of its ingredients that are in any. Archived recipes among them, deleted ones not."""
    query = select(table.c.key, recipe_uses.c.part).join(table, table.c.id == recipe_uses.c.recipe_id)
    made_of: dict[str, set[str]] = defaultdict(set)
    for key, part in connection.execute(query.where(table.c.state != "deleted")):
        made_of[key].add(part)
    order = TopologicalSorter({key: parts & made_of.keys() for key, parts in made_of.items()})
    order.prepare()
    found = []
    while order.is_active():
        ready = sorted(order.get_ready())
        order.done(*ready)
        found.append(ready)
    return found
