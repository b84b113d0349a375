"""A piece in a liquid, and how the liquid finds it: the rooms of its compartments; film, swelling and juice
so far and at the end of time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate, pairwise

import numpy as np
from numpy.typing import NDArray

from ...core.spread import Draws
from ...diffusion.compartments import Compartments
from ...diffusion.eigenmodes import Array
from ...transfer.profile import DRAWN, FILM, JUICE, Profile
from ..pool_rows import SODIUM, SOLUTES, WATER, WEIGHT
from ..pools import TRACE, Amounts, Pools, dissolved_g
from .history import History, is_nothing, of_weight
from .work import Work

THIN = 0.05
"""A liquid of less water than this, over that of the foods, counts as a film of so much: what is not salt
dissolves in what there is, and the bed of salt draws it."""


@dataclass(frozen=True, slots=True, eq=False)
class RunOff:
    """Of the water that pieces under dry salt give off, the share (0 to 1) that stays around them as brine,
    and that which runs off with what is dissolved in it; the rest dries."""

    stays: Draws
    drips: Draws


@dataclass(frozen=True, slots=True, eq=False)
class Immersed:
    """A piece in a liquid for a time. Paces are rates times that time, draws or numbers.

    fourier: D t / l^2 of the rows of SOLUTES, (rows, draws), or of all alike, (1, draws); other_ratios: pace
    of each row of FREE over that of salt. closed: of SOLUTES and of FREE, the share of each row that takes
    no part. open_share: of the water. film_g, drawn_g: what clings and is drawn in at the end of time;
    below 0 it is given off. juice_g: water and solutes that the heat still presses out. gain_g:
    weight, solutes with it, that it gains by the end of time; None: water comes and goes by film and swelling
    alone. opened: the share of its own water in cells that the knife opened, with what is open already.
    factor: the share of the bath's solutes that it takes, where that is stated."""

    work: Work
    body: Compartments
    fourier: Amounts
    other_ratios: NDArray[np.float64]
    closed: tuple[Array, Array]
    open_share: float
    partition: Draws
    film_g: Draws | float
    film_pace: Draws | float
    drawn_g: Draws | float
    drawn_pace: Draws | float
    juice_g: Draws | float = 0.0
    juice_pace: Draws | float = 0.0
    gain_g: Draws | None = None
    opened: Draws | float = 0.0
    factor: Draws | None = None

    @property
    def history(self) -> History:
        return self.work.history

    @property
    def salt_fourier(self) -> Amounts:
        return self.fourier if len(self.fourier) == 1 else self.fourier[SODIUM : SODIUM + 1]


@dataclass(frozen=True, eq=False)
class Begun:
    """A piece as the bath finds it, in g: swelling so far, where it goes to, and the rooms of its
    compartments."""

    piece: Immersed
    weight_g: Draws
    film_g: Draws | float
    drawn_g: Draws | float
    film_end_g: Draws | float
    drawn_end_g: Draws | float
    water_g: Draws | float
    rooms: Array
    profile: Profile
    aside: Draws | None
    juice_water_g: Draws | float

    @cached_property
    def drawn_share(self) -> Draws:
        """Share of its way that swelling goes in the time."""
        return done(self.piece.drawn_pace)

    @cached_property
    def film_in_g(self) -> Draws:
        return np.asarray((self.film_end_g - self.film_g) * done(self.piece.film_pace))

    @cached_property
    def drawn_in_g(self) -> Draws:
        return np.asarray((self.drawn_end_g - self.drawn_g) * self.drawn_share)

    @cached_property
    def pressed_g(self) -> Draws | float:
        """g of water that the heat presses out in the time."""
        return self.juice_water_g * done(self.piece.juice_pace) if self.has_juice else 0.0

    @property
    def has_juice(self) -> bool:
        return not is_nothing(self.piece.juice_g)

    @property
    def whole_room(self) -> Draws:
        return np.asarray(self.rooms.sum(axis=0))


def done(pace: Draws | float) -> Draws:
    """How much of its way goes what goes at such a pace, 0 to 1."""
    return np.asarray(-np.expm1(-np.asarray(pace)))


def begin(pools: Pools, pieces: Sequence[Immersed], bath: str) -> list[Begun]:
    weights = [np.maximum(pools.leading[piece.work.name][WEIGHT], TRACE) for piece in pieces]
    films = [of_weight(piece.history.film, weight) for piece, weight in zip(pieces, weights, strict=True)]
    drawn = [of_weight(piece.history.drawn, weight) for piece, weight in zip(pieces, weights, strict=True)]
    goals = [each for piece in pieces for each in (piece.film_g, piece.drawn_g)]
    so_far = [each for both in zip(films, drawn, strict=True) for each in both]
    enough = _enough(pools.leading[bath][WATER], goals, so_far)
    return [_begun(*each, enough) for each in zip(pieces, weights, films, drawn, strict=True)]


