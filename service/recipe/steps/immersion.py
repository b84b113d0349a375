"""Pieces of food in one liquid: solutes pass, the food swells or gives off juice, and the bath changes with
it.

One model for brine, marinade, soaking water, dry cure and pot. For each piece the step says what it is made
of and where it goes (`Immersed`); all pieces and the bath are then one system, solved at once for every
draw (`diffusion.stirred`). What a piece remembers (`History`) is where it begins."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...core.spread import Draws
from ...diffusion.compartments import Compartments
from ...diffusion.eigenmodes import Array
from ...diffusion.stirred import Lying, Stirred, change
from ...transfer.brine import SATURATED_G_PER_G_WATER
from ...transfer.profile import DRAWN, FILM, JUICE, Profile
from ..pool_rows import FREE, SODIUM, SOLUTES, SOLUTION, WATER, WEIGHT
from ..pools import SALT_PER_SODIUM, TRACE, Amounts, Pools, as_salt_g, dissolved_g
from .history import History
from .solution import Way
from .work import Work

SATURATED_MG = 1000 * SATURATED_G_PER_G_WATER / SALT_PER_SODIUM
"""Most sodium, in mg, that a gram of water holds as salt."""

_THIN = 0.05
"""A liquid of less water than this, over that of the foods, counts as a film of so much: what is not salt
dissolves in what there is, and the bed of salt draws it."""


@dataclass(frozen=True, slots=True, eq=False)
class Immersed:
    """A piece in a liquid for a time. Paces are rates times that time, draws or numbers.

    fourier: D t / l^2 of the rows of SOLUTES, (rows, draws), or of all alike, (1, draws); other_ratios: pace
    of each row of FREE over that of salt. closed: of SOLUTES and of FREE, the share of each row that takes
    no part. open_share: of the water. film_g, drawn_g: what clings and is drawn in at the end of time;
    drawn_g below 0 is given off. juice_g: water and solutes that the heat still presses out. is_cold:
    whether swelling goes on, or is over. factor: the share of the bath's solutes that it takes, where that
    is stated."""

    work: Work
    body: Compartments
    fourier: Amounts
    other_ratios: NDArray[np.float64]
    closed: tuple[Array, Array]
    open_share: float = 1.0
    partition: Draws | float = 1.0
    film_g: Draws | float = 0.0
    film_pace: Draws | float = 0.0
    drawn_g: Draws | float = 0.0
    drawn_pace: Draws | float = 0.0
    juice_g: Draws | float = 0.0
    juice_pace: Draws | float = 0.0
    gain_g: Draws | None = None
    factor: Draws | None = None

    @property
    def history(self) -> History:
        return self.work.history

    @property
    def salt_fourier(self) -> Amounts:
        return self.fourier if len(self.fourier) == 1 else self.fourier[SODIUM : SODIUM + 1]


@dataclass(frozen=True, slots=True, eq=False)
class _Begun:
    """A piece as the bath finds it, in g: swelling so far, where it goes to, and the rooms of its
    compartments."""

    piece: Immersed
    weight_g: Draws
    film_g: Draws
    drawn_g: Draws
    film_end_g: Draws
    drawn_end_g: Draws
    water_g: Draws
    rooms: Array
    profile: Profile
    aside: Draws
    juice_water_g: Draws

    @property
    def film_in_g(self) -> Draws:
        return np.asarray((self.film_end_g - self.film_g) * -np.expm1(-np.asarray(self.piece.film_pace)))

    @property
    def drawn_in_g(self) -> Draws:
        return np.asarray((self.drawn_end_g - self.drawn_g) * -np.expm1(-np.asarray(self.piece.drawn_pace)))

    @property
    def whole_room(self) -> Draws:
        return np.asarray(self.rooms.sum(axis=0))


def immerse(pieces: Sequence[Immersed], bath: str, run_off: Draws | None = None) -> None:
    """Let pieces and bath do to each other what they do. run_off: of water that a piece gives off, the share
    that stays around it as liquid, where the rest dries; None: all of it."""
    work = pieces[0].work
    pools, step = work.pools, work.step.index
    begun = _begin(pools, pieces, bath)
    room_g = _bath_room(pools, begun, bath, run_off)
    gains = _split(begun, _gains(pools, begun, bath, room_g))
    moves = [_solution(each, gain) for each, gain in zip(begun, gains, strict=True)]
    if run_off is not None:
        _dry(pools, begun, moves, run_off)
    held = [pools.leading[each.piece.work.name][SOLUTES].copy() for each in begun]
    moved = _pass(pools, begun, bath, moves, step)
    pools.ride_along(_followers(pools, begun, bath, room_g, moved))
    for each, gain, was, move in zip(begun, gains, held, moved, strict=True):
        each.profile.change(was, gain)
        if each.piece.factor is not None:
            each.profile.even_out()
        _remember(each, gain, move)


def stirred(piece: Immersed, bath: str, run_off: Draws | None, row: int) -> Stirred:
    """What `immerse` solves for one piece, for one row of SOLUTES, nothing moved yet; for a look ahead."""
    pools = piece.work.pools
    begun = _begin(pools, [piece], bath)
    room_g = _bath_room(pools, begun, bath, run_off)
    return _stirred(pools, begun, bath, room_g=room_g, rows=np.array([row]))


def _begin(pools: Pools, pieces: Sequence[Immersed], bath: str) -> list[_Begun]:
    weights = [np.maximum(pools.leading[piece.work.name][WEIGHT], TRACE) for piece in pieces]
    films = [piece.history.film * weight for piece, weight in zip(pieces, weights, strict=True)]
    drawn = [piece.history.drawn * weight for piece, weight in zip(pieces, weights, strict=True)]
    goals = [each for piece in pieces for each in (piece.film_g, piece.drawn_g)]
    so_far = [each for both in zip(films, drawn, strict=True) for each in both]
    enough = _enough(pools.leading[bath][WATER], goals, so_far)
    return [_begun(*each, enough) for each in zip(pieces, weights, films, drawn, strict=True)]


def _enough(water_g: Draws, goals_g: Sequence[Draws | float], so_far_g: Sequence[Draws]) -> Draws:
    """Share of what films and swelling come to that there is water for, with what they have already: where it
    is scarce all have a like part of it, however the time is divided."""
    wanted_g = sum(np.maximum(goal_g, 0.0) for goal_g in goals_g)
    taken_g = sum(
        np.clip(now_g, 0.0, np.maximum(goal_g, 0.0)) for goal_g, now_g in zip(goals_g, so_far_g, strict=True)
    )
    return np.asarray(np.minimum((water_g + taken_g) / np.maximum(wanted_g, TRACE), 1.0))


def _begun(piece: Immersed, weight_g: Draws, film_g: Draws, drawn_g: Draws, enough: Draws) -> _Begun:
    film_end_g, drawn_end_g = (
        np.where(end_g > now_g, np.maximum(end_g * enough, now_g), end_g)
        for now_g, end_g in ((film_g, piece.film_g), (drawn_g, piece.drawn_g))
    )
    profile = piece.history.settled(piece.body, piece.closed[0])
    aside = _juice_share(piece, profile, weight_g)
    profile.reserve(aside)
    juice_water_g = np.maximum(piece.juice_g - _in_juice_g(profile, piece.work.pool), 0.0)
    liquids_g = np.asarray(piece.history.water * weight_g)
    own_g = (piece.work.pool[WATER] - liquids_g) * piece.open_share + np.minimum(drawn_end_g, 0.0)
    depth_g = np.maximum(own_g - juice_water_g, 1e-6 * weight_g)
    rooms = np.empty((JUICE + len(piece.body), weight_g.shape[0]))
    rooms[FILM - 1], rooms[DRAWN - 1], rooms[JUICE - 1] = film_end_g, np.maximum(drawn_end_g, 0.0), 0.0
    np.multiply.outer(piece.body.shares, depth_g, out=rooms[JUICE:])
    rooms *= piece.partition
    return _Begun(
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


def _juice_share(piece: Immersed, profile: Profile, weight_g: Draws) -> Draws:
    """What is to be set aside as juice, over the open water with its solutes that is not yet; below 0: to be
    given back."""
    aside_g = piece.history.juice * weight_g
    more_g = piece.juice_g - aside_g
    if not np.any(more_g):
        return np.zeros_like(weight_g)
    pool = piece.work.pool
    loose_g = pool[WATER] * piece.open_share + dissolved_g(profile.open_share * pool[SOLUTES])
    rest_g = np.where(more_g > 0, np.maximum(loose_g - aside_g, TRACE), np.maximum(aside_g, TRACE))
    return np.clip(more_g / rest_g, -1.0, 1.0)


def _bath_room(pools: Pools, begun: Sequence[_Begun], bath: str, run_off: Draws | None) -> Draws:
    """g of water in the bath at the end of time."""
    room_g = pools.leading[bath][WATER].copy()
    for each in begun:
        stays = 1.0 if run_off is None else run_off
        swells_g = np.where(each.drawn_end_g > 0, each.drawn_end_g, each.drawn_end_g * stays)
        room_g += np.where(each.water_g > 0, each.water_g, each.water_g * stays) - each.film_end_g - swells_g
        room_g += each.juice_water_g
    return np.asarray(np.maximum(room_g, 0.0))


def _paces(piece: Immersed, fourier: Amounts) -> Array:
    """Rates times time of the open compartments, (rows, compartments, draws)."""
    paces = np.empty((fourier.shape[0], JUICE + len(piece.body), fourier.shape[1]))
    paces[:, FILM - 1], paces[:, DRAWN - 1] = piece.film_pace, piece.drawn_pace
    paces[:, JUICE - 1] = piece.juice_pace
    np.multiply(piece.body.rates[:, np.newaxis], fourier[:, np.newaxis], out=paces[:, JUICE:])
    return paces


def _gains(pools: Pools, begun: Sequence[_Begun], bath: str, room_g: Draws) -> Array:
    """What each open compartment gains of SOLUTES, those of all pieces in a row."""
    holdings = [pools.leading[name][SOLUTES] for name in (bath, *(each.piece.work.name for each in begun))]
    rows = np.flatnonzero(np.any([pool.max(axis=1) > 0 for pool in holdings], axis=0))
    if not rows.size:
        return np.zeros((SOLUTES.stop, sum(len(each.rooms) for each in begun), room_g.shape[0]))
    together = _stirred(pools, begun, bath, room_g=room_g, rows=rows)
    if rows.size == SOLUTES.stop:
        return together.gained()
    gained = np.zeros((SOLUTES.stop, *together.rooms.shape))
    gained[rows] = together.gained()
    return gained


def _split(begun: Sequence[_Begun], gained: Array) -> list[Array]:
    """The parts of an array of compartments that are each piece's."""
    return [*np.split(gained, np.cumsum([len(each.rooms) for each in begun])[:-1], axis=1)]


