"""Solutes that pass between pieces of food and the liquid they share, and what goes along with them.

For one solute, food i with water w_i and a liquid with water w_b tend to one concentration in their water:
food i would then hold  M k_i w_i / (sum k_j w_j + w_b)  of the whole M, k_i being its partition (1 unless
it binds or keeps out the solute). It goes a share of the way there, or takes a share of the bath.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from ..units.spread import Draws
from .kitchen import TRACE, Amounts, Kitchen, share_of
from .rows import FREE, SODIUM, SOLUTES, WATER
from .solution import Solutes, Way


@dataclass(frozen=True, slots=True, eq=False)
class Piece:
    """A food in a liquid. open_share: the share of its water that takes part (no bone, fat cap or skin)."""

    name: str
    open_share: float = 1.0
    partition: Draws | float = 1.0

    def open_part(self, amounts: Amounts) -> Amounts:
        """Of what the food holds, what takes part."""
        return amounts if self.open_share == 1.0 else amounts * self.open_share


@dataclass(frozen=True, slots=True, eq=False)
class Uptake:
    """What a piece takes: so large a part of its way to equilibrium, or of the bath.

    solutes: that part (0 to 1) for each row of SOLUTES; others: for whatever else is free, before the share
    that is. of_bath: parts are of what the bath held. sodium_mg: the gain of sodium where it is measured.
    """

    solutes: Amounts
    others: Draws
    of_bath: bool = False
    sodium_mg: Draws | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Exchange:
    """Pieces in a bath, in one step; `of` takes what they hold then. Capacities are in g of water.

    capacities_g: by piece. parts: of all there is of a solute, the part (0 to 1) each would hold at the end.
    """

    kitchen: Kitchen
    pieces: Sequence[Piece]
    bath: str
    step: int
    capacities_g: Mapping[str, Draws]
    parts: Mapping[str, Draws]

    @classmethod
    def of(cls, kitchen: Kitchen, pieces: Sequence[Piece], bath: str, step: int) -> Exchange:
        held = {
            piece.name: kitchen.leading[piece.name][WATER] * (piece.open_share * piece.partition)
            for piece in pieces
        }
        whole = np.maximum(summed([kitchen.leading[bath][WATER], *held.values()]), TRACE)
        return cls(kitchen, pieces, bath, step, held, {name: water / whole for name, water in held.items()})

    @property
    def alpha(self) -> Draws:
        """Bath water over food water, as good as endless where no food has any: what limits a bath."""
        foods = summed(list(self.capacities_g.values()))
        alpha: Draws = self.kitchen.leading[self.bath][WATER] / np.maximum(foods, TRACE)
        return alpha

    def full_gains(self, pools: Mapping[str, Amounts], rows: slice) -> dict[str, Amounts]:
        """What each piece would gain of some nutrients if all stood until nothing moved any more."""
        held = {piece.name: piece.open_part(pools[piece.name][rows]) for piece in self.pieces}
        whole = summed([pools[self.bath][rows], *held.values()])
        return {name: whole * self.parts[name] - held[name] for name in held}

    def happen(self, solutes: Solutes, uptake: Callable[[Piece, Amounts], Uptake]) -> None:
        """Let solutes pass between the pieces and the bath, each piece as `uptake` says.

        uptake: (piece, what it would gain of SOLUTES at equilibrium) -> what it takes. Never more goes in
        than the bath holds, with what came out of the other pieces.
        """
        leading = self.kitchen.leading
        in_bath, full = leading[self.bath][SOLUTES], self.full_gains(leading, SOLUTES)
        uptakes = {piece.name: uptake(piece, full[piece.name]) for piece in self.pieces}
        gains = {name: _gained(taken, full[name], in_bath) for name, taken in uptakes.items()}
        passed = {name: self._way(name).pass_solutes(gain) for name, gain in _limited(in_bath, gains).items()}
        self.kitchen.ride_along(lambda: self._others(solutes, uptakes, passed))

    def _others(self, solutes: Solutes, uptakes: Mapping[str, Uptake], passed: Mapping[str, Amounts]) -> None:
        """What else is free passes likewise."""
        gains: Mapping[str, Amounts | None] = dict.fromkeys(passed)
        if solutes.others is not None:
            in_bath, full = self.kitchen.pools[self.bath][FREE], self.full_gains(self.kitchen.pools, FREE)
            free = {
                name: (in_bath if taken.of_bath else full[name]) * (solutes.others * taken.others)
                for name, taken in uptakes.items()
            }
            gains = _limited(in_bath, free)
        for name, gain in gains.items():
            self._way(name).pass_companions(passed[name], gain)

    def _way(self, piece: str) -> Way:
        return Way(self.kitchen, self.bath, piece, self.step)


def _gained(taken: Uptake, full: Amounts, in_bath: Amounts) -> Amounts:
    gained: Amounts = taken.solutes * (in_bath if taken.of_bath else full)
    if taken.sodium_mg is not None:
        gained[SODIUM] = taken.sodium_mg
    return gained


def _limited(in_bath: Amounts, gains: Mapping[str, Amounts]) -> Mapping[str, Amounts]:
    """Gains cut down to what there is; one piece alone is held to that when it takes it."""
    if len(gains) == 1:
        return gains
    given = summed([in_bath, *(np.maximum(-gain, 0.0) for gain in gains.values())])
    wanted = summed([np.maximum(gain, 0.0) for gain in gains.values()])
    if (wanted <= given).all():
        return gains
    fill = share_of(given, wanted)
    return {name: np.where(gain > 0, gain * fill, gain) for name, gain in gains.items()}


def summed(amounts: Sequence[Amounts]) -> Amounts:
    """Their sum, of one at least."""
    whole = amounts[0]
    for each in amounts[1:]:
        whole = whole + each
    return whole
