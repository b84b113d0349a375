"""Whether what is kept is what was put on record: pure comparisons, each finding in words."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from .chain import Entry
from .overrides import laid_over

Document = Mapping[str, Any]

MOST_DIFFERENCES = 5
CLOSE = 1e-9
"""Figures of two calculations that differ by no more, as a share of them, are the same."""

PARTS = {
    "recipe": "the recipe as it was sent",
    "answer": "its answer",
    "answer_text": "its answer",
    "overrules": "its overrules",
    "heading": "who saved it, when, why or with which data",
}


class Recorded:
    """What a journal says: versions by save id, overrules by id, verdicts by entry, what was withdrawn, and
    which versions were taken out for their age."""

    def __init__(self) -> None:
        self.versions: dict[str, Document] = {}
        self.overrules: dict[int, Document] = {}
        self.withdrawn: set[int] = set()
        self.verdicts: dict[int, Document] = {}
        self.hashes: dict[int, str] = {}
        self.pruned: set[str] = set()

    def take(self, entry: Entry) -> None:
        self.hashes[entry.number] = entry.hash
        match entry.kind:
            case "version":
                self.versions[entry.payload["save_id"]] = entry.payload
            case "overrule":
                self.overrules[entry.payload["id"]] = entry.payload
            case "withdrawal":
                self.withdrawn.add(entry.payload["id"])
            case "verdict":
                self.verdicts[entry.number] = entry.payload
            case "pruning":
                self.pruned.update(entry.payload["save_ids"])

    def may_be_gone(self, save_id: str) -> bool:
        """Whether a version was taken out for its age, which nobody had decided on."""
        return save_id in self.pruned and self.status_of(save_id) == "open"

    def status_of(self, save_id: str) -> str:
        """Where the review of a version stands by its last verdict."""
        given = [each["verdict"] for each in self.verdicts.values() if each["save_id"] == save_id]
        return given[-1] if given else "open"


def altered_parts(recorded: Document, parts: Mapping[str, str]) -> list[str]:
    """Which parts of a version are not as they were put on record, in words."""
    return [PARTS.get(name, name) for name, sha256 in recorded["parts"].items() if parts.get(name) != sha256]


def altered_fields(recorded: Document, kept: Document) -> Iterator[str]:
    """What a row says that its entry does not, as `name: was, is`."""
    for name, now in kept.items():
        if recorded.get(name) != now:
            yield f"{name} was {recorded.get(name)!r} and is {now!r}"


def recalculated(
    recipe: Document,
    told: Sequence[Document],
    kept: Document,
    calculate: Callable[[dict[str, Any]], Document],
) -> list[str]:
    """Where a version's answer differs from the one its recipe and overrules give today."""
    document = laid_over(recipe, [(each["pointer"], each["field"], each["value"]) for each in told])
    return list(_some(differences(kept, calculate(document))))


def differences(kept: Any, now: Any, pointer: str = "") -> Iterator[str]:
    """Each place where two answers differ, with both values."""
    if isinstance(kept, dict) and isinstance(now, dict):
        for name in {**kept, **now}:
            yield from differences(kept.get(name), now.get(name), f"{pointer}/{name}")
    elif isinstance(kept, list) and isinstance(now, list) and len(kept) == len(now):
        for at, (one, other) in enumerate(zip(kept, now, strict=True)):
            yield from differences(one, other, f"{pointer}/{at}")
    elif not _same(kept, now):
        yield f"{pointer} is kept as {_shown(kept)}, and comes to {_shown(now)}"


def _same(kept: Any, now: Any) -> bool:
    numbers = all(isinstance(each, int | float) and not isinstance(each, bool) for each in (kept, now))
    return math.isclose(kept, now, rel_tol=CLOSE, abs_tol=1e-12) if numbers else bool(kept == now)


def _shown(value: Any) -> str:
    text = repr(value) if not isinstance(value, list | dict) else f"{len(value)} parts"
    return text if len(text) <= 60 else text[:60] + "…"


def _some(found: Iterator[str]) -> Iterator[str]:
    for count, each in enumerate(found):
        if count == MOST_DIFFERENCES:
            yield "and more"
            return
        yield each