def _stirred(
    pools: Pools, begun: Sequence[_Begun], bath: str, *, room_g: Draws, rows: NDArray[np.intp]
) -> Stirred:
    """Pieces and bath as one system, for some rows of SOLUTES. Salt that lies undissolved keeps the surface
    saturated until it is used up."""
    held = [each.profile.held(each.piece.work.pool[SOLUTES][rows], rows) for each in begun]
    is_one = all(len(each.piece.fourier) == 1 for each in begun)
    paces = [_paces(each.piece, each.piece.fourier if is_one else each.piece.fourier[rows]) for each in begun]
    rooms, in_bath = np.concatenate([each.rooms for each in begun]), pools.leading[bath][SOLUTES][rows]
    bath_rooms = np.tile(np.maximum(room_g, _THIN * rooms.sum(axis=0)), (len(rows), 1))
    bath_rooms[rows == SODIUM] = room_g
    excess = np.maximum(pools.leading[bath][SODIUM] - SATURATED_MG * room_g, 0.0)
    lies = SODIUM in rows and (excess > TRACE).any()
    return Stirred(
        held=np.concatenate(held, axis=1),
        rooms=rooms,
        paces=np.concatenate(paces, axis=1),
        bath_held=in_bath,
        bath_rooms=bath_rooms,
        lying=Lying(int(np.flatnonzero(rows == SODIUM)[0]), excess, SATURATED_MG) if lies else None,
    )


