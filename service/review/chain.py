"""Who did what, on record: actors as the service knows them, and entries that each hold the hash of the last.

An entry cannot be changed, taken out or slipped in without every later hash being wrong. Only the end can be
cut off unseen; so the newest number and hash are told outside as well, in events and by `saltledger verify`.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import asdict, dataclass
from typing import Any, Literal

ActorKind = Literal["key", "login", "local", "service", "unknown"]
EntryKind = Literal[
    "version",
    "overrule",
    "withdrawal",
    "verdict",
    "deletion",
    "archiving",
    "restoring",
    "renaming",
    "pruning",
]

BEGINNING = "0" * 64
"""What stands in the first entry for the hash of the one before."""


@dataclass(frozen=True, slots=True)
class Actor:
    """Who did something, as the service itself knows it, whatever name they give.

    kind: an API key, a reviewer's login, somebody on this machine without either, the service; or unknown,
    for what was kept before actors were. id: a key's public id, or a login. label: the key's, or the name.
    """

    kind: ActorKind
    id: str = ""
    label: str = ""

    @classmethod
    def of(cls, document: Mapping[str, Any] | None) -> Actor:
        """From `document`; unknown where there is none."""
        return cls(**document) if document else UNKNOWN

    @property
    def document(self) -> dict[str, str]:
        return asdict(self)

    @property
    def short(self) -> str:
        """As it stands beside a save."""
        return self.label or self.kind

    def __str__(self) -> str:
        match self.kind:
            case "key":
                return f"key {self.label}"
            case "login":
                return f"login {self.id}"
            case "local":
                return "this machine, without a key"
            case "service":
                return self.label
        return "not recorded"

    def beside(self, name: str) -> str:
        """A name that somebody gave, never alone."""
        return f"{name} ({self})"


UNKNOWN = Actor("unknown")


@dataclass(frozen=True, slots=True)
class Entry:
    """One act. payload: JSON, by kind; hash: over all of the entry, and so over `previous`."""

    number: int
    kind: EntryKind
    payload: Mapping[str, Any]
    created_at: str
    previous: str
    hash: str


def next_entry(last: Entry | None, kind: EntryKind, payload: Mapping[str, Any], moment: str) -> Entry:
    """The entry that follows `last`."""
    number, previous = (last.number + 1, last.hash) if last else (1, BEGINNING)
    return Entry(number, kind, payload, moment, previous, hash_of(number, kind, payload, moment, previous))


def hash_of(number: int, kind: str, payload: Mapping[str, Any], moment: str, previous: str) -> str:
    return exact_sha256([number, kind, payload, moment, previous])


def exact_sha256(value: Any) -> str:
    """SHA-256 of a JSON value as it is, keys in any order: 2 is not 2.0."""
    text = json.dumps(value, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode()).hexdigest()


def breaks(entries: Iterable[Entry]) -> Iterator[str]:
    """What is wrong with a chain, in words, in order; nothing where it is whole."""
    last: Entry | None = None
    for entry in entries:
        wanted = last.number + 1 if last else 1
        if entry.number != wanted:
            yield f"Entries {wanted} to {entry.number - 1} are missing from the record."
        elif entry.previous != (last.hash if last else BEGINNING):
            yield f"Entry {entry.number} does not follow the one before it: one of the two was replaced."
        if entry.hash != hash_of(entry.number, entry.kind, entry.payload, entry.created_at, entry.previous):
            yield f"Entry {entry.number} ({entry.kind}, {entry.created_at}) was altered after it was written."
        last = entry


def fingerprint(value: Any) -> str:
    """The same for JSON values that say the same: keys in any order, 2 and 2.0 alike. 64 hex digits."""
    text = json.dumps(_alike(value), sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode()).hexdigest()


def _alike(value: Any) -> Any:
    match value:
        case dict():
            return {key: _alike(item) for key, item in value.items()}
        case list() | tuple():
            return [_alike(item) for item in value]
        case float() if value.is_integer():
            return int(value)
        case _:
            return value
