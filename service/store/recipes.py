"""Recipes and their versions: what was asked, what was answered, and where its review stands.

Every function works inside a transaction of `Database`; none decides anything.
"""

from __future__ import annotations

import secrets
from collections.abc import Mapping
from dataclasses import fields, replace
from typing import Any

from sqlalchemy import (
    Connection,
    LargeBinary,
    RowMapping,
    Select,
    and_,
    insert,
    null,
    select,
    type_coerce,
    update,
)

from ..review.chain import Actor, fingerprint
from . import journal, listing
from .packing import unpacked_text
from .records import Document, Draft, Figure, Heading, Signature, SignOff, Verdict, Version
from .schema import as_text, now, recipes, sign_offs, versions

_CURRENT = and_(recipes.c.id == versions.c.recipe_id, recipes.c.current == versions.c.number)
_WITH_KEY = recipes.c.id == versions.c.recipe_id


def current(connection: Connection, key: str) -> Version | None:
    """The version of `key` that stands, or None where nothing was saved under it, or it was deleted."""
    query = _full().join(recipes, _CURRENT).where(recipes.c.state != "deleted")
    return _one(connection, query.where(recipes.c.key == as_text(key)))


def current_save_id(connection: Connection, key: str) -> str | None:
    """The save id of the version of `key` that stands, None where none does."""
    query = select(versions.c.save_id).join(recipes, _CURRENT).where(recipes.c.state != "deleted")
    return connection.scalars(query.where(recipes.c.key == as_text(key))).first()


def version(connection: Connection, key: str, number: int) -> Version | None:
    """Version `number` (from 1) of `key`, or None."""
    query = _full().join(recipes, _WITH_KEY)
    return _one(connection, query.where(recipes.c.key == as_text(key), versions.c.number == number))


def figure_of(connection: Connection, key: str, number: int) -> Figure | None:
    """The figure of version `number` of `key`, or None."""
    query = select(versions.c.sodium_mg, versions.c.complete).join(recipes, _WITH_KEY)
    query = query.where(recipes.c.key == as_text(key), versions.c.number == number)
    row = connection.execute(query).first()
    return None if row is None else Figure(row.sodium_mg, row.complete)


def by_save_id(connection: Connection, save_id: str) -> Version | None:
    return _one(connection, _full().join(recipes, _WITH_KEY).where(versions.c.save_id == as_text(save_id)))


def answer_text(connection: Connection, save_id: str) -> bytes:
    """The answer of a version as the text that is kept."""
    query = select(type_coerce(versions.c.answer, LargeBinary)).where(versions.c.save_id == as_text(save_id))
    return unpacked_text(connection.scalars(query).one())


def by_calculation_id(connection: Connection, calculation_id: str) -> Version | None:
    """The newest version with this calculation: equal recipes under several keys share one."""
    query = _full().join(recipes, _WITH_KEY).where(versions.c.calculation_id == as_text(calculation_id))
    return _one(connection, query.order_by(versions.c.id.desc()).limit(1))


def latest_signed(connection: Connection, key: str, before: int) -> Version | None:
    """The newest version of `key` older than number `before` that carries a signature."""
    signed = select(sign_offs.c.version_id).where(sign_offs.c.verdict == "signed")
    query = _full().join(recipes, _WITH_KEY).where(recipes.c.key == as_text(key), versions.c.number < before)
    return _one(
        connection, query.where(versions.c.id.in_(signed)).order_by(versions.c.number.desc()).limit(1)
    )


def history(
    connection: Connection, key: str, before: int | None = None, limit: int | None = None
) -> list[Heading]:
    """The versions of `key`, the newest first: those with a number below `before`, at most `limit`."""
    query = listing.headings().where(recipes.c.key == as_text(key)).order_by(versions.c.number.desc())
    if before is not None:
        query = query.where(versions.c.number < before)
    query = query.limit(limit)
    return [Heading(**row) for row in connection.execute(query).mappings()]


def heading(connection: Connection, save_id: str) -> Heading | None:
    """A version as lists show it."""
    query = listing.headings().where(versions.c.save_id == as_text(save_id))
    row = connection.execute(query).mappings().first()
    return None if row is None else Heading(**row)


def add_version(connection: Connection, key: str, draft: Draft) -> Version:
    """Write `draft` as the next version of `key`, make it current, and put it on record."""
    moment = now()
    recipe_id, number = _next_number(connection, key, moment)
    row = _row(draft, key, number, moment) | {"recipe_id": recipe_id}
    connection.execute(insert(versions).values(row))
    connection.execute(update(recipes).where(recipes.c.id == recipe_id).values(current=number))
    written = version(connection, key, number)
    assert written is not None
    signed = latest_signed(connection, key, number)
    listing.tell_of(connection, written, signed.answer if signed else None)
    return _on_record(connection, written, draft)


def _on_record(connection: Connection, written: Version, draft: Draft) -> Version:
    """Put a version on record by the fingerprints of its parts, taken from what the store gives back."""
    parts = journal.parts_of(written)
    sha256 = journal.version_sha256(parts)
    connection.execute(update(versions).where(versions.c.save_id == written.save_id).values(sha256=sha256))
    written = replace(written, sha256=sha256)
    journal.add(connection, "version", on_record(written, parts, draft.signature.by.document))
    return written