def _solution(each: _Begun, gain: Array) -> Amounts:
    """What goes into a piece, rows of SOLUTION: solutes, and the water that is drawn in or pressed out."""
    piece = each.piece
    solution = np.empty((SOLUTION.stop, gain.shape[2]))
    gain.sum(axis=1, out=solution[SOLUTES])
    if piece.gain_g is None:
        solution[WATER] = each.film_in_g + each.drawn_in_g
    else:
        solution[WATER] = _gained_g(each, piece.gain_g) - dissolved_g(solution[SOLUTES])
    if np.any(piece.juice_g):
        solution[WATER] -= each.juice_water_g * -np.expm1(-np.asarray(piece.juice_pace))
    return solution


def _gained_g(each: _Begun, gain_g: Draws) -> Draws:
    """Weight gained in this bath, of what is gained by the end of time: the film first, then the rest."""
    so_far_g = each.water_g + each.piece.history.dissolved * each.weight_g
    goals = ((each.piece.film_g, each.film_end_g), (each.piece.drawn_g, each.drawn_end_g))
    scarce_g = sum(np.maximum(goal_g - end_g, 0.0) for goal_g, end_g in goals)
    rest_g = gain_g - scarce_g - so_far_g - (each.film_end_g - each.film_g)
    return np.asarray(each.film_in_g + rest_g * -np.expm1(-np.asarray(each.piece.drawn_pace)))


def _dry(pools: Pools, begun: Sequence[_Begun], moves: Sequence[Amounts], run_off: Draws) -> None:
    """Of the water that pieces give off, what does not stay around them goes into the air."""
    for each, move in zip(begun, moves, strict=True):
        given_g = np.minimum(move[WATER], 0.0)
        dried_g = -given_g * (1 - run_off)
        pools.pass_water(each.piece.work.name, "evaporated", dried_g, each.piece.work.step.index)
        each.piece.history.water = (each.water_g - dried_g) / each.weight_g
        move[WATER] += dried_g


