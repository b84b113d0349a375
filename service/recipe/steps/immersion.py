"""Pieces of food in one liquid: solutes pass, the food swells or gives off juice, and the bath changes with
it.

One model for brine, marinade, soaking water, dry cure and pot. For each piece the step says what it is made
of and where it goes (`Immersed`); all pieces and the bath are then one system, solved at once for every
draw (`diffusion.stirred`). What a piece remembers (`History`) is where it begins."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from ...core.spread import Draws
from ...diffusion.eigenmodes import Array
from ...diffusion.stirred import Lying, Rising, Stirred
from ...transfer.brine import SATURATED_G_PER_G_WATER
from ...transfer.profile import JUICE
from ..pool_rows import SODIUM, SOLUTES, SOLUTION, WATER, WEIGHT
from ..pools import SALT_PER_SODIUM, TRACE, Amounts, Pools, as_salt_g, dissolved_g
from .followers import followers
from .history import of_weight
from .immersed import THIN, Begun, Immersed, RunOff, begin, paces_of, parted, side_by_side
from .solution import Way

SATURATED_MG = 1000 * SATURATED_G_PER_G_WATER / SALT_PER_SODIUM
"""Most sodium, in mg, that a gram of water holds as salt."""


def immerse(pieces: Sequence[Immersed], bath: str, run_off: RunOff | None = None) -> None:
    """Let pieces and bath do to each other what they do. run_off: of water that a piece gives off, the share
    that stays around it as liquid, where the rest runs off; None: all of it."""
    work = pieces[0].work
    pools, step = work.pools, work.step.index
    begun = begin(pools, pieces, bath)
    room_g = _bath_room(pools, begun, bath, run_off)
    rows = _rows_there(pools, begun, bath)
    system = _stirred(pools, begun, bath, room_g=room_g, rows=rows, run_off=run_off)
    gained, dripped = system.gained_and_dripped() if rows.size else (np.zeros_like(system.held), None)
    gains = parted(begun, gained, 1)
    moves = [_solution(each, gain, rows) for each, gain in zip(begun, gains, strict=True)]
    if run_off is not None:
        _lose_water(pools, begun, moves, run_off)
    held = [pools.leading[each.piece.work.name][rows] for each in begun]
    moved = _pass(pools, begun, bath, moves, step)
    pools.ride_along(followers(begun, bath, room_g, moved))
    for each, gain, was, move in zip(begun, gains, held, moved, strict=True):
        each.profile.change(was, gain, rows)
        if each.piece.factor is not None:
            each.profile.even_out()
        _remember(each, gain, rows, move)
    if dripped is not None and dripped.any():
        _run_off(pools, begun, bath, dripped, rows)


def stirred(piece: Immersed, bath: str, run_off: RunOff | None, row: int) -> Stirred:
    """What `immerse` solves for one piece, for one row of SOLUTES, nothing moved yet; for a look ahead."""
    pools = piece.work.pools
    begun = begin(pools, [piece], bath)
    room_g = _bath_room(pools, begun, bath, run_off)
    return _stirred(pools, begun, bath, room_g=room_g, rows=np.array([row]), run_off=run_off)


def _bath_room(pools: Pools, begun: Sequence[Begun], bath: str, run_off: RunOff | None) -> Draws:
    """g of water in the bath at the end of time."""
    room_g = pools.leading[bath][WATER].copy()
    for each in begun:
        water_g, swells_g = each.water_g, each.drawn_end_g
        film = each.film_end_g
        if run_off is not None:
            water_g = np.where(np.greater(water_g, 0), water_g, water_g * run_off.stays)
            swells_g = np.where(np.greater(swells_g, 0), swells_g, swells_g * run_off.stays)
            film = np.where(np.greater(film, 0), film, film * run_off.stays)
        room_g += water_g - film - swells_g + each.juice_water_g
    return np.asarray(np.maximum(room_g, 0.0))


def _rows_there(pools: Pools, begun: Sequence[Begun], bath: str) -> NDArray[np.intp]:
    """The rows of SOLUTES that bath or pieces hold any of."""
    whole = sum(pools.leading[each.piece.work.name][SOLUTES] for each in begun) + pools.leading[bath][SOLUTES]
    return np.flatnonzero((whole > 0).any(axis=1))


def _stirred(
    pools: Pools,
    begun: Sequence[Begun],
    bath: str,
    *,
    room_g: Draws,
    rows: NDArray[np.intp],
    run_off: RunOff | None,
) -> Stirred:
    """Pieces and bath as one system, for some rows of SOLUTES. Salt that lies undissolved keeps the surface
    saturated until it is used up."""
    held = [each.profile.held(each.piece.work.pool[rows], rows) for each in begun]
    is_one = all(len(each.piece.fourier) == 1 for each in begun)
    paces = [
        paces_of(each.piece, each.piece.fourier if is_one else each.piece.fourier[rows]) for each in begun
    ]
    rooms, in_bath = side_by_side([each.rooms for each in begun], 0), pools.leading[bath][rows]
    return Stirred(
        held=side_by_side(held, 1),
        rooms=rooms,
        paces=side_by_side(paces, 1),
        bath_held=in_bath,
        bath_rooms=_bath_rooms(room_g, rooms, rows),
        lying=_lying(pools.leading[bath][SODIUM], room_g, rows, rises=run_off is not None),
        rising=None if run_off is None else _rising(begun, run_off, THIN * rooms.sum(axis=0)),
    )


def _rising(begun: Sequence[Begun], run_off: RunOff, least_g: Draws) -> Rising:
    """The brine that pieces under dry salt make of their own water."""
    ways = [
        way
        for each in begun
        for way in (
            (each.film_g, each.film_end_g, each.piece.film_pace),
            (each.drawn_g, each.drawn_end_g, each.piece.drawn_pace),
        )
    ]
    to_come = np.stack(
        [np.maximum(now_g - end_g, 0.0) + np.zeros_like(run_off.stays) for now_g, end_g, _ in ways]
    )
    paces = np.stack([np.broadcast_to(pace, run_off.stays.shape) for _, _, pace in ways])
    come = sum(np.maximum(-now_g, 0.0) for now_g, _, _ in ways)
    return Rising(
        to_come, paces, np.asarray(to_come.sum(axis=0) + come), run_off.stays, run_off.drips, least_g
    )


def _bath_rooms(room_g: Draws, rooms: Array, rows: NDArray[np.intp]) -> Array:
    """The bath's water by rows, or for all of them where they have it alike."""
    least_g = THIN * rooms.sum(axis=0)
    if np.all(room_g >= least_g):
        return room_g[np.newaxis]
    return np.where((rows == SODIUM)[:, np.newaxis], room_g, np.maximum(room_g, least_g))


