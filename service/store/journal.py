"""The journal: every version, overrule, withdrawal and verdict, chained; see `review.chain`.

Entries are only ever added, inside the transaction of what they tell of, and by one writer at a time.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from sqlalchemy import Connection, insert, select

from ..review.chain import Entry, EntryKind, exact_sha256, next_entry
from .records import Version
from .schema import journal, now


def add(connection: Connection, kind: EntryKind, payload: Mapping[str, Any]) -> Entry:
    """Put an act on record."""
    made = next_entry(last(connection), kind, payload, now())
    connection.execute(
        insert(journal).values(
            number=made.number,
            kind=kind,
            payload=dict(payload),
            created_at=made.created_at,
            previous=made.previous,
            hash=made.hash,
        )
    )
    return made


def last(connection: Connection) -> Entry | None:
    """The newest entry, None where nothing is on record."""
    row = connection.execute(select(journal).order_by(journal.c.number.desc()).limit(1)).mappings().first()
    return Entry(**row) if row else None


def every(connection: Connection) -> Iterator[Entry]:
    """All entries, the oldest first."""
    found = connection.execution_options(yield_per=500).execute(select(journal).order_by(journal.c.number))
    return (Entry(**row) for row in found.mappings())


def parts_of(version: Version) -> dict[str, str]:
    """Fingerprints of what a version holds, by what it is."""
    about = [version.saved_key, version.number, version.save_id, version.cause, version.saved_by]
    figures = [version.sodium_mg, version.dataset_sha256, version.factors_sha256, version.created_at]
    return {
        "recipe": exact_sha256(version.request),
        "answer": exact_sha256(version.answer),
        "overrules": exact_sha256(list(version.overrules)),
        "heading": exact_sha256([*about, *figures]),
    }


def version_sha256(parts: Mapping[str, str]) -> str:
    """The fingerprint of a version, from those of its parts."""
    return exact_sha256(dict(parts))
