"""What reading the recipe of method_speed.yaml costs: time, and calls of functions, which no load alters."""

from __future__ import annotations

import sys
import time
from pathlib import Path
from types import FrameType
from typing import Any

import yaml
from saltledger.lines.line_reading import read_line
from saltledger.method import listed
from saltledger.method.forms import Written, written_of
from saltledger.method.method_reading import parted, read

HERE = Path(__file__).parent
MOST_CALLS = 7_000
"""Calls of Python functions in a first reading: 6,761 on 26 November 2026 (21.5 million instructions)."""


def recipe() -> Written:
    return written_of(yaml.safe_load((HERE / "method_speed.yaml").read_text(encoding="utf-8")))


def forget() -> None:
    """Drop what earlier readings left behind, so that the next one is a first."""
    read_line.cache_clear()
    listed._words.cache_clear()
    parted.cache_clear()


def milliseconds(written: Written) -> float:
    """How long a first reading takes, nothing kept from before."""
    forget()
    begin = time.perf_counter()
    read(written)
    return (time.perf_counter() - begin) * 1e3


def best_ms(times: int = 60) -> float:
    """The shortest of many first readings of the recipe of 15 lines."""
    written = recipe()
    return min(milliseconds(written) for _ in range(times))


def calls() -> int:
    """Calls of Python functions in a first reading of the recipe of 15 lines."""
    written, counted = recipe(), 0

    def count(frame: FrameType, event: str, arg: Any) -> None:
        nonlocal counted
        counted += event == "call"

    milliseconds(written)
    forget()
    sys.setprofile(count)
    try:
        read(written)
    finally:
        sys.setprofile(None)
    return counted
