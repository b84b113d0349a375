"""Compartments that share one stirred bath: what each holds some time later, exactly.

All is linear: a compartment of room C (g of water that its content counts in) that holds a goes at its rate R
towards C times what a gram of the bath's water holds; what it gains the bath loses. A compartment of room 0
only gives. Time does not appear: paces are rates times the whole time, so that two halves after one another
give what the whole gives.

The exponential of that system is taken by a rational function with poles, the best there is on the half line
from 0 to minus infinity (Cody, Meinardus and Varga 1969, by Caratheodory and Fejer's method: Trefethen,
Weideman and Schmelzer, BIT 46:653, 2006); between the poles the system is solved in closed form, whatever
the number of pieces. Within 1e-9 of what there is; conservation is exact.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from .eigenmodes import Array

_POLES = np.array(
    [
        -5.161191251645943 + 11.375156254838243j,
        -0.8944046821711842 + 8.582756902505864j,
        1.7154060337877302 + 6.038934929043315j,
        3.28375290009884 + 3.5943867748123672j,
        4.0277324837297535 + 1.1938560673334335j,
    ]
)
_RESIDUES = np.array(
    [
        -0.005784903977335338 + 0.0006858507045167331j,
        0.2725869854616625 + 0.014211728317987423j,
        -2.5655849971270768 - 1.2163857358593981j,
        7.117165209500308 + 8.819533323105892j,
        -4.818382059006333 - 21.05459759714486j,
    ]
)
"""exp(x) - 1 is twice the real part of the sum of residue / pole * x / (x - pole), to 5e-10 for x <= 0."""

_COUNT = len(_POLES)
_WEIGHTS = (2.0 * _RESIDUES / _POLES)[:, np.newaxis, np.newaxis, np.newaxis]
_REAL = _POLES.real.copy()[:, np.newaxis, np.newaxis, np.newaxis]
_IMAGINARY = _POLES.imag.copy()[:, np.newaxis, np.newaxis, np.newaxis]
_IMAGINARY_SQUARED = _IMAGINARY * _IMAGINARY
_SCALE = 1.0 / _IMAGINARY
"""What the real parts of `_resolvents` are to be multiplied with."""


@dataclass(frozen=True, eq=False)
class Lying:
    """Solute of one row that lies undissolved: while any does, the bath's strength stands still.

    excess: (draws,), what there is beyond what dissolves. strength: what a gram of water then holds.
    """

    row: int
    excess: Array
    strength: float


PORTIONS = (0.03125, 0.0625, 0.125, 0.25, 0.5, 0.75, 0.875, 1.0)
"""The shares of all water to come with which portions of it end, where a bath rises."""


@dataclass(frozen=True, eq=False)
class Rising:
    """Water that the pieces give to their bath as time goes, counted in by portions: each is there as soon as
    it begins to come. Where a portion ends hangs on what has come, not on when the step began, so that two
    halves are the whole.

    to_come: (pieces, draws), g that each is still to give; paces: the same, rate times the whole time.
    whole: (draws,), g that all give, what has come among it. stays, drips: (draws,), of it the share (0 to 1)
    that the rooms of the bath have, and that which runs off with what is dissolved in it, portion by
    portion; the rest dries. least: (draws,), g of room that what does not lie undissolved has at any time,
    as far as the bath comes to it.
    """

    to_come: Array
    paces: Array
    whole: Array
    stays: Array
    drips: Array
    least: Array

    def ends(self, part: Array | float) -> list[tuple[float, Array]]:
        """Each portion's share, and the part of the time when it has come; the last ends with the time."""
        come = self.whole - self.to_come.sum(axis=0)
        found = [
            (share, np.minimum(used_up(self.to_come, self.paces, share * self.whole - come), part))
            for share in PORTIONS[:-1]
        ]
        return [*found, (1.0, np.broadcast_to(part, self.whole.shape))]


