"""The store of a running app: opened once, when it is first needed, and what its errors come to over HTTP."""

from __future__ import annotations

import os
import time
from collections.abc import Callable, Hashable
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING, Any, TypeVar

from flask import Flask, Response, current_app

from .. import store as kept
from ..config import Settings, default_file, default_url
from ..core.errors import StoreUnavailable
from ..jobs.workbenches import make_workbench
from ..store.expectations import PreconditionFailed, PreconditionRequired
from . import known_foods
from .problems import problem_of, respond

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from ..store.database import Database
    from ..store.saving import Workbench


T = TypeVar("T")

REMEMBERED = 1000
"""How much of what was read of a store is remembered until it changes."""


class Store:
    """The database of an app. Not opened before it is needed: a service that only calculates needs none."""

    def __init__(self, url: str) -> None:
        self._file = None if url else default_file()
        self.url = url or default_url()
        self._lock = Lock()
        self._database: Database | None = None
        self._away_until = 0.0
        self._read: dict[Hashable, tuple[int, Any]] = {}

    @property
    def database(self) -> Database:
        """The open database. Raises StoreUnavailable."""
        with self._lock:
            if self._database is None:
                self._open()
            assert self._database is not None
            return self._database

    def _open(self) -> None:
        if time.monotonic() < self._away_until:
            raise StoreUnavailable("it could not be opened a moment ago")
        try:
            self._database = kept.database.Database(self.url)
        except StoreUnavailable:
            self._away_until = time.monotonic() + kept.database.AWAY_SECONDS
            raise

    @property
    def exists(self) -> bool:
        """Whether there is something to open; asking does not make a file."""
        if self._database is not None:
            return True
        if self._file is not None:
            return self._file.exists()
        url = kept.database.parsed(self.url)
        return url.get_backend_name() != "sqlite" or Path(url.database or "").exists()

    def as_it_stands(self, what: Hashable, ask: Callable[[Connection], T]) -> T:
        """What `ask` reads, under a name of its own: read again as soon as anybody has changed the store, or
        each time where the store cannot tell. Raises StoreUnavailable."""
        database = self.database
        now, known = database.changes(), self._read.get(what)
        if known is not None and known[0] == now:
            found: T = known[1]
            return found
        with database.read() as connection:
            found = ask(connection)
        if now is not None:
            if len(self._read) >= REMEMBERED:
                self._read.clear()
            self._read[what] = now, found
        return found

    def check(self) -> None:
        """Make sure that what is saved could be kept. Raises StoreUnavailable."""
        if self._file is None or self.exists:
            self.database.check()
        elif not os.access(_nearest(self._file.parent), os.W_OK):
            raise StoreUnavailable("its folder cannot be written in")

    def close(self) -> None:
        """Let go of its connections; it opens again when it is needed."""
        with self._lock:
            if self._database is not None:
                self._database.close()
                self._database = None
                self._read.clear()


def _nearest(folder: Path) -> Path:
    """The folder, or the first above it that is there."""
    return next(each for each in (folder, *folder.parents) if each.exists())


def store() -> Store:
    """The store of the current app."""
    found: Store = current_app.extensions["saltledger-store"]
    return found


def workbench() -> Workbench:
    """Saving and reviewing in the store of the current app. Raises StoreUnavailable."""
    settings: Settings = current_app.extensions["saltledger"]
    return make_workbench(store().database, known_foods.foods(), asking=settings.remote_foods == "ask")


def register(app: Flask) -> None:
    """Give the app its store, and answers to the errors of saving."""
    settings: Settings = app.extensions["saltledger"]
    app.extensions["saltledger-store"] = Store(settings.database_url)
    app.register_error_handler(StoreUnavailable, _unavailable)
    app.register_error_handler(PreconditionFailed, _failed)
    app.register_error_handler(PreconditionRequired, lambda error: respond(problem_of(error)))


def _unavailable(error: StoreUnavailable) -> Response:
    response = respond(problem_of(error))
    response.headers["Retry-After"] = "2"
    return response


def _failed(error: PreconditionFailed) -> Response:
    response = respond(problem_of(error))
    if error.current is not None:
        response.set_etag(error.current.etag)
    return response