def _lying(in_bath_mg: Draws, room_g: Draws, rows: NDArray[np.intp], *, rises: bool) -> Lying | None:
    """rises: whether the bath has less water at first."""
    excess = np.maximum(in_bath_mg - SATURATED_MG * room_g, 0.0)
    if SODIUM not in rows or (excess.max() <= TRACE and not rises):
        return None
    return Lying(int(np.flatnonzero(rows == SODIUM)[0]), excess, SATURATED_MG)


def _solution(each: Begun, gain: Array, rows: NDArray[np.intp]) -> Amounts:
    """What goes into a piece, rows of SOLUTION: solutes, and the water that is drawn in or pressed out."""
    piece = each.piece
    solution = np.zeros((SOLUTION.stop, gain.shape[2]))
    solution[rows] = gain.sum(axis=1)
    if piece.gain_g is None:
        np.add(each.film_in_g, each.drawn_in_g, out=solution[WATER])
    else:
        np.subtract(_gained_g(each, piece.gain_g), dissolved_g(solution[SOLUTES]), out=solution[WATER])
    if each.has_juice:
        solution[WATER] -= each.pressed_g
    return solution


def _gained_g(each: Begun, gain_g: Draws) -> Draws:
    """Weight gained in this bath, of what is gained by the end of time: the film first, then the rest."""
    so_far_g = each.water_g + of_weight(each.piece.history.dissolved, each.weight_g)
    rest_g = gain_g - so_far_g - (each.film_end_g - each.film_g)
    goals = ((each.piece.film_g, each.film_end_g), (each.piece.drawn_g, each.drawn_end_g))
    for goal_g, end_g in goals:
        if goal_g is not end_g:  # water is scarce
            rest_g -= np.maximum(goal_g - end_g, 0.0)
    return np.asarray(each.film_in_g + rest_g * each.drawn_share)


def _lose_water(pools: Pools, begun: Sequence[Begun], moves: Sequence[Amounts], run_off: RunOff) -> None:
    """Of the water that pieces give off, what does not stay around them runs off or dries."""
    for each, move in zip(begun, moves, strict=True):
        name, step = each.piece.work.name, each.piece.work.step.index
        given_g = -np.minimum(move[WATER], 0.0)
        lost_g = given_g * (1 - run_off.stays)
        pools.pass_water(name, "poured_away", given_g * run_off.drips, step)
        pools.pass_water(name, "evaporated", lost_g - given_g * run_off.drips, step)
        each.piece.history.water = (each.water_g - lost_g) / each.weight_g
        move[WATER] += lost_g


def _run_off(pools: Pools, begun: Sequence[Begun], bath: str, dripped: Array, rows: NDArray[np.intp]) -> None:
    """What is dissolved in the water that runs off goes along with it; the pieces remember it together."""
    way = Way(pools, bath, "poured_away", begun[0].piece.work.step.index)
    lent = way.energies()
    solutes = np.zeros((SOLUTES.stop, dripped.shape[1]))
    solutes[rows] = dripped
    moved = way.pass_solutes(solutes)
    pools.ride_along(lambda: way.pass_companions(moved, lent))
    whole_g = np.maximum(sum(pools.leading[each.piece.work.name][WEIGHT] for each in begun), TRACE)
    for each in begun:
        history = each.piece.history
        history.ran_off = history.ran_off + dissolved_g(moved[SOLUTES]) / whole_g
        history.ran_off_salt = history.ran_off_salt + as_salt_g(moved) / whole_g


def _pass(
    pools: Pools, begun: Sequence[Begun], bath: str, moves: Sequence[Amounts], step: int
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


def _remember(each: Begun, gain: Array, rows: NDArray[np.intp], moved: Amounts) -> None:
    piece, history = each.piece, each.piece.history
    after_g = np.maximum(piece.work.pool[WEIGHT], TRACE)
    solutes_g = dissolved_g(moved[SOLUTES])
    history.weigh_again(each.weight_g, after_g)
    history.water = history.water + (moved[WATER] + each.pressed_g) / after_g
    history.film = (each.film_g + each.film_in_g) / after_g
    history.drawn = (each.drawn_g + each.drawn_in_g) / after_g
    history.dissolved = history.dissolved + solutes_g / after_g
    history.salt = history.salt + as_salt_g(moved) / after_g
    if each.has_juice:
        history.juice = piece.juice_g * np.exp(-np.asarray(piece.juice_pace)) / after_g
        in_juice = np.zeros((SOLUTES.stop, gain.shape[2]))
        in_juice[rows] = -gain[:, JUICE - 1]
        history.boiled_in = history.boiled_in + (solutes_g + dissolved_g(in_juice)) / after_g
    else:
        history.juice = 0.0
