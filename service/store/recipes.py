"""Recipes and their versions: what was asked, what was answered, and where its review stands.

Every function works inside a transaction of `Database`; none decides anything.
"""

from __future__ import annotations

import secrets
from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from sqlalchemy import Connection, RowMapping, Select, and_, func, insert, null, or_, select, update

from ..review.chain import Actor
from ..review.fingerprints import fingerprint
from . import journal
from .records import Document, Draft, Heading, Order, Place, Signature, SignOff, Verdict, Version, Wanted
from .tables import as_text, now, recipes, sign_offs, versions

_CURRENT = and_(recipes.c.id == versions.c.recipe_id, recipes.c.current == versions.c.number)
_WITH_KEY = recipes.c.id == versions.c.recipe_id


def current(connection: Connection, key: str) -> Version | None:
    """The version of `key` that stands, or None where nothing was saved under it."""
    return _one(connection, _full().join(recipes, _CURRENT).where(recipes.c.key == as_text(key)))


def version(connection: Connection, key: str, number: int) -> Version | None:
    """Version `number` (from 1) of `key`, or None."""
    query = _full().join(recipes, _WITH_KEY)
    return _one(connection, query.where(recipes.c.key == as_text(key), versions.c.number == number))


def by_save_id(connection: Connection, save_id: str) -> Version | None:
    return _one(connection, _full().join(recipes, _WITH_KEY).where(versions.c.save_id == as_text(save_id)))


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


def history(connection: Connection, key: str) -> list[Heading]:
    """Every version of `key`, the newest first."""
    query = _headings().join(recipes, _WITH_KEY).where(recipes.c.key == as_text(key))
    return _as_headings(connection.execute(query.order_by(versions.c.number.desc())).mappings())


def listing(connection: Connection, wanted: Wanted, after: Place | None, limit: int) -> list[Heading]:
    """At most `limit` current versions after `after`, by key, or by sodium with the highest first."""
    query = _headings().join(recipes, _CURRENT)
    if wanted.status is not None:
        query = query.where(versions.c.status == wanted.status)
    if wanted.above_mg is not None:
        query = query.where(_may_be_above(wanted.above_mg))
    if after is not None:
        query = query.where(_beyond(wanted.order, after))
    by_sodium = (versions.c.sodium_mg.desc(),) if wanted.order == "sodium" else ()
    return _as_headings(connection.execute(query.order_by(*by_sodium, recipes.c.key).limit(limit)).mappings())


def _may_be_above(mg: float) -> Any:
    """Sodium a serving above so many mg, or, where not all was counted, perhaps above."""
    perhaps = and_(versions.c.complete.is_(False), versions.c.high_mg > mg)
    return or_(versions.c.sodium_mg > mg, perhaps)


def _beyond(order: Order, after: Place) -> Any:
    if order == "key":
        return recipes.c.key > as_text(after.key)
    return or_(
        versions.c.sodium_mg < after.sodium_mg,
        and_(versions.c.sodium_mg == after.sodium_mg, recipes.c.key > as_text(after.key)),
    )


def keys(connection: Connection) -> list[str]:
    """Every key that holds a recipe, in order."""
    return list(connection.scalars(select(recipes.c.key).order_by(recipes.c.key)))


def count_by_status(connection: Connection) -> dict[str, int]:
    """How many recipes stand at each status."""
    query = select(versions.c.status, func.count()).join(recipes, _CURRENT).group_by(versions.c.status)
    return {row[0]: row[1] for row in connection.execute(query)}


def add_version(connection: Connection, key: str, draft: Draft) -> Version:
    """Write `draft` as the next version of `key`, make it current, and put it on record."""
    moment = now()
    recipe_id, number = _next_number(connection, key, moment)
    row = _row(draft) | {"recipe_id": recipe_id, "number": number, "created_at": moment}
    connection.execute(insert(versions).values(row))
    connection.execute(update(recipes).where(recipes.c.id == recipe_id).values(current=number))
    written = version(connection, key, number)
    assert written is not None
    return _on_record(connection, written, draft)


def _on_record(connection: Connection, written: Version, draft: Draft) -> Version:
    """Put a version on record by the fingerprints of its parts, taken from what the store gives back."""
    parts = journal.parts_of(written)
    sha256 = journal.version_sha256(parts)
    connection.execute(update(versions).where(versions.c.save_id == written.save_id).values(sha256=sha256))
    told = {"key": written.key, "number": written.number, "save_id": written.save_id, "cause": draft.cause}
    journal.add(
        connection, "version", {**told, "parts": parts, "sha256": sha256, "by": draft.signature.by.document}
    )
    return replace(written, sha256=sha256)


def _next_number(connection: Connection, key: str, moment: str) -> tuple[int, int]:
    found = connection.execute(
        select(recipes.c.id, recipes.c.current).where(recipes.c.key == as_text(key))
    ).first()
    if found is not None:
        return found.id, found.current + 1
    new = insert(recipes).values(key=key, current=1, created_at=moment).returning(recipes.c.id)
    return connection.scalars(new).one(), 1


def _row(draft: Draft) -> dict[str, Any]:
    answer = draft.answer
    return {
        "save_id": f"save_{secrets.token_hex(12)}",
        "calculation_id": answer["id"],
        "request": draft.request,
        "answer": answer,
        "title": as_text(draft.request.get("title") or ""),
        "overrules": list(draft.overrules),
        "content_hash": fingerprint(draft.request),
        "dataset_sha256": answer["dataset"]["sha256"],
        "factors_sha256": draft.factors_sha256,
        "sodium_mg": answer["sodium"]["per_serving_mg"]["likely"],
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
    more = ("factors_sha256", "sodium_mg", "cause", "saved_by", "status", "created_at", "sha256")
    return select(recipes.c.key, *(versions.c[name] for name in names + more)).select_from(versions)


def _headings() -> Select[Any]:
    names = ("number", "save_id", "calculation_id", "sodium_mg", "high_mg", "complete", "cause")
    more = ("saved_by", "status", "created_at")
    return select(recipes.c.key, versions.c.title, *(versions.c[name] for name in names + more)).select_from(
        versions
    )


def _one(connection: Connection, query: Select[Any]) -> Version | None:
    row = connection.execute(query).mappings().first()
    if row is None:
        return None
    return Version(**{**row, "overrules": tuple(row["overrules"])})


def _as_headings(rows: Iterable[RowMapping]) -> list[Heading]:
    return [Heading(**row) for row in rows]
