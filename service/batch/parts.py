"""Many recipes in parts: what is taken up at once, by one process, and answered whole.

A part knows how to go on after it (`mark`), so that a run that was stopped goes on exactly where it was, and
how far the run has come with it (`reached`), for whoever waits.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import IO, Any, Generic, TypeVar

from ..core.errors import SaltledgerError
from .compression import told

MOST_ITEMS = 32
MOST_BYTES = 1024 * 1024
"""A part is full with so many items, or lines of so many bytes."""

Mark = dict[str, Any]
"""Where a run has come to, as JSON; what stands in it is the source's affair."""

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Part(Generic[T]):
    """Items that follow one another; `first` is the number of the first, from 1."""

    first: int
    items: tuple[T, ...]
    mark: Mark
    reached: int

    def apart(self) -> list[Part[T]]:
        """The same as parts of one item each."""
        return [replace(self, first=self.first + at, items=(item,)) for at, item in enumerate(self.items)]


class OtherInput(SaltledgerError):
    """An input that is not the one whose lines were answered before."""

    def __str__(self) -> str:
        return (
            "The input is not the one of the run that was stopped: its first lines are others. Give that "
            "input, or --anew to begin again."
        )


def of_lines(
    source: IO[bytes], most_bytes: int, after: Mark | None = None, position: Any = None
) -> Iterator[Part[bytes | None]]:
    """The lines of a stream without their ends, in parts; None for one longer than `most_bytes`, whose text
    is not kept.

    after: the mark of the last part of an earlier run; what came up to there is read, held against it and
    left out. position: gives how far the stream has been read, for `reached`.
    Raises OtherInput, BrokenInput.
    """
    lines = _Lines(source, most_bytes)
    done = int(after["lines"]) if after else 0
    for _ in range(done):
        if lines.next() is _END:
            raise OtherInput
    if after and lines.sha256 != after["sha256"]:
        raise OtherInput
    reached = position or (lambda: 0)
    items: list[bytes | None] = []
    held, first = 0, done + 1
    while (line := lines.next()) is not _END:
        items.append(line)
        held += len(line or b"")
        if len(items) == MOST_ITEMS or held >= MOST_BYTES:
            yield Part(first, tuple(items), lines.mark(first + len(items) - 1), reached())
            first, items, held = first + len(items), [], 0
    if items:
        yield Part(first, tuple(items), lines.mark(first + len(items) - 1), reached())


_END: Any = object()


class _Lines:
    """Lines one by one, with a hash over all that was read."""

    def __init__(self, source: IO[bytes], most_bytes: int) -> None:
        self._source, self._most_bytes, self._digest = source, most_bytes, hashlib.sha256()

    def next(self) -> bytes | None:
        """The next line, None where it is too long, _END where there is none."""
        line = self._read(self._most_bytes + 1)
        if not line:
            found: bytes | None = _END
            return found
        if line.endswith(b"\n") or len(line) <= self._most_bytes:
            return line.rstrip(b"\r\n")
        while (rest := self._read(self._most_bytes)) and not rest.endswith(b"\n"):
            pass
        return None

    def _read(self, most: int) -> bytes:
        with told():
            line = self._source.readline(most)
        self._digest.update(line)
        return line

    @property
    def sha256(self) -> str:
        return self._digest.hexdigest()

    def mark(self, lines: int) -> Mark:
        return {"lines": lines, "sha256": self.sha256}


def of_items(items: Iterable[T], marks: Any, first: int = 1) -> Iterator[Part[T]]:
    """Items in parts. marks: from the items of a part and the number of the last to its mark."""
    held: list[T] = []
    for item in items:
        held.append(item)
        if len(held) == MOST_ITEMS:
            yield _of(held, marks, first)
            first, held = first + len(held), []
    if held:
        yield _of(held, marks, first)


def _of(held: Sequence[T], marks: Any, first: int) -> Part[T]:
    last = first + len(held) - 1
    return Part(first, tuple(held), marks(held[-1], last), last)
