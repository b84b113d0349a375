"""What is kept, as the rest of the service sees it: plain records that know no database."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal, get_args

Document = dict[str, Any]
Cause = Literal["saved", "overruled", "recalculated"]
Status = Literal["open", "signed", "sent_back"]
Verdict = Literal["signed", "sent_back"]
Order = Literal["key", "sodium"]
Kind = Literal[
    "recipe.saved",
    "recipe.overruled",
    "recipe.recalculated",
    "recipe.completed",
    "recipe.signed",
    "recipe.sent_back",
]
KINDS: tuple[Kind, ...] = get_args(Kind)


@dataclass(frozen=True, slots=True)
class Draft:
    """A version about to be written. `request` is as the caller sent it; `answer` stands on the overrules."""

    request: Document
    answer: Document
    overrules: tuple[Document, ...]
    factors_sha256: str
    cause: Cause
    saved_by: str


@dataclass(frozen=True, slots=True)
class Version:
    """One kept version of one recipe; `save_id` is its public name and its entity tag."""

    key: str
    number: int
    save_id: str
    request: Document
    answer: Document
    overrules: tuple[Document, ...]
    content_hash: str
    dataset_sha256: str
    factors_sha256: str
    sodium_mg: float
    cause: Cause
    saved_by: str
    status: Status
    created_at: str

    @property
    def etag(self) -> str:
        return self.save_id


@dataclass(frozen=True, slots=True)
class Heading:
    """A version without its documents, as lists show it."""

    key: str
    number: int
    save_id: str
    calculation_id: str
    title: str
    sodium_mg: float
    cause: Cause
    saved_by: str
    status: Status
    created_at: str


@dataclass(frozen=True, slots=True)
class SignOff:
    """What a reviewer decided about one version, by name and date."""

    verdict: Verdict
    name: str
    note: str
    created_at: str


@dataclass(frozen=True, slots=True)
class Wanted:
    """Which recipes a list is to hold; None leaves a condition out. `above_mg` is per serving."""

    status: Status | None = None
    above_mg: float | None = None
    order: Order = "key"


@dataclass(frozen=True, slots=True)
class Place:
    """Where a page of a list ended: the key, and the sodium for lists in that order."""

    key: str
    sodium_mg: float


@dataclass(frozen=True, slots=True)
class Event:
    """id: grows by commit; ask for what came `after` the last one seen. payload: JSON, by `kind`."""

    id: int
    kind: Kind
    payload: dict[str, Any]
    created_at: str
