"""A run over many recipes: parts read, answered in order, and written where a stopped run can go on."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import IO, Generic, Protocol, TypeVar

from .answers import Answered
from .executors import Executor, Work
from .parts import Mark, Part
from .resuming import ResumableFile, Tally

T = TypeVar("T")
R = TypeVar("R")

Told = Callable[[Tally, int], None]
"""Called with what was answered so far and how far the input has been read."""


class Sink(Protocol):
    """Where answers go."""

    mark: Mark | None
    tally: Tally

    def write(self, body: bytes, tally: Tally, mark: Mark) -> None:
        """Write the answers of a part."""


class Stream:
    """A stream that answers go to as they come, as to a pipe; nobody can go on with it."""

    mark: Mark | None = None

    def __init__(self, out: IO[bytes]) -> None:
        self._out, self.tally = out, Tally()

    def write(self, body: bytes, tally: Tally, mark: Mark) -> None:
        self._out.write(body)
        self._out.flush()


@dataclass(frozen=True)
class Plan(Generic[T, R]):
    """What a run does. parts: after a mark of an earlier run; total: what `reached` comes to at the end, None
    where nobody knows; about: what an earlier run must have had in common to be gone on with, by its name in
    words; finish: what is still to be done here with each result."""

    parts: Callable[[Mark | None], Iterator[Part[T]]]
    work: Work[Part[T], R]
    finish: Callable[[R], Answered]
    about: Mapping[str, str]
    total: int | None = None

    def run(self, executor: Executor[Part[T], R], sink: Sink, told: Told) -> Tally:
        """Answer all parts into the sink; gives what was answered, by an earlier run too."""
        tally = sink.tally
        for result in executor(self.work, self.parts(sink.mark)):
            answered = self.finish(result)
            tally = tally.plus(answered.items, answered.problems)
            sink.write(answered.body, tally, answered.mark)
            told(tally, answered.reached)
        return tally


@contextmanager
def written(target: Path, about: Mapping[str, str], *, anew: bool) -> Iterator[ResumableFile]:
    """A file that takes its name when the block ends well, and is left to be gone on with otherwise.

    Raises OtherRun, UnderWay, OSError.
    """
    file = ResumableFile(target, about, anew=anew)
    try:
        yield file
        file.finish()
    except BaseException:
        file.leave()
        raise
