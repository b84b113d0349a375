"""The centre of a piece over its time in the heat, held against the published times at each temperature."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache, cached_property

import numpy as np
from numpy.typing import NDArray

from ..core.numbers import whole
from ..core.spread import Spread
from .safety_limits import ROUNDED_C, hold, holds, tables_for

WET = frozenset({"boil", "simmer", "steam", "sous_vide"})
"""Kinds of steps whose surroundings bring the surface to their own temperature."""

_AT_ONCE = 1000.0
"""What a moment counts for at which food is safe at once, in times of what is asked."""


@dataclass(frozen=True)
class CentreCourse:
    """Minutes since the heat began, and the centre in °C at the slow, the likely and the fast end of what is
    known: together a 90 % range. is_sized: whether the caller states the size."""

    minutes: Sequence[float]
    slow_c: Sequence[float]
    likely_c: Sequence[float]
    fast_c: Sequence[float]
    is_sized: bool = False

    @property
    def most_c(self) -> Spread:
        """The warmest that the centre gets."""
        return Spread(*sorted((max(self.slow_c), max(self.likely_c), max(self.fast_c))))

    def held(self, table: str) -> Spread:
        """How many times over the centre is held as long as a table of lethality_times.csv asks: 1 is enough.

        Each moment counts by the time asked at its temperature; what is cooler than the table counts for
        nothing."""
        if table not in self._held_by:
            ends = (self._held(table, celsius) for celsius in (self.slow_c, self.likely_c, self.fast_c))
            self._held_by[table] = Spread(*sorted(ends))
        return self._held_by[table]

    @cached_property
    def _held_by(self) -> dict[str, Spread]:
        """What was found so far, by table: one course stands for all pieces of a size."""
        return {}

    def _held(self, table: str, celsius: Sequence[float]) -> float:
        pace = _paces(table, celsius)
        # By the cooler of the two ends of each stretch.
        return float(np.sum(np.minimum(pace[1:], pace[:-1]) * np.diff(self.minutes)))

    @property
    def words(self) -> str:
        """The end, as people say it."""
        # In what is cooler than the food the fast end is the coldest.
        end = Spread(*sorted((self.slow_c[-1], self.likely_c[-1], self.fast_c[-1])))
        return f"about {whole(end.likely)} °C ({whole(end.low)} to {whole(end.high)} °C)"


def _paces(table: str, celsius: Sequence[float]) -> NDArray[np.float64]:
    """At each temperature, how much of what is asked a minute there comes to."""
    from_c, paces = _pace_steps(table)
    return np.asarray(paces[np.searchsorted(from_c, np.asarray(celsius) + ROUNDED_C, side="right")])


@cache
def _pace_steps(table: str) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Temperatures of a table's rows, rising, and the pace below the first and from each of them on."""
    from_c = sorted({row.temperature_c for name in tables_for(table) for row in holds(name)})
    asked = [hold(table, celsius) for celsius in from_c]
    paces = [0.0, *(1 / each.minutes if each and each.minutes > 0 else _AT_ONCE for each in asked)]
    return np.array(from_c), np.array(paces)