def _pass(
    pools: Pools, begun: Sequence[_Begun], bath: str, moves: Sequence[Amounts], step: int
) -> list[Amounts]:
    """Pass solutions from the bath to the pieces; what pieces give goes in before what others take of it."""
    names = [each.piece.work.name for each in begun]
    whole = np.maximum(sum(each.whole_room for each in begun), TRACE)
    in_bath = pools.leading[bath][SOLUTES].copy()
    for each, move in zip(begun, moves, strict=True):
        if each.piece.factor is not None:
            move[SOLUTES] = each.piece.factor * in_bath * (each.whole_room / whole)
    if len(begun) == 1:
        return [pools.pass_solution(bath, names[0], moves[0], step)]
    given = [
        pools.pass_solution(bath, name, np.minimum(move, 0.0), step)
        for name, move in zip(names, moves, strict=True)
    ]
    taken = [
        pools.pass_solution(bath, name, np.maximum(move, 0.0), step)
        for name, move in zip(names, moves, strict=True)
    ]
    return [a + b for a, b in zip(given, taken, strict=True)]


def _remember(each: _Begun, gain: Array, moved: Amounts) -> None:
    piece, history = each.piece, each.piece.history
    after_g = np.maximum(piece.work.pool[WEIGHT], TRACE)
    solutes_g = dissolved_g(moved[SOLUTES])
    history.weigh_again(each.weight_g, after_g)
    pressed_g = each.juice_water_g * -np.expm1(-np.asarray(piece.juice_pace))
    history.water = history.water + (moved[WATER] + pressed_g) / after_g
    history.film = (each.film_g + each.film_in_g) / after_g
    history.drawn = (each.drawn_g + each.drawn_in_g) / after_g
    history.juice = piece.juice_g * np.exp(-np.asarray(piece.juice_pace)) / after_g
    history.dissolved = history.dissolved + solutes_g / after_g
    history.salt = history.salt + as_salt_g(moved) / after_g
    if np.any(piece.juice_g):
        history.boiled_in = history.boiled_in + (solutes_g + dissolved_g(-gain[:, JUICE - 1])) / after_g


def _followers(
    pools: Pools, begun: Sequence[_Begun], bath: str, room_g: Draws, moved: Sequence[Amounts]
) -> Callable[[], None]:
    """How every other nutrient that is free follows, once it is asked for."""
    ways = [Way(pools, bath, each.piece.work.name, each.piece.work.step.index) for each in begun]
    energies = [way.energies() for way in ways]

    def follow() -> None:
        profiles = [
            each.piece.history.others_settled(each.piece.body, each.piece.closed[1]) for each in begun
        ]
        for profile, each in zip(profiles, begun, strict=True):
            profile.reserve(each.aside)
        before = [pools.amounts[each.piece.work.name][FREE].copy() for each in begun]
        gains = _split(
            begun, _other_gains(pools, begun, bath, room_g=room_g, profiles=profiles, before=before)
        )
        flows = [gain.sum(axis=1) for gain in gains]
        in_bath, whole = pools.amounts[bath][FREE].copy(), np.maximum(sum(e.whole_room for e in begun), TRACE)
        for at, each in enumerate(begun):
            if each.piece.factor is not None:
                flows[at] = each.piece.factor * in_bath * (each.whole_room / whole)
        for least, most in ((None, 0.0), (0.0, None)):
            for way, lent, flow, solution in zip(ways, energies, flows, moved, strict=True):
                way.pass_companions(np.clip(solution, least, most), lent, np.clip(flow, least, most))
        for each, profile, was, gain in zip(begun, profiles, before, gains, strict=True):
            profile.change(was, gain)
            if each.piece.factor is not None:
                profile.even_out()

    return follow


def _other_gains(
    pools: Pools,
    begun: Sequence[_Begun],
    bath: str,
    *,
    room_g: Draws,
    profiles: Sequence[Profile],
    before: Sequence[Amounts],
) -> Array:
    held = [profile.held(amounts) for profile, amounts in zip(profiles, before, strict=True)]
    held_all, rooms = np.concatenate(held, axis=1), np.concatenate([each.rooms for each in begun])
    in_bath = pools.amounts[bath][FREE]
    bath_room = np.maximum(room_g, _THIN * rooms.sum(axis=0))
    gained = np.empty_like(held_all)
    ratios = begun[0].piece.other_ratios
    for ratio in np.unique(ratios):
        rows = np.flatnonzero(ratios == ratio)
        paces = [_paces(each.piece, each.piece.salt_fourier * ratio) for each in begun]
        gained[rows] = change(
            held_all[rows], rooms, np.concatenate(paces, axis=1), in_bath[rows], bath_room[np.newaxis]
        )
    return gained
