"""The figures of all worker processes: files that belong to the master alone.

Each worker is given a place, a file of every kind, and its successor goes on where it stopped; so there are
never more files than places. All are made at full size at the start: a process that writes into a mapped file
for which the disk has no room is killed.
"""

from __future__ import annotations

import logging
import os
import shutil
import tempfile
from pathlib import Path
from typing import Any

KINDS = ("counter", "histogram")
FOLDER = "PROMETHEUS_MULTIPROC_DIR"
FILE_BYTES = 512 * 1024
"""Of one file: some ten times what the figures of all routes need."""

log = logging.getLogger("saltledger")


class Figures:
    """The files, as the master keeps them. Made before the metrics are imported; those find them by it."""

    def __init__(self, places: int) -> None:
        """Raises OSError: there is no room for the files; nothing is left behind then."""
        self._folder = Path(tempfile.mkdtemp(prefix="saltledger-metrics-"))
        self._owner = os.getpid()
        self._free = list(range(places))
        self._place: int | str = "master"
        self._before: Any = None
        try:
            for kind in KINDS:
                for place in range(places):
                    _make(self._folder / f"{kind}_{place}.db")
        except OSError:
            self.remove()
            raise
        self._show_to_metrics()

    def reserve(self, worker: Any) -> None:
        """Before a fork: choose the place of the worker. One too many goes without, and counts nothing."""
        worker.place = self._free.pop(0) if self._free else None

    def settle(self, worker: Any) -> None:
        """In the worker: write at its place from now on."""
        self._place = "" if worker.place is None else worker.place

    def release(self, worker: Any) -> None:
        """In the master: give the place of a worker that ended to its successor."""
        if worker.place is not None:
            self._free.insert(0, worker.place)

    def remove(self) -> None:
        """Remove the files; nothing happens in a worker, whose end is not the end of the service."""
        if os.getpid() != self._owner:
            return
        shutil.rmtree(self._folder, ignore_errors=True)
        if self._before is not None:
            from prometheus_client import values

            os.environ.pop(FOLDER, None)
            values.ValueClass = self._before

    def _where(self) -> int | str:
        if self._place == "":
            raise OSError("there is no place left for the figures of this worker")
        return self._place

    def _show_to_metrics(self) -> None:
        # The client looks for the folder when it collects, and for this class when a figure is made.
        from prometheus_client import values

        self._before = values.ValueClass
        os.environ[FOLDER] = str(self._folder)
        values.ValueClass = values.MultiProcessValue(self._where)  # type: ignore[no-untyped-call]


def figures_of(workers: int) -> Figures | None:
    """Places for workers, and for those still busy when their successors start; None without room."""
    try:
        return Figures(4 * workers)
    except OSError as fault:
        log.warning("no room for figures of all workers together (%s); each gives its own", fault.strerror)
        return None


def _make(file: Path) -> None:
    with file.open("wb") as out:
        os.posix_fallocate(out.fileno(), 0, FILE_BYTES)
