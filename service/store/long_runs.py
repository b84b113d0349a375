"""How far runs over all recipes have come, so that one that was stopped can be gone on with."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from sqlalchemy import Connection, delete, insert, select

from .schema import long_runs, now

Mark = Mapping[str, Any]


def mark_of(connection: Connection, name: str, about: Mark) -> dict[str, Any] | None:
    """Where a run that was stopped has come to; None where none was, or it was about something else."""
    query = select(long_runs.c.about, long_runs.c.mark).where(long_runs.c.name == name)
    row = connection.execute(query).first()
    return dict(row.mark) if row is not None and row.about == about else None


def note(connection: Connection, name: str, about: Mark, mark: Mark) -> None:
    """Say where a run has come to."""
    end(connection, name)
    values = {"name": name, "about": dict(about), "mark": dict(mark), "changed_at": now()}
    connection.execute(insert(long_runs).values(values))


def end(connection: Connection, name: str) -> None:
    """Say that a run has come to its end."""
    connection.execute(delete(long_runs).where(long_runs.c.name == name))
