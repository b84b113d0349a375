"""The state of the kitchen while a recipe is cooked: what is where, and every movement between places.

A pool holds amounts, shape (len(NUTRIENTS) + 1, DRAWS + 1): one row a nutrient in its own unit, the last
row the weight in g; one column a draw, column 0 the likely case. Things are moved, never made: once
brought in, amounts only go from pool to pool, so what came in is at every moment all there, in every column.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..foods.extra import SODIUM_IN_NACL
from ..foods.nutrients import INDEX, NUTRIENTS
from ..units.spread import DRAWS, Draws

Amounts = NDArray[np.float64]
Rows = NDArray[np.intp]

WEIGHT = len(NUTRIENTS)
WATER, SODIUM = INDEX["WATER"], INDEX["NA"]
TRACE = 1e-12
"""Less than this, in any unit, is nothing: what floating point leaves when a place is emptied."""

SALT_PER_SODIUM = 1 / SODIUM_IN_NACL
"""g of NaCl that hold 1 g of sodium."""


@dataclass(frozen=True, slots=True, eq=False)
class Movement:
    """Sodium that went from one place to another: mg in every draw. step None: when the dish is served."""

    source: str
    target: str
    step: int | None
    sodium_mg: Draws


@dataclass(frozen=True, slots=True, eq=False)
class Passage:
    """Likely amounts of some rows that went from one place to another, out of what the source held.

    rows, amounts, held: shape (n,), amounts above 0 and at most held. source None: water from the tap.
    """

    source: str | None
    target: str
    step: int | None
    rows: Rows
    amounts: NDArray[np.float64]
    held: NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Flow:
    """Amounts of some nutrients, or of all: `values`, shape (len(rows), DRAWS + 1), by rows of a pool."""

    rows: Rows
    values: Amounts

    def __getitem__(self, row: int) -> Draws:
        """The draws of one row; KeyError where the flow has none of it."""
        at = np.flatnonzero(self.rows == row)
        if not at.size:
            raise KeyError(row)
        values: Draws = self.values[at[0]]
        return values

    def scaled(self, share: Draws | float) -> Flow:
        return Flow(self.rows, self.values * share)


def nothing() -> Amounts:
    """Amounts of nothing at all."""
    return np.zeros((WEIGHT + 1, DRAWS + 1))


class Kitchen:
    """Pools by component id or place, and the ledger of movements between them. Pools change in place.

    trail: every movement of every row in the likely case, kept only from `follow` on; None before.
    """

    def __init__(self, places: Iterable[str]) -> None:
        self.pools: dict[str, Amounts] = {place: nothing() for place in places}
        self.ledger: list[Movement] = []
        self.brought: Amounts = nothing()
        self.trail: list[Passage] | None = None

    def follow(self) -> None:
        """Keep a trail from now on, for those who ask where each amount came from."""
        self.trail = []

    def bring(self, place: str, amounts: Amounts) -> None:
        """Put ingredients into a place: the only way anything comes in."""
        self.pools[place] += amounts
        self.brought += amounts

    def pour(self, place: str, water_g: Draws) -> None:
        """Bring fresh water from the tap, in g."""
        for amounts in (self.pools[place], self.brought):
            amounts[_WATER_ROWS] += water_g
        poured = np.stack((water_g, water_g))
        self._trace(None, place, None, rows=_WATER_ROWS, moved=poured, held=poured)

    def move(self, source: str, target: str, flow: Flow, step: int | None) -> None:
        """Move amounts, at most what the source holds, and write the sodium into the ledger."""
        if not flow.values.any():
            return
        rows, held = flow.rows, self.pools[source][flow.rows]
        moved = np.minimum(np.maximum(flow.values, 0.0), held)
        self.pools[source][rows] = held - moved
        self.pools[target][rows] += moved
        self._trace(source, target, step, rows=rows, moved=moved, held=held)
        self._enter(source, target, moved[rows == SODIUM], step)

    def trade(self, place: str, other: str, flow: Flow, step: int | None) -> None:
        """Move amounts into a place from another, those below 0 the other way, at most what either holds."""
        rows, mine, theirs = flow.rows, self.pools[place][flow.rows], self.pools[other][flow.rows]
        moved = np.minimum(np.maximum(flow.values, -mine), theirs)
        self.pools[place][rows] = mine + moved
        self.pools[other][rows] = theirs - moved
        self._trace(place, other, step, rows=rows, moved=-moved, held=mine)
        self._trace(other, place, step, rows=rows, moved=moved, held=theirs)
        sodium_mg = moved[rows == SODIUM]
        self._enter(place, other, np.maximum(-sodium_mg, 0.0), step)
        self._enter(other, place, np.maximum(sodium_mg, 0.0), step)

    def move_share(self, source: str, target: str, share: Draws | float, step: int | None) -> None:
        """Move a share (0 to 1) of everything in a place."""
        moved = self.pools[source] * share
        self._trace(source, target, step, rows=_ALL_ROWS, moved=moved, held=self.pools[source])
        self.pools[source] -= moved
        self.pools[target] += moved
        self._enter(source, target, moved[SODIUM : SODIUM + 1], step)

    def move_water(self, source: str, target: str, grams: Draws, step: int | None) -> None:
        """Move pure water, at most what the source holds."""
        held = np.minimum(grams, self.pools[source][WATER])
        self.move(source, target, Flow(_WATER_ROWS, np.stack((held, held))), step)

    def _trace(
        self, source: str | None, target: str, step: int | None, *, rows: Rows, moved: Amounts, held: Amounts
    ) -> None:
        if self.trail is None:
            return
        some = moved[:, 0] > 0
        if some.any():
            self.trail.append(Passage(source, target, step, rows[some], moved[some, 0], held[some, 0]))

    def _enter(self, source: str, target: str, sodium_mg: Amounts, step: int | None) -> None:
        if sodium_mg.any():
            self.ledger.append(Movement(source, target, step, sodium_mg[0].copy()))


_WATER_ROWS = np.array([WATER, WEIGHT])
_ALL_ROWS = np.arange(WEIGHT + 1)


def salt_g(amounts: Amounts) -> Draws:
    """All sodium of a place as g of sodium chloride."""
    grams: Draws = amounts[SODIUM] * (SALT_PER_SODIUM / 1000)
    return grams


def strength_percent(amounts: Amounts) -> float:
    """Likely strength of a bath: salt in percent of its salt and water; 100 for dry salt, 0 for nothing."""
    salt, water = float(salt_g(amounts)[0]), float(amounts[WATER, 0])
    return 100 * salt / (salt + water) if salt + water > 0 else 0.0


def everything(amounts: Amounts) -> Flow:
    """A flow of every row."""
    return Flow(_ALL_ROWS, amounts)


def ratio(part: Draws, whole: Draws) -> Draws:
    """part / whole, 0 where there is no whole, or only a trace of it."""
    return np.divide(part, whole, out=np.zeros_like(part), where=whole > TRACE)
