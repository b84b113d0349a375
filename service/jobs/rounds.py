"""Work that goes on behind the answers: a thread a process, begun in the process that answers."""

from __future__ import annotations

import logging
import threading
from collections.abc import Callable

from ..core.errors import SaltledgerError

log = logging.getLogger(__name__)


class Rounds:
    """Calls `work` every so many seconds, from the first `begin` on, in a thread that keeps no process alive.

    What fails in a round fails for that round alone: nobody's answer depends on it.
    """

    def __init__(self, name: str, work: Callable[[], object], every_s: float) -> None:
        self.name, self._work, self._every_s = name, work, every_s
        self._starting = threading.Lock()
        self._thread: threading.Thread | None = None
        self._stop = threading.Event()

    @property
    def begun(self) -> bool:
        """Whether the thread was started in this process."""
        return self._thread is not None

    @property
    def stopping(self) -> bool:
        """Whether a long round should come to its end."""
        return self._stop.is_set()

    def begin(self, first: Callable[[], object] | None = None) -> None:
        """Start the thread, once; `first` is done before, by the caller who comes first."""
        with self._starting:
            if self._thread is not None:
                return
            if first is not None:
                self.guarded(first)
            self._thread = threading.Thread(target=self._run, name=self.name, daemon=True)
            self._thread.start()

    def stop(self) -> None:
        """Let the thread end after what it is doing."""
        self._stop.set()

    def guarded(self, work: Callable[[], object]) -> None:
        """Do the work; what goes wrong is logged."""
        try:
            work()
        except SaltledgerError as fault:
            log.warning("%s wait: %s", self.name, fault)
        except Exception:
            log.exception("%s failed", self.name)

    def _run(self) -> None:
        while not self._stop.wait(self._every_s):
            self.guarded(self._work)
