"""Holding everything kept against the journal, and any version against a calculation of today."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from contextlib import AbstractContextManager, nullcontext
from dataclasses import dataclass, field
from functools import partial
from typing import Any

from sqlalchemy import Connection, select
from sqlalchemy.exc import OperationalError

from ..core.errors import SaltledgerError
from ..review.chain import Entry, breaks
from ..review.verification import Recorded, altered_fields, altered_parts, recalculated
from . import journal, recipes
from .override_records import said_in
from .packing import UnreadableDocument, text_sha256
from .records import Version
from .schema import journal as journal_table
from .schema import overrules, sign_offs, versions

OWN = "the kitchen's own measurements"
"""What the source of an assumption says that stands on measurements of the kitchen."""


@dataclass(slots=True)
class Verified:
    """What was found. altered: what is not as it was put on record, in words; differs: what a calculation of
    today gives otherwise; unchecked: what today's data cannot work out; head: the newest entry."""

    entries: int = 0
    versions: int = 0
    recalculated: int = 0
    head: Entry | None = None
    altered: list[str] = field(default_factory=list)
    differs: list[str] = field(default_factory=list)
    unchecked: list[str] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Today:
    """How the recipe of a version is worked out now, and with what data.

    own_figures: contexts with the figures of kitchens as they stood when a version was saved, the recipe's
    own kitchen first; a recipe may have been another's before.
    """

    calculate: Callable[[Version, dict[str, Any]], dict[str, Any]]
    dataset_sha256: str
    factors_sha256: str
    own_figures: Callable[[Version], Iterable[AbstractContextManager[None]]] = lambda _: ()

    def is_with(self, version: Version) -> bool:
        """Whether a version was worked out with today's data."""
        return (version.dataset_sha256, version.factors_sha256) == (self.dataset_sha256, self.factors_sha256)


def verify(
    connection: Connection, today: Today, named: frozenset[str] = frozenset(), *, recalculating: bool = True
) -> Verified:
    """Check the chain and everything it tells of; work out again the versions of the keys or save ids in
    `named`, all where it is empty."""
    found, recorded = Verified(), Recorded()
    found.altered += breaks(_taken(connection, found, recorded))
    for version in _each_version(connection, found):
        found.altered += _version_findings(connection, version, recorded)
        if recalculating and (not named or {version.key, version.save_id} & named):
            _recalculate(version, today, found)
    found.altered += _missing(connection, recorded)
    found.altered += [*_verdict_findings(connection, recorded), *_overrule_findings(connection, recorded)]
    return found


def _taken(connection: Connection, found: Verified, recorded: Recorded) -> Iterator[Entry]:
    for entry in journal.every(connection):
        found.entries, found.head = found.entries + 1, entry
        recorded.take(entry)
        yield entry


def _each_version(connection: Connection, found: Verified) -> Iterator[Version]:
    """One at a time, for versions are large; one whose answer cannot be read at all is told as altered."""
    query = select(versions.c.number, versions.c.saved_key, versions.c.save_id).order_by(versions.c.id)
    for number, key, save_id in connection.execute(query).all():
        found.versions += 1
        try:
            version = recipes.by_save_id(connection, save_id)
        except (UnreadableDocument, OperationalError) as fault:
            if isinstance(fault, OperationalError) and "decode" not in str(fault.orig).lower():
                raise  # the store is away; only text that SQLite cannot decode was put there by somebody
            called = f"Version {number} of {key!r} ({save_id})"
            found.altered.append(f"{called} was altered after it was saved: its answer cannot be read.")
            continue
        if version is not None:
            yield version


def _called(version: Version) -> str:
    return f"Version {version.number} of {version.key!r} ({version.save_id})"


def _version_findings(connection: Connection, version: Version, recorded: Recorded) -> Iterator[str]:
    on_record = recorded.versions.get(version.save_id)
    if on_record is None:
        yield f"{_called(version)} is in the store and not on record: it was put there past the service."
        return
    parts = journal.parts_of(version, on_record["parts"])
    if parts.get("answer_text") != on_record["parts"].get("answer_text"):
        # Another release of the library may write numbers otherwise than the one that packed it.
        parts["answer_text"] = text_sha256(recipes.answer_text(connection, version.save_id))
    if altered := altered_parts(on_record, parts):
        yield f"{_called(version)} was altered after it was saved: {', '.join(altered)}."
    if version.sha256 != on_record["sha256"]:
        yield f"{_called(version)} carries another fingerprint than the one on record."
    if (status := recorded.status_of(version.save_id)) != version.status:
        yield f"{_called(version)} stands as {version.status!r}; by the verdicts on record it is {status!r}."


