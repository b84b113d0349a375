"""What reading the recipe of method_speed.yaml costs: time, and calls of functions, which no load alters.

A first reading is one of lines and sentences that were never seen. Their words were, in other recipes, and so
was what stands behind the numbers of the lines; of a reading anew nothing at all is kept.
"""

from __future__ import annotations

import sys
import time
from pathlib import Path
from types import FrameType
from typing import Any

import yaml
from saltledger.lines import line_reading
from saltledger.lines.line_reading import read_line, read_whole
from saltledger.lines.line_templates import LineTemplates
from saltledger.method import left_to_the_cook, listed, prose_tokens, stakes
from saltledger.method.forms import Written, written_of
from saltledger.method.method_reading import parted, read

HERE = Path(__file__).parent
MOST_CALLS = 6_900
"""Calls of Python functions in a first reading: 6,850 at the end of 27 November 2026."""
MOST_CALLS_ANEW = 10_200
"""The same of a reading anew: 10,115, 2,900 of them for what its lines say."""
_KEPT = (
    read_line, parted, listed._words, listed._purpose_of, listed.equipment, left_to_the_cook.grams_roughly,
    left_to_the_cook._mass_said, left_to_the_cook._row_of, stakes.line_mg,
)  # fmt: skip


def recipe() -> Written:
    return written_of(yaml.safe_load((HERE / "method_speed.yaml").read_text(encoding="utf-8")))


def forget(*, anew: bool = False) -> None:
    """Drop what earlier readings kept of these lines and sentences, so that the next is a first; anew: and of
    their words, as in a process that has read nothing."""
    for kept in _KEPT:
        kept.cache_clear()
    if anew:
        prose_tokens.RUNS.clear()
        prose_tokens._word.cache_clear()
        line_reading._templates = LineTemplates(read_whole)


def milliseconds(written: Written, *, anew: bool = False) -> float:
    """How long a first reading takes."""
    forget(anew=anew)
    begin = time.perf_counter()
    read(written)
    return (time.perf_counter() - begin) * 1e3


def best_ms(times: int = 60, *, anew: bool = False) -> float:
    """The shortest of many first readings of the recipe of 15 lines."""
    written = recipe()
    return min(milliseconds(written, anew=anew) for _ in range(times))


def calls(*, anew: bool = False) -> int:
    """Calls of Python functions in a first reading of the recipe of 15 lines."""
    written, counted = recipe(), 0

    def count(frame: FrameType, event: str, arg: Any) -> None:
        nonlocal counted
        counted += event == "call"

    milliseconds(written)
    forget(anew=anew)
    sys.setprofile(count)
    try:
        read(written)
    finally:
        sys.setprofile(None)
    return counted
