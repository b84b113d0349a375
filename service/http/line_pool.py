"""The processes over which the lines of long requests are spread, and when they may be."""

from __future__ import annotations

from flask import Flask, current_app

from ..batch.standing_pool import StandingPool
from ..config import Settings
from ..core.assumptions import rows_in_force
from ..jobs.rounds import Rounds

EXTENSION = "saltledger-line-pool"
UNUSED_SECONDS = 60.0
LOOK_EVERY_SECONDS = 15.0


class LinePool(StandingPool):
    """A pool with a thread that lets its processes go when nobody has needed them for a while."""

    def __init__(self, count: int) -> None:
        super().__init__(count, [f"{__package__}.warm_process"])
        self.rounds = Rounds("Batch processes", lambda: self.let_go(UNUSED_SECONDS), LOOK_EVERY_SECONDS)


def register(app: Flask) -> None:
    """Give the app its pool; no process is started before it is needed."""
    settings: Settings = app.extensions["saltledger"]
    app.extensions[EXTENSION] = LinePool(settings.batch_processes)


def pool() -> LinePool | None:
    """The pool where the answers to the current request rest on the bundle alone: neither kept foods of the
    second source nor a kitchen's own figures are at hand in other processes. None elsewhere."""
    settings: Settings = current_app.extensions["saltledger"]
    if settings.batch_processes == 1 or settings.remote_foods != "off" or rows_in_force() is not None:
        return None
    found: LinePool = current_app.extensions[EXTENSION]
    found.rounds.begin()
    return found
