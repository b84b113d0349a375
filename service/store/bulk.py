"""Many first saves in one transaction: what `Workbench.save` does for each, written table by table.

When `write` gives its answers, all that they tell of is on disk; where it fails, nothing is.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, and_, insert, select

from ..review.chain import Actor
from . import event_feed, journal, listing, own_measurements, recipes, second_foods
from .records import Draft, State, Version
from .saving import Saved, Workbench
from .schema import as_text, recipe_lines, versions
from .schema import recipes as table


@dataclass(frozen=True, slots=True)
class Drafted:
    """A recipe that is worked out and not yet written. No recipe stands, or ever stood, under its key, and
    it is made of no other: that is `Workbench.save`'s to look after."""

    key: str
    draft: Draft


@dataclass(frozen=True, slots=True)
class Kept:
    """The version that stands under a key, without its documents, and what lists tell of it."""

    key: str
    state: State
    stale: bool
    low_mg: float | None
    sodium_mg: float
    high_mg: float | None
    complete: bool | None
    stops: int
    checks: int
    number: int
    save_id: str
    calculation_id: str
    content_hash: str


_OF_RECIPE = ("key", "state", "stale", "low_mg", "sodium_mg", "high_mg", "complete", "stops", "checks")


def write(bench: Workbench, drafted: Sequence[Drafted], by: Actor, kitchen: str) -> list[Saved | None]:
    """Write first versions, no two under one key, all in one transaction.

    kitchen: whose recipes they are. Gives what came of each, in order; None where somebody else has used its
    key meanwhile, so that it is to be saved by itself. Raises StoreUnavailable: nothing was written.
    """
    with bench.database.write() as connection:
        taken = known(connection, [each.key for each in drafted])
        written = _write(connection, bench, [each for each in drafted if each.key not in taken], by, kitchen)
    by_key = {version.key: Saved(version, is_new=True, changed=True) for version in written}
    return [by_key.get(as_text(each.key)) for each in drafted]


def known(connection: Connection, keys: Sequence[str]) -> dict[str, Kept]:
    """What stands under some keys, a recipe that was deleted among it."""
    of_version = ("number", "save_id", "calculation_id", "content_hash")
    query = (
        select(
            *(table.c[name] for name in _OF_RECIPE),
            *(versions.c[name] for name in of_version),
        )
        .join(versions, and_(versions.c.recipe_id == table.c.id, versions.c.number == table.c.current))
        .where(table.c.key.in_([as_text(key) for key in keys]))
    )
    found = {row["key"]: Kept(**row) for row in connection.execute(query).mappings()}
    return {key: found[as_text(key)] for key in keys if as_text(key) in found}


def kept_of(version: Version) -> Kept:
    """What stands once a version is written."""
    told = listing.told_of(version, None)
    values = {name: told[name] for name in _OF_RECIPE if name in told}
    return Kept(
        **values | {"key": version.key, "stale": False},
        number=version.number,
        save_id=version.save_id,
        calculation_id=version.answer["id"],
        content_hash=version.content_hash,
    )


def _write(
    connection: Connection, bench: Workbench, drafted: Sequence[Drafted], by: Actor, kitchen: str
) -> list[Version]:
    if not drafted:
        return []
    made = [recipes.first_version(each.key, each.draft) for each in drafted]
    written = [version for version, _, _ in made]
    ids = connection.scalars(
        insert(table).returning(table.c.id, sort_by_parameter_order=True), [_told(each) for each in written]
    ).all()
    rows = [row | {"recipe_id": id} for id, (_, row, _) in zip(ids, made, strict=True)]
    connection.execute(insert(versions), rows)
    lines = [
        {"recipe_id": id, **line}
        for id, version in zip(ids, written, strict=True)
        for line in listing.lines_of(version)
    ]
    if lines:
        connection.execute(insert(recipe_lines), lines)
    entries = journal.add_all(connection, "version", [told for _, _, told in made])
    event_feed.record_all(connection, "recipe.saved", zip(written, entries, strict=True), by=by.short)
    own_measurements.own_all(connection, [each.key for each in written], kitchen)
    if bench.unmapped is not None:
        for version in written:
            if words := bench.unmapped(version.answer):
                second_foods.await_words(connection, version.key, words)
    return written


def _told(version: Version) -> dict[str, Any]:
    """The row of a new recipe."""
    about = {"key": version.key, "current": version.number, "created_at": version.created_at}
    return about | listing.told_of(version, None)
