"""Working every saved recipe out again in any number of processes, ingredients of others first.

Where a recipe moved, the process that worked it out keeps its version with its event; nothing else is
written. Once it is kept it moves no more, so that a run that is gone on with gives no event twice. How far
the run has come stands in the store.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ..batch.answers import LOST, OtherData
from ..batch.parts import Mark, Part, of_items
from . import own_process
from .batch_runs import keys

if TYPE_CHECKING:
    from ..batch.executors import Executor
    from ..store.saving import Recalculated

NAME = "recalculation"
NOTE_SECONDS = 2.0


@dataclass(frozen=True, slots=True)
class Found:
    """What came of a part, and how to go on after it."""

    results: tuple[Recalculated, ...]
    mark: Mark


@dataclass(frozen=True, slots=True)
class Recalculate:
    """Works out the recipes of parts again, as `executors.Work`. share, keep: as `Workbench.recalculate`."""

    share: float
    keep: bool
    rests_on: str

    def __call__(self, part: Part[str]) -> Found:
        """Raises OtherData, StoreUnavailable."""
        if own_process.rests_on_store() != self.rests_on:
            raise OtherData
        return Found(tuple(map(self._again, part.items)), part.mark)

    def _again(self, key: str) -> Recalculated:
        with own_process.own_figures_of(key):
            return own_process.workbench().recalculate(key, self.share, keep=self.keep)

    def apart(self, part: Part[str]) -> list[Part[str]]:
        return part.apart()

    def joined(self, results: Sequence[Found]) -> Found:
        return Found(tuple(each for found in results for each in found.results), results[-1].mark)

    def lost(self, part: Part[str]) -> Found:
        from ..store.saving import Recalculated

        return Found((Recalculated(part.items[0], 0.0, None, False, LOST),), part.mark)


@dataclass
class Recalculation:
    """One run. share: see `Workbench.recalculate`; keep: whether what moved is kept, and the run noted.

    done: how many recipes an earlier run that was stopped had worked out; total: how many there are.
    """

    share: float
    keep: bool
    anew: bool = False

    def __post_init__(self) -> None:
        """Raises StoreUnavailable."""
        from ..store import listing, long_runs, recipe_uses

        self._rests_on = own_process.rests_on_store()
        self._about = {"share": self.share, "rests_on": self._rests_on}
        with own_process.database().read() as connection:
            self.total = listing.count(connection, archived=True)
            self._levels = recipe_uses.levels(connection)
            gone_on = self.keep and not self.anew
            self._mark = long_runs.mark_of(connection, NAME, self._about) if gone_on else None
        self.done = int(self._mark["count"]) if self._mark else 0

    def run(self, executor: Executor[Part[str], Found]) -> Iterator[Recalculated]:
        """Every recipe that is left, as it was worked out again."""
        work, due = Recalculate(self.share, self.keep, self._rests_on), time.monotonic() + NOTE_SECONDS
        mark = self._mark
        try:
            for parts in self._stages():
                for found in executor(work, parts):
                    yield from found.results
                    mark = found.mark
                    if time.monotonic() > due:
                        self._note(mark)
                        due = time.monotonic() + NOTE_SECONDS
        except BaseException:
            self._note(mark)
            raise
        self._end()

    def _stages(self) -> Iterator[Iterator[Part[str]]]:
        """The recipes made of no other; then, level by level, those whose ingredients stood before them."""
        level, after, count = 0, "", self.done
        if self._mark:
            level, after = int(self._mark["level"]), str(self._mark["key"])
        if level == 0:
            rest = keys(own_process.database(), after, archived=True, alone=True)
            yield of_items(rest, self._marks(0), count + 1)
            after = ""
        for number, found in enumerate(self._levels, 1):
            if number < level:
                continue
            left = [key for key in found if number > level or key > after]
            before = sum(map(len, self._levels[number:])) + len(left)
            yield of_items(left, self._marks(number), self.total - before + 1)

    @staticmethod
    def _marks(level: int) -> Callable[[str, int], Mark]:
        return lambda key, count: {"level": level, "key": key, "count": count}

    def _note(self, mark: Mark | None) -> None:
        from ..store import long_runs

        if self.keep and mark is not None:
            with own_process.database().write() as connection:
                long_runs.note(connection, NAME, self._about, mark)

    def _end(self) -> None:
        from ..store import long_runs

        if self.keep:
            with own_process.database().write() as connection:
                long_runs.end(connection, NAME)
