"""The state of the kitchen while a recipe is cooked: what is where, and every movement between places.

A pool holds amounts, shape (ROWS, DRAWS + 1): rows as `rows` orders them, each in its own unit; one column a
draw, column 0 the likely case. Things are moved, never made: once brought in, amounts only go from pool to
pool, so what came in is at every moment all there, in every column.

The leading rows move at once. The others follow when somebody asks for them (`Pools.amounts`), in the same
order: whoever wants salt alone never pays for vitamins.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from copy import copy
from dataclasses import dataclass
from weakref import ref

import numpy as np
from numpy.typing import NDArray

from ..core.checkpoint import checkpoint
from ..core.spread import DRAWS, Draws
from ..foods.hand_kept import POTASSIUM_IN_KCL, SODIUM_IN_NACL
from ..nutrition.energy import general_kcal_g
from ..transfer.brine import KCL_AS_SALT
from .pool_rows import (
    ALCOHOL,
    CARBOHYDRATE,
    ENERGY,
    FAT,
    FATTY_ACIDS,
    LEAD,
    OTHERS,
    POTASSIUM,
    ROW,
    ROWS,
    SODIUM,
    SOLUTION,
    SUGAR,
    WATER,
    WEIGHT,
)

Amounts = NDArray[np.float64]
Rows = NDArray[np.intp]

MOST_WAITING = 512
"""So many movements are kept as they happened; then the other rows follow, and the ledger is added up."""

TRACE = 1e-12
"""Less than this, in any unit, is nothing: what floating point leaves when a place is emptied."""

SALT_PER_SODIUM = 1 / SODIUM_IN_NACL
"""g of NaCl that hold 1 g of sodium."""

_SALT_G_PER_MG = SALT_PER_SODIUM / 1000
_KCL_G_PER_MG = 1 / POTASSIUM_IN_KCL / 1000
_WITH_WEIGHT = slice(SUGAR, WEIGHT + 1)
_WATER_AND_WEIGHT = slice(WATER, WEIGHT + 1)
_WEIGHT_AND_FAT = slice(WEIGHT, FAT + 1)
_LEADERS = slice(0, LEAD)
_ENERGY = slice(ENERGY, ENERGY + 1)
_PROTEIN, _FIBRE = ROW["PROCNT"], ROW["FIBTG"]
_MOST_LENT = 1.5
"""Energy that leaves with a macronutrient is at most this over its general factor: nearly all of vinegar is
of acids, which stay."""
AcidsOf = Callable[[], Amounts]
"""Gives the share of each fatty acid that goes."""
_ALL = np.arange(ROWS)


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


def nothing() -> Amounts:
    """Amounts of nothing at all."""
    return np.zeros((ROWS, DRAWS + 1))


class Pools:
    """Pools by component id or place, and the ledger of movements between them. Pools change in place.

    leading: the leading rows of every pool, shape (LEAD, DRAWS + 1), always as they stand now.
    likely_moves: of every movement, in order: from, to, likely mg of sodium and g of sugar; below 0 the other
    way.
    """

    def __init__(self, places: Iterable[str]) -> None:
        self._pools: dict[str, Amounts] = {place: nothing() for place in places}
        self.leading: dict[str, Amounts] = {place: pool[:LEAD] for place, pool in self._pools.items()}
        for held in self.leading.values():
            held.fill(0.0)  # zeros are made when first touched, which costs more in the middle of a movement
        self.brought: Amounts = nothing()
        self._moved: list[tuple[str, str, int | None, Draws]] = []
        self._ledger: dict[_Way, Draws] = {}
        self.likely_moves: list[tuple[str, str, float, float]] = []
        self._waiting: list[Callable[[], None]] = []
        self._handed_to: ref[Pools] | None = None
        self._trail: list[Passage] | None = None

    @property
    def amounts(self) -> Mapping[str, Amounts]:
        """Every row of every place; what rides along catches up first."""
        self.catch_up()
        return self._pools

    @property
    def ledger(self) -> list[Movement]:
        """The movements of sodium in the order they began, those of one way in one step added up."""
        self._add_up()
        return [Movement(*way, sodium_mg) for way, sodium_mg in self._ledger.items()]

    @property
    def trail(self) -> list[Passage] | None:
        """Every movement of every row in the likely case, kept only from `follow` on; None before."""
        self.catch_up()
        return self._trail

    def follow(self) -> None:
        """Keep a trail from now on, for those who ask where each amount came from."""
        self.catch_up()
        self._trail = []

    def ride_along(self, others: Callable[[], None]) -> None:
        """Let the other rows follow a movement, once they are asked for."""
        self._waiting.append(others)
        if len(self._waiting) >= MOST_WAITING:
            self.catch_up()

    def handed_on(self) -> Pools:
        """The same pools, for those who look at them once the steps are done; nothing moves any more.

        What waits to follow goes over to them. It holds what the steps worked with, these first pools too,
        so that whoever kept both would keep a circle: arrays of megabytes until garbage is collected.
        """
        later = copy(self)
        self._waiting, self._handed_to = [], ref(later)
        return later

    def catch_up(self) -> None:
        """Let all that rides along follow what has moved."""
        if self._handed_to is not None:
            later = self._handed_to()
            assert later is not None, "these pools were handed on to somebody who is gone"
            later.catch_up()
            return
        waiting, self._waiting = self._waiting, []
        for follow in waiting:
            checkpoint()
            follow()

    def trailing(self, place: str) -> NDArray[np.float64]:
        """Likely amounts of the rows that ride along, as far as they have followed: for those who ride
        along."""
        return self._pools[place][OTHERS, 0].copy()

    def bring(self, place: str, amounts: Amounts) -> None:
        """Put ingredients into a place: the only way anything comes in, but water from the tap."""
        pool = self.amounts[place]
        pool += amounts
        self.brought += amounts

    def pour(self, place: str, water_g: Draws) -> None:
        """Bring fresh water from the tap, in g."""
        for amounts in (self.leading[place], self.brought):
            amounts[_WATER_AND_WEIGHT] += water_g
        if self._trail is not None:
            poured = np.array([water_g[0], water_g[0]])
            self._trail.append(Passage(None, place, None, _ALL[_WATER_AND_WEIGHT], poured, poured))

    def move_share(self, source: str, target: str, share: Draws | float, step: int | None) -> None:
        """Move a share (0 to 1) of everything in a place."""
        moved = self.leading[source] * share
        self._shift(source, target, _LEADERS, moved, step)
        self._enter(source, target, moved, step)
        self.ride_along(
            lambda: self._shift(source, target, OTHERS, self._pools[source][OTHERS] * share, step)
        )

    def move_all_of(self, source: str, target: str, amounts: Amounts, step: int | None) -> None:
        """Move amounts of every row, none above what the source holds."""
        self._shift(source, target, _LEADERS, amounts[:LEAD], step)
        self._enter(source, target, amounts, step)
        self.ride_along(lambda: self._shift(source, target, OTHERS, amounts[OTHERS], step))

    def move_solution(self, source: str, target: str, solution: Amounts, step: int | None) -> Amounts:
        """Move solutes and their water, shape of SOLUTION, 0 to what the source holds; gives them.

        Their weight goes along.
        """
        moved = np.empty((WEIGHT + 1, solution.shape[1]))
        moved[SOLUTION] = solution
        np.minimum(weight_of(solution), self.leading[source][WEIGHT], out=moved[WEIGHT])
        self._shift(source, target, _WITH_WEIGHT, moved, step)
        self._enter(source, target, moved, step)
        return solution

    def pass_solution(self, source: str, target: str, solution: Amounts, step: int | None) -> Amounts:
        """Move solutes and their water, shape of SOLUTION; below 0 the other way; at most what either holds.

        Its weight goes along. Gives what moved, in the same shape.
        """
        mine, theirs = self.leading[source], self.leading[target]
        moved = np.empty((WEIGHT + 1, solution.shape[1]))
        np.negative(theirs[SOLUTION], out=moved[SOLUTION])
        np.maximum(solution, moved[SOLUTION], out=moved[SOLUTION])
        np.minimum(moved[SOLUTION], mine[SOLUTION], out=moved[SOLUTION])
        weight = np.minimum(weight_of(moved), mine[WEIGHT])
        np.maximum(weight, -theirs[WEIGHT], out=moved[WEIGHT])
        self._shift(source, target, _WITH_WEIGHT, moved, step)
        self._enter(source, target, moved, step)
        return moved[SOLUTION]

    def pass_water(self, source: str, target: str, grams: Draws, step: int | None) -> None:
        """Move pure water; below 0 the other way; at most what either holds."""
        mine, theirs = (np.minimum(*self.leading[place][_WATER_AND_WEIGHT]) for place in (source, target))
        self._shift(source, target, _WATER_AND_WEIGHT, np.minimum(np.maximum(grams, -theirs), mine), step)

    def move_fat(
        self, source: str, target: str, share: Draws, step: int | None, acids: AcidsOf | None = None
    ) -> None:
        """Move a share (0 to 1) of the fat in a place, its fatty acids and energy with it.

        acids: what share of each fatty acid goes, where the fat is not alike; asked once they follow.
        """
        grams: Draws = self.leading[source][FAT] * share
        lent = self.energy_of(source)
        self._shift(source, target, _WEIGHT_AND_FAT, grams, step)

        def others() -> None:
            moved = self._pools[source][FATTY_ACIDS] * (share if acids is None else acids())
            kcal = (grams * general_kcal_g("FAT") * lent())[np.newaxis]
            self.pass_others(source, target, FATTY_ACIDS, moved, step)
            self.pass_others(source, target, _ENERGY, kcal, step)

        self.ride_along(others)

    def move_alcohol(self, source: str, target: str, share: Draws, step: int | None) -> None:
        """Move a share (0 to 1) of the alcohol in a place, and its energy with it."""
        grams = np.minimum(self.leading[source][ALCOHOL] * share, self.leading[source][WEIGHT])
        lent = self.energy_of(source)
        for row in (ALCOHOL, WEIGHT):
            self._shift(source, target, slice(row, row + 1), grams, step)
        kcal = grams * general_kcal_g("ALC")
        self.ride_along(lambda: self.pass_others(source, target, _ENERGY, (kcal * lent())[np.newaxis], step))

    def move_protein(self, source: str, target: str, grams: Draws, step: int | None) -> None:
        """Move protein, and its energy with it; grams is at most what the source holds."""
        lent = self.energy_of(source)
        self._shift(source, target, slice(WEIGHT, WEIGHT + 1), grams, step)

        def others() -> None:
            kcal = (grams * general_kcal_g("PROCNT") * lent())[np.newaxis]
            self.pass_others(source, target, slice(_PROTEIN, _PROTEIN + 1), grams[np.newaxis], step)
            self.pass_others(source, target, _ENERGY, kcal, step)

        self.ride_along(others)

    def energy_of(self, place: str) -> Callable[[], Draws]:
        """Energy of a place over that of its macronutrients by the general factors, as it is now; to be asked
        when the other rows have come so far. What leaves takes energy along in this proportion, so that
        energy follows the macronutrients and the proportion stays."""
        led: Draws = self.leading[place][FAT] * general_kcal_g("FAT")
        led = led + self.leading[place][ALCOHOL] * general_kcal_g("ALC")

        def lent() -> Draws:
            held = self._pools[place]
            available = np.maximum(held[CARBOHYDRATE] - held[_FIBRE], 0.0)
            kcal = led + held[_PROTEIN] * general_kcal_g("PROCNT") + available * general_kcal_g("CHOCDF")
            return np.asarray(np.minimum(held[ENERGY] / np.maximum(kcal, TRACE), _MOST_LENT))

        return lent

    def pass_others(self, source: str, target: str, rows: slice, flow: Amounts, step: int | None) -> None:
        """Move some of the other rows; below 0 the other way; at most what either holds."""
        moved = np.maximum(flow, -self._pools[target][rows])
        np.minimum(moved, self._pools[source][rows], out=moved)
        self._shift(source, target, rows, moved, step)

    def _shift(self, source: str, target: str, rows: slice, moved: Amounts, step: int | None) -> None:
        giving, taking = self._pools[source][rows], self._pools[target][rows]
        if self._trail is not None:
            likely = moved[:, 0] if moved.ndim == 2 else np.full(len(giving), moved[0])
            self._trace(source, target, step, rows=rows, moved=likely, held=giving[:, 0])
            self._trace(target, source, step, rows=rows, moved=-likely, held=taking[:, 0])
        np.subtract(giving, moved, out=giving)
        np.add(taking, moved, out=taking)

    def _trace(
        self, source: str, target: str, step: int | None, *, rows: slice, moved: Draws, held: Draws
    ) -> None:
        (some,) = np.nonzero(moved > 0)
        if self._trail is not None and some.size:
            self._trail.append(Passage(source, target, step, _ALL[rows][some], moved[some], held[some]))

    def _enter(self, source: str, target: str, moved: Amounts, step: int | None) -> None:
        self._moved.append((source, target, step, moved[SODIUM]))
        self.likely_moves.append((source, target, float(moved[SODIUM, 0]), float(moved[SUGAR, 0])))
        if len(self._moved) >= MOST_WAITING:
            self._add_up()

    def _add_up(self) -> None:
        """Bring the movements since the last time into the ledger."""
        moved, self._moved = self._moved, []
        for each in (part for movement in moved for part in _both_ways(*movement)):
            way = (each.source, each.target, each.step)
            known = self._ledger.get(way)
            self._ledger[way] = each.sodium_mg if known is None else known + each.sodium_mg


_Way = tuple[str, str, int | None]
"""From where to where, and in which step."""


def _both_ways(source: str, target: str, step: int | None, sodium_mg: Draws) -> Iterator[Movement]:
    """A movement, and what of it went the other way, each where there is any."""
    if sodium_mg.min() < 0:
        yield Movement(target, source, step, np.maximum(-sodium_mg, 0.0))
    if sodium_mg.max() > 0:
        yield Movement(source, target, step, np.maximum(sodium_mg, 0.0))


def weight_of(solution: Amounts) -> Draws:
    """g of water and solutes, from rows as in SOLUTION. Sodium and potassium weigh what their chlorides do:
    each takes along another ion, whichever it is."""
    grams = dissolved_g(solution)
    grams += solution[WATER]
    return grams


def dissolved_g(solutes: Amounts) -> Draws:
    """g of what rows of SOLUTES weigh."""
    grams = minerals_g(solutes)
    grams += solutes[SUGAR]
    return grams


def minerals_g(amounts: Amounts) -> Draws:
    """g of the chlorides that hold a place's sodium and potassium."""
    grams: Draws = amounts[SODIUM] * _SALT_G_PER_MG
    grams += amounts[POTASSIUM] * _KCL_G_PER_MG
    return grams


