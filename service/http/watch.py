"""When the work of a request ends early: a deadline, the processor's time, or a caller who has gone.

Whatever asks for far too much is refused before it begins (`recipe.work_budget`); this is for what takes
longer than it looks.
"""

from __future__ import annotations

import select
import time
from collections.abc import Iterable
from typing import Any

from flask import current_app, request

from ..config import Settings
from ..core.checkpoint import CallerGone, WorkStopped
from ..core.numbers import shown
from ..recipe import work_budget
from ..recipe.work_budget import Cost

LOOK_EVERY_SECONDS = 0.25
"""How often it is looked whether the caller is still there: no short request ever looks."""

_GONE = select.POLLRDHUP | select.POLLHUP | select.POLLERR | select.POLLNVAL


class TookTooLong(WorkStopped):
    """Work over its time. by: the clock or the processor; seconds: what it was allowed."""

    def __init__(self, seconds: float, by: str) -> None:
        self.seconds, self.by = seconds, by
        super().__init__(
            f"The calculation was stopped after {shown(seconds)} s by {by}, and nothing was kept. Send it "
            "again when the service is less busy, or ask for less at once: fewer steps, water changes or "
            "foods, or one recipe a request."
        )


class RequestWatch:
    """Watches the work of one request, from now on."""

    def __init__(self, settings: Settings, socket: Any = None) -> None:
        self._settings, self._socket = settings, socket
        now = time.monotonic()
        self._end, self._look = now + settings.deadline_seconds, now + LOOK_EVERY_SECONDS
        # From the first checkpoint on: opening a store is not the caller's.
        self._began: tuple[float, float] | None = None

    def __call__(self) -> None:
        """Raises TookTooLong or CallerGone."""
        now = time.monotonic()
        if now > self._end:
            raise TookTooLong(self._settings.deadline_seconds, "the clock")
        if self._began is None:
            self._began = now, time.thread_time()
        began, worked = self._began
        # The processor's time is asked for, which costs something, once the clock has gone so far.
        most = self._settings.cpu_seconds
        if now - began > most and time.thread_time() - worked > most:
            raise TookTooLong(most, "the processor's time")
        if now > self._look:
            self._look = now + LOOK_EVERY_SECONDS
            if self._socket is not None and has_gone(self._socket):
                raise CallerGone


def has_gone(socket: Any) -> bool:
    """Whether the other end of a connected socket has closed it, or its sending side."""
    try:
        poll = select.poll()
        poll.register(socket, _GONE)
        return bool(poll.poll(0))
    except (OSError, ValueError):
        return True


def watch_of_request() -> RequestWatch:
    """A watch over the request that is being answered."""
    return RequestWatch(current_app.extensions["saltledger"], request.environ.get("gunicorn.socket"))


def allow(costs: Iterable[Cost]) -> None:
    """Raises InvalidRequest where a request costs more than the settings let it; see `work_budget`."""
    settings: Settings = current_app.extensions["saltledger"]
    work_budget.allow(costs, settings.work_ms)