def _missing(connection: Connection, recorded: Recorded) -> Iterator[str]:
    kept = set(connection.scalars(select(versions.c.save_id)))
    for save_id, told in recorded.versions.items():
        if save_id not in kept and not recorded.may_be_gone(save_id):
            yield f"Version {told['number']} of {told['key']!r} ({save_id}) is on record and was taken out."


def _verdict_findings(connection: Connection, recorded: Recorded) -> Iterator[str]:
    query = select(versions.c.save_id, sign_offs).join(versions, versions.c.id == sign_offs.c.version_id)
    seen = set()
    for row in connection.execute(query.order_by(sign_offs.c.id)).mappings():
        what = f"The verdict {row['id']} on {row['save_id']}"
        on_record = recorded.verdicts.get(row["entry"] or 0)
        seen.add(row["entry"])
        if on_record is None:
            yield f"{what} is in the store and not on record: it was put there past the service."
            continue
        names = ("verdict", "name", "note", "save_id", "version_sha256", "uncounted")
        kept = {name: row[name] for name in names} | ({"by": row["actor"]} if row["actor"] else {})
        if altered := "; ".join(altered_fields(on_record, kept)):
            yield f"{what} was altered: {altered}."
    for number, told in recorded.verdicts.items():
        if number not in seen:
            yield f"The verdict of {told['name']!r} on {told['save_id']} is on record and was taken out."


def _overrule_findings(connection: Connection, recorded: Recorded) -> Iterator[str]:
    seen = set()
    for row in connection.execute(select(overrules).order_by(overrules.c.id)).mappings():
        what = f"The overrule {row['id']} of {row['field']}"
        on_record = recorded.overrules.get(row["id"])
        seen.add(row["id"])
        if on_record is None:
            yield f"{what} is in the store and not on record: it was put there past the service."
            continue
        kept = said_in(row) | ({"by": row["actor"]} if row["actor"] else {})
        if altered := "; ".join(altered_fields(on_record, kept)):
            yield f"{what} was altered: {altered}."
        if (row["withdrawn_at"] is not None) != (row["id"] in recorded.withdrawn):
            yield f"{what} was {'withdrawn' if row['withdrawn_at'] else 'put back'} past the service."
    for number, told in recorded.overrules.items():
        if number not in seen:
            yield f"The overrule {number} by {told['reviewer']!r} is on record and was taken out."


def _recalculate(version: Version, today: Today, found: Verified) -> None:
    if not today.is_with(version):
        found.unchecked.append(
            f"{_called(version)} was worked out with other data (foods {version.dataset_sha256[:12]}, tables "
            f"{version.factors_sha256[:12]}): only a release that has those can work it out again."
        )
        return
    told = [each for each in version.overrules if each["pointer"] is not None]
    stands_on_own = any(OWN in each["source"] for each in version.answer.get("assumptions", ()))
    differences = ["the measurements that it stands on are gone"]
    for figures in today.own_figures(version) if stands_on_own else (nullcontext(),):
        try:
            with figures:
                calculate = partial(today.calculate, version)
                differences = recalculated(version.request, told, version.answer, calculate)
        except SaltledgerError as refused:
            differences = [f"it cannot be worked out any more: {refused}"]
        if not differences:
            break
    found.recalculated += 1
    if differences:
        found.differs.append(f"{_called(version)}: {'; '.join(differences)}.")


def cut_off(connection: Connection, head: str) -> str | None:
    """What became of an entry that somebody kept as NUMBER:SHA256, in words; None where it still stands.

    Raises ValueError where `head` is not of that form.
    """
    number, _, sha256 = head.partition(":")
    if not number.isdecimal() or not sha256:
        raise ValueError(f"Found {head!r}, wanted NUMBER:SHA256, as the last line gives it.")
    query = select(journal_table.c.hash).where(journal_table.c.number == int(number))
    kept = connection.scalars(query).first()
    if kept is None:
        return f"Entry {number} is gone: the end of the record was cut off."
    return None if kept == sha256 else f"Entry {number} is not the one you kept: the record was written anew."
