"""A file that a long run writes, and that the same run goes on with after it was stopped, by kill -9 too.

What is written goes to FILE.part. Beside it FILE.progress says how far it is good: a line of JSON for each
time that both were brought to disk. Going on cuts FILE.part off at the last such line, so that every item is
answered once. When all is there FILE.part takes its name, and FILE.progress goes.
"""

from __future__ import annotations

import fcntl
import json
import os
import time
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import IO, Any

from ..core.errors import SaltledgerError
from .parts import Mark

KEEP_SECONDS = 1.0
"""How often what is written is brought to disk: what a run that is stopped has to do again."""


class OtherRun(SaltledgerError):
    """Progress that belongs to another run than the one that is asked for."""

    def __init__(self, progress: Path, differs: list[str]) -> None:
        self.progress, self.differs = progress, differs
        super().__init__(str(progress), differs)

    def __str__(self) -> str:
        return (
            f"{self.progress} is of a run that was stopped and had another {' and '.join(self.differs)}. "
            "Run it as it was to go on with it, or give --anew to begin again."
        )


class UnderWay(SaltledgerError):
    """Progress of a run that is still going on."""

    def __init__(self, progress: Path) -> None:
        self.progress = progress
        super().__init__(str(progress))

    def __str__(self) -> str:
        return f"Another run is writing this file; {self.progress} is in its hands. Wait for its end."


@dataclass(frozen=True, slots=True)
class Tally:
    """How many items were answered so far, and how many of them by a problem."""

    items: int = 0
    problems: int = 0

    def plus(self, items: int, problems: int) -> Tally:
        return Tally(self.items + items, self.problems + problems)


class ResumableFile:
    """Opened for one run; `mark` and `tally` say where an earlier one has come to, if one was stopped."""

    def __init__(self, target: Path, about: Mapping[str, str], *, anew: bool = False) -> None:
        """about: what a run must have in common with the one that it goes on with, by its name in words.

        Raises OtherRun, UnderWay, OSError.
        """
        self._target = target
        self._part = target.with_name(f"{target.name}.part")
        self._progress_path = target.with_name(f"{target.name}.progress")
        self._progress = _locked(self._progress_path)
        lines = [] if anew else _whole_lines(self._progress)
        self.mark: Mark | None = None
        self.tally, size = Tally(), 0
        if lines:
            begun = lines[0]["about"]
            if differs := [name for name in about if begun.get(name) != about[name]]:
                self._progress.close()
                raise OtherRun(self._progress_path, differs)
            size = self._take_up(lines[1:])
        self._out = self._opened(size)
        if not lines or size == 0:
            self.mark, self.tally = None, Tally()
            self._progress.seek(0)
            self._progress.truncate()
            self._note({"about": dict(about)})
        self._kept: tuple[Mark | None, Tally] = (self.mark, self.tally)
        self._due = time.monotonic() + KEEP_SECONDS

    def _take_up(self, notes: list[dict[str, Any]]) -> int:
        """Go on at the last note that FILE.part still bears out; gives how much of that is good."""
        there = self._part.stat().st_size if self._part.exists() else 0
        good = [each for each in notes if each["size"] <= there]
        if not good:
            return 0
        self.mark = good[-1]["mark"]
        self.tally = Tally(good[-1]["items"], good[-1]["problems"])
        return int(good[-1]["size"])

    def _opened(self, size: int) -> IO[bytes]:
        out = self._part.open("r+b" if size else "wb")
        out.truncate(size)
        out.seek(size)
        return out

    def write(self, body: bytes, tally: Tally, mark: Mark) -> None:
        """Write the answers of a part. tally: with it; mark: how to go on after it."""
        self._out.write(body)
        self._kept = (mark, tally)
        if time.monotonic() >= self._due:
            self.keep()
            self._due = time.monotonic() + KEEP_SECONDS

    def keep(self) -> None:
        """Bring what is written to disk, and then say how far it is good."""
        mark, tally = self._kept
        self._out.flush()
        os.fsync(self._out.fileno())
        if mark is not None:
            self._note({"size": self._out.tell(), "mark": mark, **asdict(tally)})

    def finish(self) -> None:
        """Let the file take its name: it is whole."""
        self.keep()
        self._out.close()
        os.replace(self._part, self._target)
        self._progress_path.unlink()
        self._progress.close()

    def leave(self) -> None:
        """Leave it as it is, to be gone on with; an empty one goes."""
        with suppress(OSError, ValueError):  # a full disk, or closed: the last note that was kept holds
            self.keep()
        with suppress(OSError):
            self._out.close()
        if self._kept[0] is None:
            self._part.unlink(missing_ok=True)
            self._progress_path.unlink(missing_ok=True)
        self._progress.close()

    def _note(self, note: Mapping[str, Any]) -> None:
        self._progress.seek(0, os.SEEK_END)
        self._progress.write(json.dumps(note).encode() + b"\n")
        self._progress.flush()
        os.fsync(self._progress.fileno())


def _locked(path: Path) -> IO[bytes]:
    """A file that no other run has open. Raises UnderWay."""
    opened = path.open("a+b")
    try:
        fcntl.flock(opened, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError as fault:
        opened.close()
        raise UnderWay(path) from fault
    return opened


def _whole_lines(progress: IO[bytes]) -> list[dict[str, Any]]:
    """The notes that were written whole; what a power cut left of another is let be."""
    progress.seek(0)
    found = []
    for line in progress.read().splitlines(keepends=True):
        with suppress(ValueError):
            if line.endswith(b"\n"):
                found.append(json.loads(line))
    return found if found and "about" in found[0] else []
