"""Serving over HTTP with gunicorn: workers forked from one loaded app, each with threads.

Threads, since a worker that streams a long batch must still say that it lives.
"""

from __future__ import annotations

import ctypes
import gc
import logging
import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from gunicorn.app.base import BaseApplication
from gunicorn.glogging import Logger

from ..config import Settings, default_url
from ..core.errors import SaltledgerError, StoreUnavailable
from ..core.logs import JsonLines, configure
from ..evidence.figure_lock import differences, in_words
from ..http.proxies import is_loopback
from .worker_metrics import Figures, figures_of

if TYPE_CHECKING:
    from flask import Flask

_M_ARENA_MAX = -8
"""glibc's number for the setting, from malloc.h."""


class ServerLog(Logger):  # type: ignore[misc]
    """gunicorn's own words, in the form of our log; requests are logged by the app."""

    def setup(self, cfg: Any) -> None:
        super().setup(cfg)
        for handler in self.error_log.handlers:
            handler.setFormatter(JsonLines())


class OpenDoor(SaltledgerError):
    """A wish to listen beyond this machine that nobody put into words."""

    def __init__(self, host: str) -> None:
        self.host = host
        super().__init__(host)

    def __str__(self) -> str:
        return (
            f"{self.host} can be reached from other machines, and there are no API keys. Make one with "
            "`saltledger keys create`; or listen on 127.0.0.1; or, to serve everybody who can reach it, "
            "say so with --open-to-network-without-keys (SALTLEDGER_ACCESS=open)."
        )


def run(settings: Settings, **stated: Any) -> None:
    """Serve until told to stop. stated: settings that a command line overrules.

    Raises OpenDoor: a host beyond this machine while there are no keys; StoreUnavailable: the store cannot
    be opened.
    """
    settings = replace(settings, **stated)
    configure(settings.log_level)
    _keep_one_arena()
    with _undisturbed():
        updating = _begin_update(_url(settings))
        _tell_of_changed_figures()
        _load()
    if updating is not None:
        os.waitpid(updating, 0)
    has_keys = _prepare_store(settings)
    if settings.access == "loopback" and not has_keys and not is_loopback(settings.host):
        raise OpenDoor(settings.host)
    figures = figures_of(settings.workers)
    try:
        _Server(settings, figures).run()
    finally:
        # A worker that ends passes here too; the figures know whose they are.
        if figures is not None:
            figures.remove()


def _tell_of_changed_figures() -> None:
    """Warn where a table is not as it was accepted, as by a hand in the installed files."""
    if changed := differences():
        told = "; ".join(in_words(changed, 3))
        logging.getLogger("saltledger.figures").warning("figures that nobody accepted: %s", told)


def _url(settings: Settings) -> str:
    return settings.database_url or default_url()


def _begin_update(url: str) -> int | None:
    """Let a process of its own bring the store up to date; its id, None where there is nothing to be done.

    Alembic is needed once, and would stay in the memory of the keeper and all its workers; and meanwhile the
    keeper loads the rest. What cannot be done is told when the store is opened.
    """
    from ..store.database import Database, is_up_to_date

    if is_up_to_date(url):
        return None
    process = os.fork()
    if process == 0:
        try:
            Database(url).close()
        finally:
            os._exit(0)
    return process


def _load() -> None:
    """Load what answers requests; what else workers need of it is loaded when the app is made."""
    from .. import app, calculator

    _ = app, calculator


def _prepare_store(settings: Settings) -> bool:
    """Open the store before anybody calls, and say whether it holds API keys."""
    from ..store import keys
    from ..store.database import Database

    database = Database(_url(settings))
    try:
        with database.read() as connection:
            return keys.any_active(connection)
    finally:
        database.close()


def _rehearse(app: Flask) -> None:
    """Do what every calculation does. What is made when it is first needed (tables, statements of the store,
    what the gate reads by) is made now, once, and shared by the workers, which open connections of their own.
    """
    from ..calculator import answer_recipe
    from ..gate.reading import load
    from ..gate.recipe_schema import RecipeSchema
    from ..http import auth, kitchens
    from ..http.examples import recipe_example
    from ..http.stores import store

    answer_recipe(load(RecipeSchema(), recipe_example()))
    with app.app_context(), suppress(StoreUnavailable):
        if store().exists:
            auth.has_keys()
            kitchens.own_or_last(kitchens.OPEN)
            store().database.close()


class _Server(BaseApplication):  # type: ignore[misc]
    def __init__(self, settings: Settings, figures: Figures | None = None) -> None:
        self.settings, self.figures = settings, figures
        super().__init__()

    def load_config(self) -> None:
        from .worker import FrontWorker

        host = f"[{self.settings.host}]" if ":" in self.settings.host else self.settings.host
        for key, value in {
            "bind": f"{host}:{self.settings.port}",
            "workers": self.settings.workers,
            "threads": self.settings.threads,
            "worker_class": FrontWorker,
            "preload_app": True,
            "worker_connections": self.settings.connections,
            "sendfile": False,
            # Who sent a request on is a matter of our own settings, not of the server's.
            "forwarded_allow_ips": "",
            "logger_class": ServerLog,
            "loglevel": self.settings.log_level,
            "graceful_timeout": 20,
            "timeout": self.settings.worker_seconds,
            "control_socket_disable": True,
            **self._hooks(),
        }.items():
            if key in self.cfg.settings:
                self.cfg.set(key, value)

    def _hooks(self) -> dict[str, Any]:
        from ..http import behind

        begin = {"post_worker_init": lambda worker: behind.begin(worker.wsgi)}
        figures = self.figures
        if figures is None:
            return begin
        return {
            **begin,
            "pre_fork": lambda _master, worker: figures.reserve(worker),
            "post_fork": lambda _master, worker: figures.settle(worker),
            "child_exit": lambda _master, worker: figures.release(worker),
        }

    def load(self) -> Any:
        from ..app import create_app

        with _undisturbed():
            app = create_app(self.settings)
            _rehearse(app)
        _share_memory()
        return app


@contextmanager
def _undisturbed() -> Iterator[None]:
    """Let the collector of garbage rest while much is made that stays: a tenth of the time to start."""
    gc.disable()
    try:
        yield
    finally:
        gc.enable()


def _share_memory() -> None:
    """Let workers go on sharing what is loaded: their collectors of garbage never touch it. What loading took
    and nobody needs goes back."""
    gc.collect()
    gc.freeze()
    with suppress(AttributeError, OSError):  # another libc than glibc
        ctypes.CDLL(None).malloc_trim(0)


def _keep_one_arena() -> None:
    """Let all threads take memory from one place (glibc); each would keep what its arrays leave behind."""
    with suppress(AttributeError, OSError):
        ctypes.CDLL(None).mallopt(_M_ARENA_MAX, 1)
