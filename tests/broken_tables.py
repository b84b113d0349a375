"""A table with one cell that it may not have: whoever reads it says which row."""

from __future__ import annotations

import sys
from collections.abc import Callable
from functools import _lru_cache_wrapper, cache
from typing import Any

import pytest
from saltledger.core import tables
from saltledger.core.errors import BrokenTable

_KEPT = {"rows", "bundled"}
_OURS = ("saltledger", "tests")


def _remember_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let every look-up stand beside its memory, which is there again afterwards: filling takes seconds."""
    fresh: dict[Any, Any] = {}
    modules = [module for name, module in sys.modules.items() if name.partition(".")[0] in _OURS]
    for module in modules:
        for name, each in list(vars(module).items()):
            if isinstance(each, _lru_cache_wrapper) and each.__name__ not in _KEPT:
                monkeypatch.setattr(module, name, fresh.setdefault(each, cache(each.__wrapped__)))


def refuses(monkeypatch: pytest.MonkeyPatch, table: str, read: Callable[[], Any], **cells: str) -> None:
    """Assert that `read` names the table where its first row has these cells."""
    first, *others = tables.rows(table)
    broken = ({**first, **cells}, *others)
    real = tables.rows
    with monkeypatch.context() as patched:
        patched.setattr(tables, "rows", lambda name: broken if name == table else real(name))
        _remember_nothing(patched)
        with pytest.raises(BrokenTable, match=rf"{table}\.csv.*1"):
            getattr(read, "__wrapped__", read)()