def as_salt_g(amounts: Amounts) -> Draws:
    """Sodium and potassium of a place as g of sodium chloride that draw water as they do."""
    grams: Draws = amounts[SODIUM] * _SALT_G_PER_MG
    grams += amounts[POTASSIUM] * (_KCL_G_PER_MG * KCL_AS_SALT)
    return grams


def salt_g(amounts: Amounts) -> Draws:
    """All sodium of a place as g of sodium chloride."""
    grams: Draws = amounts[SODIUM] * _SALT_G_PER_MG
    return grams


def strength_percent(amounts: Amounts) -> float:
    """Likely strength of a bath: salt, and what counts as it, in percent of it and water; 100 for dry salt, 0
    for nothing."""
    salt, water = float(as_salt_g(amounts[:, :1])[0]), float(amounts[WATER, 0])
    return 100 * salt / (salt + water) if salt + water > 0 else 0.0


def ratio(part: Draws, whole: Draws) -> Draws:
    """part / whole, 0 where there is no whole, or only a trace of it."""
    return np.divide(part, whole, out=np.zeros_like(part), where=whole > TRACE)


def share_of(part: Draws, whole: Draws | float) -> Draws:
    """part / whole, at most 1; 1 of what is not there."""
    return np.minimum(part / np.maximum(whole, TRACE), 1.0)