def _enough(
    water_g: Draws, goals_g: Sequence[Draws | float], so_far_g: Sequence[Draws | float]
) -> Draws | None:
    """Share of what films and swelling come to that there is water for, with what they have already: where it
    is scarce all have a like part of it, however the time is divided. None: there is enough."""
    wanted_g = [np.maximum(goal_g, 0.0) for goal_g in goals_g]
    whole_g = sum(wanted_g)
    if np.all(water_g >= whole_g):
        return None
    taken_g = sum(np.clip(now_g, 0.0, goal_g) for goal_g, now_g in zip(wanted_g, so_far_g, strict=True))
    return np.asarray(np.minimum((water_g + taken_g) / np.maximum(whole_g, TRACE), 1.0))


def _begun(
    piece: Immersed,
    weight_g: Draws,
    film_g: Draws | float,
    drawn_g: Draws | float,
    enough: Draws | None,
) -> Begun:
    film_end_g, drawn_end_g = piece.film_g, piece.drawn_g
    if enough is not None:
        film_end_g, drawn_end_g = (
            np.where(end_g > now_g, np.maximum(end_g * enough, now_g), end_g)
            for now_g, end_g in ((film_g, film_end_g), (drawn_g, drawn_end_g))
        )
    profile = piece.history.settled(piece.body, piece.closed[0])
    if not is_nothing(piece.opened):
        profile.open_cells(np.asarray(piece.opened))
    aside = _juice_share(piece, profile, weight_g)
    if aside is not None:
        profile.reserve(aside)
    juice_water_g: Draws | float = 0.0
    if not is_nothing(piece.juice_g):
        juice_water_g = np.maximum(piece.juice_g - _in_juice_g(profile, piece.work.pool), 0.0)
    liquids_g = of_weight(piece.history.water, weight_g)
    swells_g = np.maximum(drawn_end_g, 0.0)
    clings_g = np.maximum(film_end_g, 0.0)
    own_g = (piece.work.pool[WATER] - liquids_g) * piece.open_share
    opened_g = of_weight(profile.opened, own_g)
    # What is below 0 is given off by the food itself.
    given_g = (swells_g - drawn_end_g) + (clings_g - film_end_g)
    depth_g = np.maximum(own_g - opened_g - given_g - juice_water_g, 1e-6 * weight_g)
    rooms = np.empty((JUICE + len(piece.body), weight_g.shape[0]))
    rooms[FILM - 1], rooms[DRAWN - 1], rooms[JUICE - 1] = clings_g + opened_g, swells_g, 0.0
    np.multiply.outer(piece.body.shares, depth_g, out=rooms[JUICE:])
    rooms *= piece.partition
    return Begun(
        piece=piece,
        weight_g=weight_g,
        film_g=film_g,
        drawn_g=drawn_g,
        film_end_g=film_end_g,
        drawn_end_g=drawn_end_g,
        water_g=liquids_g,
        rooms=rooms,
        profile=profile,
        aside=aside,
        juice_water_g=juice_water_g,
    )


def _in_juice_g(profile: Profile, pool: Amounts) -> Draws:
    """g of solutes in what is set aside as juice."""
    return dissolved_g(profile.shares[:, JUICE] * pool[SOLUTES])


def _juice_share(piece: Immersed, profile: Profile, weight_g: Draws) -> Draws | None:
    """What is to be set aside as juice, over the open water with its solutes that is not yet; below 0: to be
    given back. None: nothing."""
    aside_g = of_weight(piece.history.juice, weight_g)
    more_g = piece.juice_g - aside_g
    if is_nothing(more_g):
        return None
    pool = piece.work.pool
    loose_g = pool[WATER] * piece.open_share + dissolved_g(profile.open_share * pool[SOLUTES])
    rest_g = np.where(more_g > 0, np.maximum(loose_g - aside_g, TRACE), np.maximum(aside_g, TRACE))
    return np.asarray(np.clip(more_g / rest_g, -1.0, 1.0))


def paces_of(piece: Immersed, fourier: Amounts) -> Array:
    """Rates times time of the open compartments, (rows, compartments, draws)."""
    paces = np.empty((fourier.shape[0], JUICE + len(piece.body), fourier.shape[1]))
    paces[:, FILM - 1], paces[:, DRAWN - 1] = piece.film_pace, piece.drawn_pace
    paces[:, JUICE - 1] = piece.juice_pace
    np.multiply(piece.body.rates[:, np.newaxis], fourier[:, np.newaxis], out=paces[:, JUICE:])
    return paces


def parted(begun: Sequence[Begun], gained: Array, axis: int) -> list[Array]:
    """The parts of an array, compartments along an axis, that are each piece's."""
    ends = [*accumulate(len(each.rooms) for each in begun)]
    before = (slice(None),) * axis
    return [gained[(*before, slice(start, end))] for start, end in pairwise((0, *ends))]


def side_by_side(arrays: Sequence[Array], axis: int) -> Array:
    """Compartments of all pieces in a row."""
    return arrays[0] if len(arrays) == 1 else np.concatenate(arrays, axis=axis)
