"""Many saves in one transaction: what `Workbench.save` does for each, written table by table.

What can be made ready without the store is (`prepared`), in whichever process; writing it is then cheap. When
`write` gives its answers, all that they tell of is on disk; where it fails, nothing is. Taken here are first
versions, and changes of recipes that no other is made of; none of them may name other recipes.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from sqlalchemy import (
    Connection,
    LargeBinary,
    and_,
    bindparam,
    delete,
    func,
    insert,
    select,
    type_coerce,
    update,
)

from ..review.chain import Actor
from ..review.urgency import figures_differ
from . import (
    event_feed,
    journal,
    kept_signatures,
    listing,
    override_records,
    own_measurements,
    recipe_uses,
    recipes,
    second_foods,
)
from .database import Database
from .packing import Packed, packed_text, text_of, text_sha256, unpacked
from .records import Document, Draft, Figure, State, Status, Version
from .schema import as_text, now, recipe_lines, sign_offs, versions
from .schema import recipe_uses as uses
from .schema import recipes as table

if TYPE_CHECKING:
    from ..review.overrides import Overrule


@dataclass(frozen=True, slots=True)
class Kept:
    """The version that stands under a key, without its documents, and what lists tell of it."""

    key: str
    state: State
    status: Status
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

    @property
    def stands_as(self) -> tuple[str, State, Status]:
        """What must not have changed between the calculation and the write."""
        return self.save_id, self.state, self.status


@dataclass(frozen=True, slots=True)
class Standing:
    """What the next version of a recipe follows on. overrules: that were made in it; signed: the answer that
    was signed last, packed; None: none was."""

    kept: Kept
    overrules: tuple[Overrule, ...] = ()
    signed: Packed | None = None


@dataclass(frozen=True, slots=True)
class Prepared:
    """A version that is worked out and not yet written.

    version: without its time and fingerprint, its documents but for the request left out; row: of its table,
    the answer packed; told: of the recipe's; parts: fingerprints of what it holds; waits: words that no food
    fits, None: nobody asks for them; follows: what it changes, None: a first version; keeps_signature: what
    it follows is signed, and no figure has moved; etag: the version that the caller named.
    """

    version: Version
    row: Document
    told: Document
    lines: list[dict[str, str | None]]
    parts: Mapping[str, str]
    actor: Document
    waits: list[str] | None = None
    follows: Kept | None = None
    keeps_signature: bool = False
    etag: str | None = None

    @property
    def key(self) -> str:
        return self.version.saved_key

    def fits(self, taken: Kept | None) -> bool:
        """Whether what stands under its key is still what it was made for."""
        if self.follows is None or taken is None:
            return self.follows is taken
        return self.follows.stands_as == taken.stands_as


_OF_VERSION = ("number", "save_id", "calculation_id", "content_hash")
_OF_RECIPE = tuple(name for name in Kept.__dataclass_fields__ if name not in _OF_VERSION)
_CURRENT = and_(versions.c.recipe_id == table.c.id, versions.c.number == table.c.current)


# Before it is worked out.


def known(connection: Connection, keys: Sequence[str]) -> dict[str, Kept]:
    """What stands under some keys, a recipe that was deleted among it."""
    named = [*(table.c[name] for name in _OF_RECIPE), *(versions.c[name] for name in _OF_VERSION)]
    query = select(*named).join(versions, _CURRENT).where(table.c.key.in_([as_text(key) for key in keys]))
    found = {row["key"]: Kept(**row) for row in connection.execute(query).mappings()}
    return {key: found[as_text(key)] for key in keys if as_text(key) in found}


def requests_of(connection: Connection, keys: Sequence[str]) -> dict[str, Document]:
    """The recipes that stand under some keys, as they were sent."""
    if not keys:
        return {}
    query = select(table.c.key, versions.c.request).join(versions, _CURRENT)
    query = query.where(table.c.key.in_([as_text(key) for key in keys]), table.c.state != "deleted")
    return {row.key: row.request for row in connection.execute(query)}


def standing(connection: Connection, every: Sequence[Kept]) -> dict[str, Standing]:
    """What the next versions of some recipes follow on, by key; those that others are made of are left out,
    for a change of theirs reaches further."""
    if not every:
        return {}
    used = recipe_uses.used_among(connection, [kept.key for kept in every])
    plain = {kept.key: kept for kept in every if kept.key not in used}
    own = override_records.standing_in(connection, list(plain))
    signed = _signed_last(connection, list(plain))
    return {key: Standing(kept, tuple(own.get(key, ())), signed.get(key)) for key, kept in plain.items()}


def _signed_last(connection: Connection, keys: Sequence[str]) -> dict[str, Packed]:
    """The answers that were signed last, packed as they are, by key."""
    newest = (
        select(versions.c.recipe_id, func.max(versions.c.number).label("number"))
        .join(sign_offs, sign_offs.c.version_id == versions.c.id)
        .join(table, table.c.id == versions.c.recipe_id)
        .where(table.c.key.in_(keys), sign_offs.c.verdict == "signed")
        .group_by(versions.c.recipe_id)
        .subquery()
    )
    which = and_(versions.c.recipe_id == newest.c.recipe_id, versions.c.number == newest.c.number)
    query = select(table.c.key, type_coerce(versions.c.answer, LargeBinary)).select_from(table)
    query = query.join(newest, newest.c.recipe_id == table.c.id).join(versions, which)
    return {key: Packed(answer) for key, answer in connection.execute(query)}


# Worked out.


def prepared(
    key: str,
    draft: Draft,
    unmapped: Callable[[Document], list[str]] | None = None,
    standing: Standing | None = None,
    etag: str | None = None,
) -> Prepared:
    """A draft as the next version of a key, ready to be written. unmapped: see `Drafting`."""
    follows = standing.kept if standing else None
    signed = unpacked(standing.signed) if standing and standing.signed is not None else None
    version, row = recipes.undated(key, draft, follows.number + 1 if follows else 1)
    text = text_of(draft.answer)
    return Prepared(
        version=replace(version, answer=_brief(draft.answer), overrules=()),
        row={**row, "answer": packed_text(text)},
        told=listing.told_of(version, signed),
        lines=listing.lines_of(version),
        parts={**journal.parts_of(version, ("recipe", "overrules")), "answer_text": text_sha256(text)},
        actor=draft.signature.by.document,
        waits=unmapped(draft.answer) if unmapped is not None else None,
        follows=follows,
        keeps_signature=_keeps_signature(follows, signed, draft.answer),
        etag=etag,
    )


def _keeps_signature(follows: Kept | None, signed: Document | None, answer: Document) -> bool:
    if follows is None or follows.status != "signed" or signed is None:
        return False
    return not figures_differ(signed, answer)


def _brief(answer: Document) -> Document:
    """What of an answer is still asked for once it is packed."""
    sodium = answer["sodium"]
    told = {"complete": sodium.get("complete"), "uncounted": sodium.get("uncounted", [])}
    return {"id": answer["id"], "sodium": told}


def kept_of(version: Version) -> Kept:
    """What stands once a version is written."""
    return _kept(version, listing.told_of(version, None))


def _kept(version: Version, told: Document) -> Kept:
    values = {name: told[name] for name in _OF_RECIPE if name in told}
    return Kept(
        **values | {"key": version.key, "stale": False, "status": version.status},
        number=version.number,
        save_id=version.save_id,
        calculation_id=version.answer["id"],
        content_hash=version.content_hash,
    )


# Written.


def write(database: Database, ready: Sequence[Prepared], by: Actor, kitchen: str) -> list[Kept | None]:
    """Write versions, no two under one key, all in one transaction.

    kitchen: whose recipes they are then. Gives what came of each, in order; None where somebody else has
    changed what stands under its key meanwhile, or made another recipe of it, so that it is to be saved by
    itself. Raises StoreUnavailable: nothing was written.
    """
    with database.write() as connection:
        taken = known(connection, [each.key for each in ready])
        used = recipe_uses.used_among(connection, [each.version.key for each in ready if each.follows])
        free = [each for each in ready if each.fits(taken.get(each.key)) and each.version.key not in used]
        written = _write(connection, free, by, kitchen) if free else []
    by_key = {kept.key: kept for kept in written}
    return [by_key.get(each.version.key) for each in ready]


def _write(connection: Connection, ready: Sequence[Prepared], by: Actor, kitchen: str) -> list[Kept]:
    moment = now()
    dated = [recipes.dated(each.version, each.parts, moment) for each in ready]
    written = [version for version, _ in dated]
    ids = _tell_recipes(connection, ready, moment)
    rows = [
        {**each.row, "recipe_id": ids[version.key], "created_at": moment, "sha256": version.sha256}
        for each, version in zip(ready, written, strict=True)
    ]
    connection.execute(insert(versions), rows)
    lines = [{"recipe_id": ids[each.version.key], **line} for each in ready for line in each.lines]
    if lines:
        connection.execute(insert(recipe_lines), lines)
    on_record = [
        recipes.on_record(version, parts, each.actor)
        for each, (version, parts) in zip(ready, dated, strict=True)
    ]
    entries = journal.add_all(connection, "version", on_record)
    before = [_figure(each.follows) for each in ready]
    event_feed.record_saved(connection, zip(written, entries, before, strict=True), by.short)
    own_measurements.own_all(connection, [version.key for version in written], kitchen)
    return [_settled(connection, each, version) for each, version in zip(ready, written, strict=True)]


def _figure(kept: Kept | None) -> Figure | None:
    return None if kept is None else Figure(kept.sodium_mg, kept.complete)


def _tell_recipes(connection: Connection, ready: Sequence[Prepared], moment: str) -> dict[str, int]:
    """Say of each recipe what its new version holds; gives the numbers of the recipes by key."""
    first = [_of_recipe(each, moment) | {"created_at": moment} for each in ready if each.follows is None]
    if first:
        connection.execute(insert(table), first)
    query = select(table.c.key, table.c.id).where(table.c.key.in_([each.version.key for each in ready]))
    ids = {row.key: row.id for row in connection.execute(query)}
    later = [{"which": ids[each.version.key], **_of_recipe(each, moment)} for each in ready if each.follows]
    if later:
        values: Document = {name: bindparam(name) for name in later[0] if name != "which"}
        changed = update(table).where(table.c.id == bindparam("which")).values(values | {"stale": False})
        connection.execute(changed, later)
        which = [each["which"] for each in later]
        connection.execute(delete(recipe_lines).where(recipe_lines.c.recipe_id.in_(which)))
        connection.execute(delete(uses).where(uses.c.recipe_id.in_(which)))
    return ids


def _of_recipe(each: Prepared, moment: str) -> Document:
    """What the row of a recipe says of its new version."""
    about = {"key": each.version.key, "current": each.version.number}
    return {**each.told, **about, "changed_at": moment}


def _settled(connection: Connection, each: Prepared, written: Version) -> Kept:
    """What stands once all that goes with a version is written, too."""
    if each.waits or (each.follows and each.waits is not None):
        second_foods.await_words(connection, written.key, each.waits)
    if each.follows and each.keeps_signature:
        written = kept_signatures.keep(connection, each.follows.number, each.follows.save_id, written)
        kept_signatures.tell(connection, written)
    return _kept(written, each.told)
