"""Many first saves in one transaction: what `Workbench.save` does for each, written table by table.

What can be made ready without the store is (`prepared`), in whichever process; writing it is then cheap. When
`write` gives its answers, all that they tell of is on disk; where it fails, nothing is.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from sqlalchemy import Connection, and_, insert, select

from ..review.chain import Actor
from . import event_feed, journal, listing, own_measurements, recipes, second_foods
from .database import Database
from .packing import packed
from .records import Document, Draft, State, Version
from .schema import as_text, now, recipe_lines, versions
from .schema import recipes as table


@dataclass(frozen=True, slots=True)
class Prepared:
    """A first version that is worked out and not yet written. No recipe stands, or ever stood, under its key,
    and it is made of no other: that is `Workbench.save`'s to look after.

    version: without its time and fingerprint, its documents but for the request left out; row: of its table,
    the answer packed; told: of the recipe's; parts: fingerprints of what it holds; waits: words that no food
    fits.
    """

    version: Version
    row: Document
    told: Document
    lines: list[dict[str, str | None]]
    parts: Mapping[str, str]
    actor: Document
    waits: list[str]

    @property
    def key(self) -> str:
        return self.version.saved_key


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


def prepared(key: str, draft: Draft, unmapped: Callable[[Document], list[str]] | None = None) -> Prepared:
    """A draft as the first version of a key, ready to be written. unmapped: see `Drafting`."""
    version, row = recipes.first_version(key, draft)
    return Prepared(
        version=replace(version, answer=_brief(draft.answer), overrules=()),
        row={**row, "answer": packed(draft.answer)},
        told=listing.told_of(version, None),
        lines=listing.lines_of(version),
        parts=journal.parts_of(version),
        actor=draft.signature.by.document,
        waits=unmapped(draft.answer) if unmapped is not None else [],
    )


def _brief(answer: Document) -> Document:
    """What of an answer is still asked for once it is packed."""
    return {"id": answer["id"], "sodium": {"complete": answer["sodium"].get("complete")}}


def write(database: Database, ready: Sequence[Prepared], by: Actor, kitchen: str) -> list[Kept | None]:
    """Write first versions, no two under one key, all in one transaction.

    kitchen: whose recipes they are. Gives what came of each, in order; None where somebody else has used its
    key meanwhile, so that it is to be saved by itself. Raises StoreUnavailable: nothing was written.
    """
    with database.write() as connection:
        taken = known(connection, [each.key for each in ready])
        free = [each for each in ready if each.key not in taken]
        written = _write(connection, free, by, kitchen) if free else []
    by_key = {kept.key: kept for kept in written}
    return [by_key.get(each.version.key) for each in ready]


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
    return _kept(version, listing.told_of(version, None))


def _kept(version: Version, told: Document) -> Kept:
    values = {name: told[name] for name in _OF_RECIPE if name in told}
    return Kept(
        **values | {"key": version.key, "stale": False},
        number=version.number,
        save_id=version.save_id,
        calculation_id=version.answer["id"],
        content_hash=version.content_hash,
    )


def _write(connection: Connection, ready: Sequence[Prepared], by: Actor, kitchen: str) -> list[Kept]:
    moment = now()
    dated = [recipes.dated(each.version, each.parts, moment) for each in ready]
    of_recipes = [_recipe_row(each, moment) for each in ready]
    ids = connection.scalars(
        insert(table).returning(table.c.id, sort_by_parameter_order=True), of_recipes
    ).all()
    rows = [
        {**each.row, "recipe_id": id, "created_at": moment, "sha256": version.sha256}
        for id, each, (version, _) in zip(ids, ready, dated, strict=True)
    ]
    connection.execute(insert(versions), rows)
    lines = [{"recipe_id": id, **line} for id, each in zip(ids, ready, strict=True) for line in each.lines]
    if lines:
        connection.execute(insert(recipe_lines), lines)
    on_record = [
        recipes.on_record(version, parts, each.actor)
        for each, (version, parts) in zip(ready, dated, strict=True)
    ]
    entries = journal.add_all(connection, "version", on_record)
    written = [version for version, _ in dated]
    told = list(zip(written, entries, strict=True))
    event_feed.record_all(connection, "recipe.saved", told, by=by.short)
    incomplete = [each for each in told if each[0].answer["sodium"]["complete"] is False]
    if incomplete:
        event_feed.record_all(connection, "recipe.incomplete", incomplete, by=by.short)
    own_measurements.own_all(connection, [version.key for version in written], kitchen)
    for each in ready:
        if each.waits:
            second_foods.await_words(connection, each.version.key, each.waits)
    return [_kept(version, each.told) for version, each in zip(written, ready, strict=True)]


def _recipe_row(each: Prepared, moment: str) -> dict[str, Any]:
    """The row of a new recipe."""
    about = {"key": each.version.key, "current": 1, "created_at": moment}
    return {**each.told, **about, "changed_at": moment}