def on_record(written: Version, parts: Mapping[str, str], actor: Document) -> dict[str, Any]:
    """What the journal says of a version."""
    told = {"key": written.key, "number": written.number, "save_id": written.save_id, "cause": written.cause}
    return {**told, "parts": dict(parts), "sha256": written.sha256, "by": actor}


def _next_number(connection: Connection, key: str, moment: str) -> tuple[int, int]:
    found = connection.execute(
        select(recipes.c.id, recipes.c.current).where(recipes.c.key == as_text(key))
    ).first()
    if found is not None:
        return found.id, found.current + 1
    new = insert(recipes).values(key=key, current=1, created_at=moment).returning(recipes.c.id)
    return connection.scalars(new).one(), 1


def undated(key: str, draft: Draft, number: int) -> tuple[Version, dict[str, Any]]:
    """A version without a time as yet, and its row but for the recipe's id; nothing is written."""
    row = _row(draft, key, number, "")
    known = {field.name: row[field.name] for field in fields(Version) if field.name in row}
    made = Version(**{**known, "key": as_text(key), "overrules": draft.overrules, "sha256": None})
    return made, row


def dated(made: Version, parts: Mapping[str, str], moment: str) -> tuple[Version, dict[str, str]]:
    """A version with its time, and the fingerprint that goes with it; parts: as they were without a time."""
    made = replace(made, created_at=moment)
    whole = {**parts, "heading": journal.heading_sha256(made)}
    return replace(made, sha256=journal.version_sha256(whole)), whole


def _row(draft: Draft, key: str, number: int, moment: str) -> dict[str, Any]:
    answer = draft.answer
    return {
        "number": number,
        "created_at": moment,
        "saved_key": as_text(key),
        "save_id": f"save_{secrets.token_hex(12)}",
        "calculation_id": answer["id"],
        "request": draft.request,
        "answer": answer,
        "title": as_text(draft.request.get("title") or ""),
        "overrules": list(draft.overrules),
        "content_hash": fingerprint(draft.request),
        "dataset_sha256": answer["dataset"]["sha256"],
        "factors_sha256": draft.factors_sha256,
        "sodium_mg": float(answer["sodium"]["per_serving_mg"]["likely"]),
        "high_mg": answer["sodium"]["per_serving_mg"]["high"],
        "complete": answer["sodium"].get("complete"),
        "cause": draft.cause,
        "saved_by": as_text(str(draft.signature)),
        "status": "open",
    }


def add_sign_off(
    connection: Connection,
    version: Version,
    verdict: Verdict,
    signed: Signature,
    note: str,
    *,
    uncounted: list[Document] | None = None,
) -> SignOff:
    """Put a verdict on a version, and on record; its status follows. Earlier verdicts stay."""
    which = versions.c.save_id == version.save_id
    version_id = connection.scalars(select(versions.c.id).where(which)).one()
    told = {"verdict": verdict, "name": as_text(signed.name or ""), "note": as_text(note)}
    about = {"save_id": version.save_id, "version_sha256": version.sha256, "uncounted": uncounted or None}
    entry = journal.add(connection, "verdict", {**told, **about, "by": signed.by.document})
    on_record = {"version_sha256": version.sha256, "created_at": entry.created_at, "entry": entry.number}
    connection.execute(
        insert(sign_offs).values(
            version_id=version_id,
            actor=signed.by.document,
            uncounted=uncounted or null(),
            **told,
            **on_record,
        )
    )
    connection.execute(update(versions).where(which).values(status=verdict))
    by = None if signed.by.kind == "service" else signed.handle
    listing.set_verdict(connection, version.key, verdict, by)
    return sign_offs_of(connection, version.save_id)[0]


def sign_offs_of(connection: Connection, save_id: str) -> list[SignOff]:
    """The verdicts on one version, the newest first."""
    query = select(sign_offs).join(versions, versions.c.id == sign_offs.c.version_id)
    query = query.where(versions.c.save_id == as_text(save_id)).order_by(sign_offs.c.id.desc())
    return [_sign_off(row) for row in connection.execute(query).mappings()]


def _sign_off(row: RowMapping) -> SignOff:
    names = ("verdict", "name", "note", "created_at", "version_sha256", "entry", "uncounted")
    return SignOff(**{name: row[name] for name in names}, by=Actor.of(row["actor"]))


def _full() -> Select[Any]:
    names = ("number", "save_id", "request", "answer", "overrules", "content_hash", "dataset_sha256")
    more = ("factors_sha256", "sodium_mg", "cause", "saved_by", "status", "created_at", "sha256", "saved_key")
    return select(recipes.c.key, *(versions.c[name] for name in names + more)).select_from(versions)


def _one(connection: Connection, query: Select[Any]) -> Version | None:
    row = connection.execute(query).mappings().first()
    if row is None:
        return None
    return Version(**{**row, "overrules": tuple(row["overrules"])})
