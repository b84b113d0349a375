"""Solutes that pass between pieces of food and the liquid they share, and what goes along with them.

For one solute, food i with water w_i and a liquid with water w_b tend to one concentration in their water:
food i would then hold  M k_i w_i / (sum k_j w_j + w_b)  of the whole M, k_i being its partition (1 unless
it binds or keeps out the solute). It has gone the share `reached` of the way there.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..foods.nutrients import INDEX
from ..units.spread import Draws
from .kitchen import SALT_PER_SODIUM, TRACE, WATER, WEIGHT, Amounts, Flow, Kitchen, Rows, ratio

ASH, CARBOHYDRATE, ENERGY = (INDEX[tag] for tag in ("ASH", "CHOCDF", "ENERC"))

_COMPANIONS = np.array([ASH, CARBOHYDRATE, ENERGY, WEIGHT, WATER])


@dataclass(frozen=True, slots=True, eq=False)
class Solutes:
    """What a liquid carries, and its companions: by tagname, with the share (0 to 1) that is free to move.

    rows: those of a pool the solutes stand in; all_rows: the companions' behind them. salt_at and sugar_at:
    where those two are among the solutes.
    """

    tags: tuple[str, ...]
    free: NDArray[np.float64]
    rows: Rows
    all_rows: Rows
    salt_at: int
    sugar_at: int | None

    @classmethod
    def of(cls, shares: Mapping[str, float]) -> Solutes:
        """Solutes by tagname, salt (NA) among them, each with its free share."""
        tags = tuple(shares)
        rows = np.array([INDEX[tag] for tag in tags])
        sugar_at = tags.index("SUGAR") if "SUGAR" in tags else None
        all_rows = np.concatenate((rows, _COMPANIONS))
        return cls(tags, np.array(tuple(shares.values())), rows, all_rows, tags.index("NA"), sugar_at)


DISSOLVED = Solutes.of({"NA": 1.0, "NITRI": 1.0, "NITRA": 1.0, "SUGAR": 1.0})
"""What a cold bath carries into a food and out of it."""

SALT = Solutes.of({"NA": 1.0})


@dataclass(frozen=True, slots=True, eq=False)
class Piece:
    """A food in a liquid. open_share: the share of its water that takes part (no bone, fat cap or skin)."""

    name: str
    open_share: Draws | float = 1.0
    partition: Draws | float = 1.0

    def capacity_g(self, kitchen: Kitchen) -> Draws:
        """Grams of water that it counts for."""
        water_g: Draws = np.multiply(kitchen.pools[self.name][WATER], self.open_share)
        return np.asarray(np.multiply(water_g, self.partition))


def capacity_ratio(kitchen: Kitchen, pieces: Sequence[Piece], bath: str) -> Draws:
    """Bath water over food water, the alpha of a bath of limited volume; infinite where no food has any."""
    liquid: Draws = kitchen.pools[bath][WATER]
    foods = sum((piece.capacity_g(kitchen) for piece in pieces), np.zeros_like(liquid))
    alpha = np.full_like(liquid, np.inf)
    np.divide(liquid, foods, out=alpha, where=foods > TRACE)
    return alpha


Gain = Callable[[Piece, Amounts], Amounts]
"""(piece, what it would gain of each solute at equilibrium) -> what it gains; negative where it gives.

Both have a row for each solute of the exchange, in its order.
"""


def exchange(
    kitchen: Kitchen,
    pieces: Sequence[Piece],
    bath: str,
    *,
    solutes: Solutes,
    gain: Gain,
    step: int,
) -> None:
    """Let solutes pass between the pieces and the bath, each piece gaining as `gain` says.

    Never more goes in than the bath holds, with what came out of the other pieces.
    """
    full = full_gains(kitchen, pieces, bath, solutes.rows)
    wanted = {piece.name: gain(piece, full[piece.name]) for piece in pieces}
    for name, gained in _limited(kitchen.pools[bath][solutes.rows], wanted).items():
        kitchen.trade(name, bath, with_companions(solutes, gained, kitchen.pools[bath]), step)


def full_gains(kitchen: Kitchen, pieces: Sequence[Piece], bath: str, rows: Rows) -> dict[str, Amounts]:
    """What each piece would gain of some nutrients if all stood until nothing moved any more."""
    pools = kitchen.pools
    held = {piece.name: pools[piece.name][rows] * piece.open_share for piece in pieces}
    waters = {piece.name: piece.capacity_g(kitchen) for piece in pieces}
    whole = sum(held.values(), pools[bath][rows])
    water = sum(waters.values(), pools[bath][WATER])
    return {name: whole * ratio(waters[name], water) - held[name] for name in waters}


def _limited(in_bath: Amounts, gains: Mapping[str, Amounts]) -> Mapping[str, Amounts]:
    given = sum((np.maximum(-gain, 0.0) for gain in gains.values()), in_bath)
    wanted = sum((np.maximum(gain, 0.0) for gain in gains.values()), np.zeros_like(given))
    if (wanted <= given).all():
        return gains
    fill = np.minimum(1.0, np.divide(given, wanted, out=np.ones_like(given), where=wanted > TRACE))
    return {name: np.where(gain > 0, gain * fill, gain) for name, gain in gains.items()}


def with_companions(solutes: Solutes, moved: Amounts, source: Amounts, water_g: Draws | float = 0.0) -> Flow:
    """The flow of these amounts of solutes, and water: ash goes with salt, energy and all with sugar.

    source: the place whose sugars tell the energy. Amounts below 0 flow the other way, and so do their
    companions.
    """
    values = np.zeros((len(solutes.all_rows), moved.shape[1]))
    values[: len(moved)] = moved
    ash, carbohydrate, energy, weight, water = values[len(moved) :]
    np.multiply(moved[solutes.salt_at], SALT_PER_SODIUM / 1000, out=ash)
    if solutes.sugar_at is not None:
        carbohydrate[:] = moved[solutes.sugar_at]
        energy[:] = ratio(source[ENERGY] * carbohydrate, source[CARBOHYDRATE])
    water[:] = water_g
    weight[:] = ash + carbohydrate + water
    return Flow(solutes.all_rows, values)


def solution(source: Amounts, water_g: Draws, solutes: Solutes = DISSOLVED) -> Flow:
    """So much of the water of a place, with the free part of each solute dissolved in it."""
    share = np.minimum(ratio(water_g, source[WATER]), 1.0)
    moved = source[solutes.rows] * np.multiply.outer(solutes.free, share)
    return with_companions(solutes, moved, source, source[WATER] * share)
