"""Whether a store has changed since it was last looked at, told without reading anything of it."""

from __future__ import annotations

import sqlite3
from threading import Lock
from urllib.parse import quote


class SqliteChanges:
    """A number of a SQLite file that is another one after every change, whoever made it, in any process.

    It is told by a connection of its own, which makes none of the changes; use it in one process only.
    """

    def __init__(self, file: str) -> None:
        self._uri, self._lock = f"file:{quote(file)}?mode=ro", Lock()
        self._connection: sqlite3.Connection | None = None

    def number(self) -> int | None:
        """The number now; None where the file cannot be asked."""
        with self._lock:
            try:
                if self._connection is None:
                    self._connection = sqlite3.connect(self._uri, uri=True, check_same_thread=False)
                found: int = self._connection.execute("PRAGMA data_version").fetchone()[0]
            except sqlite3.Error:
                self._close()
                return None
            return found

    def close(self) -> None:
        with self._lock:
            self._close()

    def _close(self) -> None:
        if self._connection is not None:
            self._connection.close()
            self._connection = None
