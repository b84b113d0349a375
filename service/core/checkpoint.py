"""Stopping long work halfway: the work asks between its parts, and whoever started it says when it is to end.

The domain modules call `checkpoint` and know nothing of clocks or callers; what is watched for (a deadline, a
caller who has gone) is the edge's business. Where nobody watches, nothing is stopped.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar

from .errors import SaltledgerError

Watch = Callable[[], None]
"""Called between the parts of long work; raises WorkStopped where it is to end."""

_watch: ContextVar[Watch | None] = ContextVar("watch", default=None)


class WorkStopped(SaltledgerError):
    """Work that was ended before it was done; the reason says why, and what to do."""

    def __init__(self, reason: str) -> None:
        self.reason = reason
        super().__init__(reason)

    def __str__(self) -> str:
        return self.reason


class CallerGone(WorkStopped):
    """Nobody waits for the answer any more."""

    def __init__(self) -> None:
        super().__init__("The caller has gone; the work was stopped.")


def checkpoint() -> None:
    """Go on, unless whoever watches has had enough. Raises WorkStopped."""
    watch = _watch.get()
    if watch is not None:
        watch()


@contextmanager
def watched(watch: Watch) -> Iterator[None]:
    """Let `watch` be asked at every checkpoint inside."""
    before = _watch.get()
    _watch.set(watch)
    try:
        yield
    finally:
        _watch.set(before)
