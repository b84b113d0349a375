"""The store of a running app: opened once, when it is first needed, and what its errors come to over HTTP."""

from __future__ import annotations

from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING

from flask import Flask, Response, current_app

from .. import store as kept
from ..config import Settings
from ..errors import StoreUnavailable
from ..store.conditions import PreconditionFailed, PreconditionRequired
from ..store.location import default_file, default_url
from ..tables import tables_sha256
from .calculations import answer_recipe
from .problems import problem, respond

if TYPE_CHECKING:
    from ..store.database import Database
    from ..store.saving import Workbench


class Store:
    """The database of an app. Not opened before it is needed: a service that only calculates needs none."""

    def __init__(self, url: str) -> None:
        self._file = None if url else default_file()
        self.url = url or default_url()
        self._lock = Lock()
        self._database: Database | None = None

    @property
    def database(self) -> Database:
        """The open database. Raises StoreUnavailable."""
        with self._lock:
            if self._database is None:
                self._database = kept.database.Database(self.url)
            return self._database

    @property
    def exists(self) -> bool:
        """Whether there is something to open; asking does not make a file."""
        if self._file is not None:
            return self._file.exists()
        url = kept.database.parsed(self.url)
        return url.get_backend_name() != "sqlite" or Path(url.database or "").exists()

    def close(self) -> None:
        """Let go of its connections; it opens again when it is needed."""
        with self._lock:
            if self._database is not None:
                self._database.close()
                self._database = None


def store() -> Store:
    """The store of the current app."""
    found: Store = current_app.extensions["saltledger-store"]
    return found


def workbench() -> Workbench:
    """Saving and reviewing in the store of the current app. Raises StoreUnavailable."""
    return make_workbench(store().database)


def make_workbench(database: Database) -> Workbench:
    """Saving and reviewing in `database`, with the service's own calculation."""
    return kept.saving.Workbench(database, answer_recipe, tables_sha256())


def register(app: Flask) -> None:
    """Give the app its store, and answers to the errors of saving."""
    settings: Settings = app.extensions["saltledger"]
    app.extensions["saltledger-store"] = Store(settings.database_url)
    app.register_error_handler(StoreUnavailable, _unavailable)
    app.register_error_handler(PreconditionFailed, _failed)
    app.register_error_handler(PreconditionRequired, _required)


def _unavailable(error: StoreUnavailable) -> Response:
    response = respond(problem(503, str(error)))
    response.headers["Retry-After"] = "2"
    return response


def _failed(error: PreconditionFailed) -> Response:
    response = respond(problem(412, str(error)))
    if error.current is not None:
        response.set_etag(error.current.etag)
    return response


def _required(error: PreconditionRequired) -> Response:
    return respond(problem(428, str(error)))
