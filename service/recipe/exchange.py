"""Solutes that pass between pieces of food and the liquid they share, and what goes along with them.

For one solute, food i with water w_i and a liquid with water w_b tend to one concentration in their water:
food i would then hold  M k_i w_i / (sum k_j w_j + w_b)  of the whole M, k_i being its partition (1 unless
it binds or keeps out the solute). It has gone the share `reached` of the way there.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from ..foods.nutrients import INDEX
from ..units.spread import Draws
from .kitchen import SALT_PER_SODIUM, SODIUM, WATER, WEIGHT, Amounts, Kitchen, nothing, ratio

ASH, CARBOHYDRATE, ENERGY, SUGAR = (INDEX[tag] for tag in ("ASH", "CHOCDF", "ENERC", "SUGAR"))

COLD_SOLUTES = ("NA", "NITRI", "NITRA", "SUGAR")
"""What a cold bath carries into a food and out of it, by tagname."""


DISSOLVED = dict.fromkeys(COLD_SOLUTES, 1.0)


@dataclass(frozen=True, slots=True, eq=False)
class Piece:
    """A food in a liquid. open_share: the share of its water that takes part (no bone, fat cap or skin)."""

    name: str
    open_share: Draws | float = 1.0
    partition: Draws | float = 1.0

    def capacity_g(self, kitchen: Kitchen) -> Draws:
        """Grams of water that it counts for."""
        capacity: Draws = kitchen.pools[self.name][WATER] * self.open_share * self.partition
        return capacity


def capacity_ratio(kitchen: Kitchen, pieces: Sequence[Piece], bath: str) -> Draws:
    """Bath water over food water, the alpha of a bath of limited volume; infinite where no food takes part."""
    foods = sum((piece.capacity_g(kitchen) for piece in pieces), np.zeros_like(kitchen.pools[bath][WATER]))
    liquid = kitchen.pools[bath][WATER]
    return np.divide(liquid, foods, out=np.full_like(liquid, np.inf), where=foods > 0)


Gain = Callable[[Piece, str, Draws], Draws]
"""(piece, solute's tagname, what it would gain at equilibrium) -> what it gains; negative where it gives."""


def exchange(
    kitchen: Kitchen, pieces: Sequence[Piece], bath: str, solutes: Iterable[str], gain: Gain, step: int
) -> None:
    """Let solutes pass between the pieces and the bath, each piece gaining as `gain` says.

    Never more goes in than the bath holds, with what came out of the other pieces.
    """
    gains: dict[str, dict[str, Draws]] = {piece.name: {} for piece in pieces}
    for solute in solutes:
        row = INDEX[solute]
        if _present(kitchen, pieces, bath, row):
            full = full_gains(kitchen, pieces, bath, row)
            wanted = {piece.name: gain(piece, solute, full[piece.name]) for piece in pieces}
            for name, gained in _limited(kitchen, bath, row, wanted).items():
                gains[name][solute] = gained
    for name, gained in gains.items():
        _move(kitchen, name, bath, {solute: -amount for solute, amount in gained.items()}, step)
    for name, gained in gains.items():
        _move(kitchen, bath, name, gained, step)


def full_gains(kitchen: Kitchen, pieces: Sequence[Piece], bath: str, row: int) -> dict[str, Draws]:
    """What each piece would gain of one nutrient if all stood until nothing moved any more."""
    pools = kitchen.pools
    held = {piece.name: pools[piece.name][row] * piece.open_share for piece in pieces}
    waters = {piece.name: piece.capacity_g(kitchen) for piece in pieces}
    whole = sum(held.values(), pools[bath][row])
    water = sum(waters.values(), pools[bath][WATER])
    return {name: ratio(whole * waters[name], water) - held[name] for name in waters}


def _limited(kitchen: Kitchen, bath: str, row: int, gains: Mapping[str, Draws]) -> dict[str, Draws]:
    given = sum((np.maximum(-gain, 0.0) for gain in gains.values()), kitchen.pools[bath][row])
    wanted = sum((np.maximum(gain, 0.0) for gain in gains.values()), np.zeros_like(given))
    fill = np.minimum(1.0, np.divide(given, wanted, out=np.ones_like(given), where=wanted > 0))
    return {name: np.where(gain > 0, gain * fill, gain) for name, gain in gains.items()}


def _move(kitchen: Kitchen, source: str, target: str, solutes: Mapping[str, Draws], step: int) -> None:
    leaving = {solute: np.maximum(amount, 0.0) for solute, amount in solutes.items()}
    kitchen.move(source, target, with_companions(leaving, kitchen.pools[source]), step)


def _present(kitchen: Kitchen, pieces: Sequence[Piece], bath: str, row: int) -> bool:
    return any(bool(kitchen.pools[place][row].any()) for place in (bath, *(p.name for p in pieces)))


def with_companions(solutes: Mapping[str, Draws], source: Amounts) -> Amounts:
    """Amounts that leave a place when these solutes do: ash with salt, carbohydrate and energy with sugar."""
    amounts = nothing()
    for solute, moved in solutes.items():
        amounts[INDEX[solute]] = moved
    salt_g = amounts[SODIUM] * SALT_PER_SODIUM / 1000
    sugar_g = amounts[SUGAR]
    amounts[ASH] = salt_g
    amounts[CARBOHYDRATE] = sugar_g
    amounts[ENERGY] = ratio(source[ENERGY] * sugar_g, source[CARBOHYDRATE])
    amounts[WEIGHT] = salt_g + sugar_g
    return amounts


def solution(source: Amounts, water_g: Draws, free: Mapping[str, float] = DISSOLVED) -> Amounts:
    """So much of the water of a place, with what is dissolved in it: of each solute the `free` part (0 to 1)."""
    share = np.minimum(ratio(water_g, source[WATER]), 1.0)
    solutes = {solute: source[INDEX[solute]] * share * part for solute, part in free.items()}
    amounts = with_companions(solutes, source)
    amounts[WATER] = source[WATER] * share
    amounts[WEIGHT] += amounts[WATER]
    return amounts