@dataclass(frozen=True, eq=False)
class Stirred:
    """Compartments and their bath as they begin.

    held: (rows, compartments, draws), amounts. rooms: (compartments, draws). paces: (rows or 1, compartments,
    draws), rate times the whole time. bath_held, bath_rooms: (rows or 1, draws), rooms at the end of time; a
    room of 0 is a rest in air, where what one compartment loses the others gain. rising: where pieces make
    the bath of their own water.
    """

    held: Array
    rooms: Array
    paces: Array
    bath_held: Array
    bath_rooms: Array
    lying: Lying | None = None
    rising: Rising | None = None

    def gained(self, part: Array | float = 1.0) -> Array:
        """What each compartment has gained after a part of the whole time, 0 to 1, in the shape of `held`."""
        if self.rising is not None:
            return self._by_portions(self.rising, part)[0]
        if self.lying is None:
            paces = self.paces if isinstance(part, float) and part == 1.0 else self.paces * part
            return change(self.held, self.rooms, paces, self.bath_held, self.bath_rooms)
        row, until = self.lying.row, np.minimum(self._used_up, part)
        paces = np.repeat(self.paces, len(self.held) // len(self.paces), axis=0) * part
        first = self._gap * -np.expm1(-self._pace * until)
        paces[row] = self._pace * (part - until)
        held, in_bath = self.held.copy(), self.bath_held.copy()
        held[row] += first
        in_bath[row] -= first.sum(axis=0)
        gained = change(held, self.rooms, paces, in_bath, self.bath_rooms)
        gained[row] += first
        return gained

    def gained_and_dripped(self) -> tuple[Array, Array]:
        """What each compartment has gained in the whole time, and what ran off the bath, (rows, draws)."""
        if self.rising is None:
            return self.gained(), np.zeros_like(self.bath_held)
        return self._by_portions(self.rising, 1.0)

    def _by_portions(self, rising: Rising, part: Array | float) -> tuple[Array, Array]:
        gained, dripped = np.zeros(self.held.shape), np.zeros(self.bath_held.shape)
        begun, before = np.zeros(self.held.shape[-1]), 0.0
        for share, end in rising.ends(part):
            lasts = np.maximum(end - begun, 0.0)
            if lasts.any():
                runs_g = (share - before) * rising.whole * rising.drips
                one = self._with_portion(
                    rising, share, runs_g, self.bath_held - gained.sum(axis=1) - dripped, gained
                )
                more = one.gained(lasts)
                gained += more
                # A portion runs off once all of it has come.
                dripped += np.where((end > 0) & (end < part), one.dissolved(more, runs_g), 0.0)
                begun = begun + lasts
            before = share
        return gained, dripped

    def dissolved(self, gained: Array, water_g: Array) -> Array:
        """What so much of the bath's water holds after compartments have gained so much, (rows, draws)."""
        in_bath = self.bath_held - gained.sum(axis=1)
        if self.lying is not None:
            row = self.lying.row
            in_bath[row] = np.minimum(in_bath[row], self.lying.strength * self.bath_rooms[row])
        return np.asarray(in_bath * np.minimum(water_g / np.maximum(self.bath_rooms, 1e-12), 1.0))

    def _with_portion(
        self, rising: Rising, share: float, runs_g: Array, in_bath: Array, gained: Array
    ) -> Stirred:
        """The system after so much was gained, its bath as it is while a portion comes of which so many grams
        are to run off."""
        missing, lying = (1.0 - share) * rising.whole * rising.stays - runs_g, self.lying
        rooms = np.maximum(self.bath_rooms - missing, np.minimum(self.bath_rooms, rising.least))
        if lying is not None:
            rooms = np.array(np.broadcast_to(rooms, in_bath.shape))
            all_g = self.bath_rooms[lying.row if len(self.bath_rooms) > 1 else 0]
            rooms[lying.row] = np.maximum(all_g - missing, 0.0)
            excess = in_bath[lying.row] - lying.strength * rooms[lying.row]
            lying = Lying(lying.row, np.maximum(excess, 0.0), lying.strength) if (excess > 0).any() else None
        return Stirred(self.held + gained, self.rooms, self.paces, in_bath, rooms, lying)

    @property
    def _pace(self) -> Array:
        assert self.lying is not None
        return np.asarray(self.paces[self.lying.row if len(self.paces) > 1 else 0])

    @cached_property
    def _gap(self) -> Array:
        """How far each compartment is from saturated."""
        assert self.lying is not None
        return np.asarray(self.rooms * self.lying.strength - self.held[self.lying.row])

    @cached_property
    def _used_up(self) -> Array:
        """The part of the time, 0 to 1, after which nothing lies undissolved any more."""
        assert self.lying is not None
        return used_up(self._gap, self._pace, self.lying.excess)


def change(held: Array, rooms: Array, paces: Array, bath_held: Array, bath_rooms: Array) -> Array:
    """What each compartment gains, in the shape of `held`; see `Stirred`.

    bath_rooms: (draws,), or (rows or 1, draws)."""
    if len(paces) == 1:
        found = change_by_pace(held[np.newaxis], rooms, paces, bath_held[np.newaxis], bath_rooms)
        return np.asarray(found[0])
    each_room = np.atleast_2d(bath_rooms)[:, np.newaxis]
    found = change_by_pace(held[:, np.newaxis], rooms, paces, bath_held[:, np.newaxis], each_room)
    return np.asarray(found[:, 0])


LEAST_ROOM = 1e-100
"""A room of the bath below this is none: its square could not be told from 0."""


def change_by_pace(held: Array, rooms: Array, paces: Array, bath_held: Array, bath_rooms: Array) -> Array:
    """The same for several rows at each of several paces. held: (paces, rows, compartments, draws).

    paces: (paces, compartments, draws). bath_held: (paces, rows, draws); bath_rooms: of a shape that fits."""
    count, wide, cells, draws = held.shape
    bath_rooms = np.where(bath_rooms > LEAST_ROOM, bath_rooms, 0.0)
    in_bath = bath_held / np.where(bath_rooms > 0, bath_rooms, 1.0)
    flows = np.empty((count, wide + 1, cells, draws))
    sources, openings = flows[:, :wide], flows[:, wide]
    np.multiply(paces, rooms, out=openings)
    np.multiply(rooms, in_bath[:, :, np.newaxis], out=sources)
    sources -= held
    sources *= paces[:, np.newaxis]
    along = _resolvents(paces)
    pulls = np.einsum("gcnd,qgnd->qgcd", flows, along)
    pulled, across = pulls[:_COUNT], pulls[_COUNT:]
    pulled *= _SCALE
    np.negative(across, out=across)
    room, room_across = pulled[:, :, wide:] + bath_rooms, across[:, :, wide:]
    size = room * room + room_across * room_across
    if bath_rooms.min() <= 0:
        size[size == 0] = 1.0
    # The pole's weight over what the bath's water comes to with that of the compartments, both complex.
    turned = (_WEIGHTS.real * room + _WEIGHTS.imag * room_across) / size
    turned_across = (_WEIGHTS.imag * room - _WEIGHTS.real * room_across) / size
    pulled, across = pulled[:, :, :wide], across[:, :, :wide]
    pushes = np.empty((2 * _COUNT, *pulled.shape[1:]))
    np.subtract(pulled * turned, across * turned_across, out=pushes[:_COUNT])
    pushes[:_COUNT] *= _SCALE
    np.add(pulled * turned_across, across * turned, out=pushes[_COUNT:])
    gained = np.einsum("qgcd,qgnd->gcnd", pushes, along)
    gained *= openings[:, np.newaxis]
    sources *= _mean_decay(paces)[:, np.newaxis]
    gained += sources
    return np.asarray(gained)


def _resolvents(paces: Array) -> Array:
    """1 / (pace + pole): for each pole the real part, times the pole's imaginary part, then for each the
    imaginary part, its sign changed."""
    parts = np.empty((2 * _COUNT, *paces.shape))
    along, across = parts[:_COUNT], parts[_COUNT:]
    np.add(paces, _REAL, out=along)
    np.multiply(along, along, out=across)
    across += _IMAGINARY_SQUARED
    np.divide(_IMAGINARY, across, out=across)
    along *= across
    return parts


def _mean_decay(paces: Array) -> Array:
    """(1 - exp(-pace)) / pace: what a first flow comes to where the surface stays as it is."""
    safe = np.maximum(paces, 1e-12)
    return np.asarray(-np.expm1(-safe) / safe)


FLAT = 1e-150
"""A slope below this says nothing of where the root is; dividing by it could overflow."""


def used_up(gap: Array, paces: Array, excess: Array) -> Array:
    """The part of the time, 0 to 1, in which compartments that are `gap` short of a saturated bath take up
    `excess`: 0 where there is none, 1 where the time is too short.

    gap, paces: (compartments, draws); excess and what is given: (draws,). Newton's rule, kept inside a
    shrinking bracket, on the root of time, by which uptake goes at first.
    """

    def missing(root: Array) -> tuple[Array, Array]:
        decay = np.exp(-paces * (root * root))
        return excess - (gap * (1.0 - decay)).sum(axis=0), 2.0 * root * (gap * paces * decay).sum(axis=0)

    low, high = np.zeros_like(excess), np.ones_like(excess)
    is_short = missing(high)[0] > 0
    at = np.full_like(excess, 0.5)
    for _ in range(60):
        short, slope = missing(at)
        low, high = np.where(short > 0, at, low), np.where(short > 0, high, at)
        better = at + np.where(slope > FLAT, short / np.maximum(slope, FLAT), 2.0)
        better = np.where((better > low) & (better < high), better, 0.5 * (low + high))
        is_found = np.abs(better - at).max() < 1e-14
        at = better
        if is_found:
            break
    return np.where(excess > 0, np.where(is_short, 1.0, at * at), 0.0)
