"""The journal: every version, overrule, withdrawal and verdict, chained; see `review.chain`.

Entries are only ever added, inside the transaction of what they tell of, and by one writer at a time.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any

from sqlalchemy import Connection, insert, select

from ..review.chain import Entry, EntryKind, exact_sha256, next_entry
from .packing import text_of, text_sha256
from .records import Version
from .schema import journal, now

NOW_RECORDED = ("recipe", "answer_text", "overrules", "heading")
"""What goes on record of a version. Older entries have the fingerprint of the answer's values instead of that
of its text, which is at hand wherever an answer is packed."""


def add(connection: Connection, kind: EntryKind, payload: Mapping[str, Any]) -> Entry:
    """Put an act on record."""
    return add_all(connection, kind, [payload])[0]


def add_all(connection: Connection, kind: EntryKind, payloads: Iterable[Mapping[str, Any]]) -> list[Entry]:
    """Put acts of one kind on record, in order; one at the least."""
    made: list[Entry] = []
    newest = last(connection)
    for payload in payloads:
        newest = next_entry(newest, kind, dict(payload), now())
        made.append(newest)
    connection.execute(insert(journal), [_row(entry) for entry in made])
    return made


def _row(entry: Entry) -> dict[str, Any]:
    return {name: getattr(entry, name) for name in Entry.__dataclass_fields__}


def last(connection: Connection) -> Entry | None:
    """The newest entry, None where nothing is on record."""
    row = connection.execute(select(journal).order_by(journal.c.number.desc()).limit(1)).mappings().first()
    return Entry(**row) if row else None


def first_hash(connection: Connection) -> str:
    """The hash of the first entry, which no other store has; '' where nothing is on record."""
    return connection.scalar(select(journal.c.hash).order_by(journal.c.number).limit(1)) or ""


def every(connection: Connection) -> Iterator[Entry]:
    """All entries, the oldest first."""
    found = connection.execution_options(yield_per=500).execute(select(journal).order_by(journal.c.number))
    return (Entry(**row) for row in found.mappings())


def parts_of(version: Version, names: Iterable[str] = NOW_RECORDED) -> dict[str, str]:
    """Fingerprints of what a version holds, by what it is; names: of `review.verification.PARTS`."""
    return {name: _PARTS[name](version) for name in names if name in _PARTS}


def heading_sha256(version: Version) -> str:
    """The fingerprint of what is said of a version besides its documents."""
    about = [version.saved_key, version.number, version.save_id, version.cause, version.saved_by]
    figures = [version.sodium_mg, version.dataset_sha256, version.factors_sha256, version.created_at]
    return exact_sha256([*about, *figures])


def version_sha256(parts: Mapping[str, str]) -> str:
    """The fingerprint of a version, from those of its parts."""
    return exact_sha256(dict(parts))


_PARTS: Mapping[str, Callable[[Version], str]] = {
    "recipe": lambda version: exact_sha256(version.request),
    "answer": lambda version: exact_sha256(version.answer),
    "answer_text": lambda version: text_sha256(text_of(version.answer)),
    "overrules": lambda version: exact_sha256(list(version.overrules)),
    "heading": heading_sha256,
}
