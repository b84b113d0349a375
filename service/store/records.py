"""What is kept, as the rest of the service sees it: plain records that know no database."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal, NamedTuple, get_args

from ..review.chain import Actor

Document = dict[str, Any]
Cause = Literal["saved", "overruled", "recalculated"]
Status = Literal["open", "signed", "sent_back"]
Verdict = Literal["signed", "sent_back"]
Order = Literal["key", "title", "sodium", "urgency", "doubtful", "changed"]
State = Literal["active", "archived", "deleted"]
Kind = Literal[
    "recipe.saved",
    "recipe.overruled",
    "recipe.recalculated",
    "recipe.completed",
    "recipe.figure_changed",
    "recipe.incomplete",
    "recipe.signed",
    "recipe.sent_back",
    "recipe.deleted",
    "recipe.archived",
    "recipe.restored",
    "recipe.renamed",
    "recipe.stale",
]
KINDS: tuple[Kind, ...] = get_args(Kind)


class Figure(NamedTuple):
    """Sodium of a serving in mg, and whether all of it was counted; None: not known."""

    sodium_mg: float
    complete: bool | None


@dataclass(frozen=True, slots=True)
class Signature:
    """Who made a version: the actor, and the name that they gave, if any."""

    by: Actor
    name: str | None = None

    @property
    def handle(self) -> str:
        """Short and the same for the same person: a login, or the name that they give."""
        return f"login {self.by.id}" if self.by.kind == "login" else f"name {(self.name or '').casefold()}"

    def __str__(self) -> str:
        """As it stands beside the version: a name never alone."""
        return self.by.beside(self.name) if self.name else self.by.short


@dataclass(frozen=True, slots=True)
class Draft:
    """A version about to be written. `request` is as the caller sent it; `answer` stands on the overrules."""

    request: Document
    answer: Document
    overrules: tuple[Document, ...]
    factors_sha256: str
    cause: Cause
    signature: Signature


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
    sha256: str | None
    saved_key: str

    @property
    def etag(self) -> str:
        return self.save_id

    @property
    def uncounted(self) -> list[Document]:
        """What of its sodium was not counted; nothing where it was worked out before this was told."""
        return list(self.answer["sodium"].get("uncounted", ()))


@dataclass(frozen=True, slots=True)
class Heading:
    """A version without its documents, as lists show it, and what is said of its recipe's current one.

    complete: whether all its sodium was counted, None where it was worked out before this was told.
    """

    key: str
    number: int
    save_id: str
    calculation_id: str
    title: str
    sodium_mg: float
    low_mg: float | None
    high_mg: float | None
    complete: bool | None
    cause: Cause
    saved_by: str
    status: Status
    created_at: str
    state: State
    stops: int
    checks: int
    doubtful_mg: float
    changed_since_signing: bool
    near_limit: bool
    urgency: int
    stale: bool
    by_title: str
    changed_at: str


@dataclass(frozen=True, slots=True)
class SignOff:
    """What a reviewer decided about one version: by what name, and who that was as the service knows it.

    version_sha256: of the version as it was then. entry: number in the journal. Each None for what was kept
    before there was a journal. uncounted: what was not counted of its sodium, as the reviewer confirmed
    ({pointer, line, why, low_mg, high_mg}); None where the figure was complete.
    """

    verdict: Verdict
    name: str
    note: str
    created_at: str
    by: Actor
    version_sha256: str | None
    entry: int | None
    uncounted: list[Document] | None = None


@dataclass(frozen=True, slots=True)
class Wanted:
    """Which recipes a list is to hold; None, False or '' leaves a condition out.

    above_mg: sodium per serving. stops, checks: only with such notices. doubtful: only where sodium hangs
    on a doubtful reading. changed_since: a moment as the store writes it. stale: only where a recipe that is
    an ingredient has changed. handled_by: who decided on it or changed it last (`Signature.handle`). search:
    beginnings of words of title, key or lines, all of which must be there.
    """

    status: Status | None = None
    above_mg: float | None = None
    order: Order = "key"
    state: State = "active"
    complete: bool | None = None
    stops: bool = False
    checks: bool = False
    doubtful: bool = False
    changed_since_signing: bool = False
    changed_since: str | None = None
    stale: bool = False
    handled_by: str = ""
    search: str = ""


@dataclass(frozen=True, slots=True)
class Place:
    """Where a page of a list ended: the key, and what the list is ordered by (`listing.place_of`)."""

    key: str
    values: tuple[float | str, ...] = ()


@dataclass(frozen=True, slots=True)
class Event:
    """id: grows by commit; ask for what came `after` the last one seen. payload: JSON, by `kind`."""

    id: int
    kind: Kind
    payload: dict[str, Any]
    created_at: str
