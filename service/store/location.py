"""Where the store is if nobody says: a SQLite file in the service's or the user's state folder."""

from __future__ import annotations

import os
from pathlib import Path


def default_file() -> Path:
    """The SQLite file; it need not exist."""
    state = os.environ.get("STATE_DIRECTORY")  # as systemd gives it to a service
    return (Path(state) if state else _state_home() / "saltledger") / "saltledger.sqlite3"


def default_url() -> str:
    """The same as a database URL."""
    return f"sqlite:///{default_file()}"


def _state_home() -> Path:
    return Path(os.environ.get("XDG_STATE_HOME") or Path.home() / ".local" / "state")
