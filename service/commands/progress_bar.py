"""How far a long run has come, on standard error: a bar on a terminal, a line now and then in a log."""

from __future__ import annotations

import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager

import click

from ..batch.resuming import Tally
from ..batch.running import Told

LOG_SECONDS = 30.0
DRAW_SECONDS = 0.2


@contextmanager
def progress(total: int | None, begun: Tally, *, shown: bool | None = None) -> Iterator[Told]:
    """What is to be told of a run as it goes on.

    total: what it reaches at its end, None where nobody knows. begun: what an earlier run had answered.
    shown: whether a bar is drawn; None: where standard error is a terminal.
    """
    if shown is None:
        shown = sys.stderr.isatty()
    with _bar(total, begun) if shown else _lines(total, begun) as told:
        yield told


class Pace:
    """Items a second, and the seconds that are left, from what is told of a run."""

    def __init__(self, total: int | None, begun: Tally) -> None:
        self._total, self._begun, self._at = total, begun, time.monotonic()
        self._first: int | None = None

    def rate(self, tally: Tally) -> float:
        return (tally.items - self._begun.items) / max(time.monotonic() - self._at, 1e-9)

    def left_s(self, reached: int) -> float | None:
        """None where nobody can tell."""
        if self._total is None:
            return None
        if self._first is None:  # the first part comes with what was read ahead of it
            self._first, self._at_first = reached, time.monotonic()
            return None
        done = reached - self._first
        taken = time.monotonic() - self._at_first
        return taken * max(self._total - reached, 0) / done if done > 0 else None


@contextmanager
def _bar(total: int | None, begun: Tally) -> Iterator[Told]:
    from rich.console import Console
    from rich.progress import BarColumn, Progress, TextColumn

    pace = Pace(total, begun)
    words = TextColumn("{task.fields[words]}")
    # It is drawn by hand: a thread that draws could be holding a lock while worker processes are forked.
    bar = Progress(
        BarColumn(),
        words,
        console=Console(stderr=True, force_terminal=True),
        auto_refresh=False,
        transient=True,
    )
    task = bar.add_task("", total=total, words="")
    drawn = 0.0

    def told(tally: Tally, reached: int) -> None:
        nonlocal drawn
        if time.monotonic() - drawn < DRAW_SECONDS:
            return
        bar.update(task, completed=reached, words=_words(tally, pace, reached), refresh=True)
        drawn = time.monotonic()

    with bar:
        yield told


@contextmanager
def _lines(total: int | None, begun: Tally) -> Iterator[Told]:
    pace, said = Pace(total, begun), time.monotonic()

    def told(tally: Tally, reached: int) -> None:
        nonlocal said
        words = _words(tally, pace, reached)
        if time.monotonic() - said >= LOG_SECONDS:
            click.echo(words, err=True)
            said = time.monotonic()

    yield told


def _words(tally: Tally, pace: Pace, reached: int) -> str:
    left = pace.left_s(reached)
    parts = [f"{tally.items:,} recipes", f"{pace.rate(tally):,.0f} a second"]
    if tally.problems:
        parts.append(f"{tally.problems:,} with problems")
    if left is not None:
        parts.append(f"{duration(left)} left")
    return ", ".join(parts)


def duration(seconds: float) -> str:
    """A time in words, to two places: "40 s", "3 min 20 s", "2 h 5 min"."""
    whole = round(seconds)
    if whole < 60:
        return f"{whole} s"
    if whole < 3600:
        return f"{whole // 60} min {whole % 60} s"
    return f"{whole // 3600} h {whole % 3600 // 60} min"
