"""A table with one cell that it may not have: whoever reads it says which row."""

from __future__ import annotations

import gc
from collections.abc import Callable
from functools import _lru_cache_wrapper
from typing import Any

import pytest
from saltledger.core import tables
from saltledger.core.errors import BrokenTable

_KEPT = {"rows", "bundled"}


def _forget() -> None:
    for each in gc.get_objects():
        is_ours = isinstance(each, _lru_cache_wrapper) and (each.__module__ or "").startswith("saltledger")
        if is_ours and each.__name__ not in _KEPT:
            each.cache_clear()


def refuses(monkeypatch: pytest.MonkeyPatch, table: str, read: Callable[[], Any], **cells: str) -> None:
    """Assert that `read` names the table where its first row has these cells."""
    first, *others = tables.rows(table)
    broken = ({**first, **cells}, *others)
    real = tables.rows
    monkeypatch.setattr(tables, "rows", lambda name: broken if name == table else real(name))
    _forget()
    try:
        with pytest.raises(BrokenTable, match=rf"{table}\.csv.*1"):
            read()
    finally:
        monkeypatch.undo()
        _forget()
