"""Water with solutes in it, on its way from one place to another, and what goes along with it.

Ash goes with salt, carbohydrate and energy with sugar.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..units.spread import Draws
from .kitchen import Amounts, Kitchen, ratio, salt_g, share_of, weight_of
from .rows import ASH, CARBOHYDRATE, ENERGY, FREE, SODIUM, SOLUTES, SOLUTION, SUGAR, WATER, WITH_SOLUTES


@dataclass(frozen=True, slots=True, eq=False)
class Solutes:
    """What is free to move in a liquid, each nutrient with its free share (0 to 1).

    solution: of the rows of SOLUTION, shape (5, 1), the water itself always free. others: of the rows of
    FREE, shape (n, 1); None where none of those is dissolved.
    """

    solution: NDArray[np.float64]
    others: NDArray[np.float64] | None


DISSOLVED = Solutes(np.ones((5, 1)), None)
"""What a cold bath carries into a food and out of it: salt, curing agents and sugar."""


@dataclass(frozen=True, slots=True, eq=False)
class Way:
    """From one place to another, in one step (None: when the dish is served)."""

    kitchen: Kitchen
    source: str
    target: str
    step: int | None

    def squeeze(self, juice_g: Draws, solutes: Solutes) -> None:
        """So many grams of juice, water with what is free to move in it, leave a food."""
        free = self._free(solutes)
        share = share_of(juice_g, weight_of(free))
        self._leave(free * share, share, solutes)

    def drain(self, water_g: Draws, solutes: Solutes) -> None:
        """So many grams of water leave a place, with the free part of each solute dissolved in it."""
        self.leave(share_of(water_g, self.kitchen.leading[self.source][WATER]), solutes)

    def leave(self, share: Draws, solutes: Solutes, *, of_water: Draws | None = None) -> None:
        """A share (0 to 1) of all that is free leaves a place, and the same or another share of its water."""
        solution = self._free(solutes) * share
        if of_water is not None:
            np.multiply(self.kitchen.leading[self.source][WATER], of_water, out=solution[WATER])
        self._leave(solution, share, solutes)

    def _free(self, solutes: Solutes) -> Amounts:
        """What could leave of the solution that is in the source."""
        free: Amounts = self.kitchen.leading[self.source][SOLUTION] * solutes.solution
        return free

    def _leave(self, solution: Amounts, share: Draws, solutes: Solutes) -> None:
        moved = self.kitchen.move_solution(self.source, self.target, solution, self.step)

        def others() -> None:
            free = solutes.others
            flow = None if free is None else self.kitchen.pools[self.source][FREE] * (free * share)
            self.pass_companions(moved, flow)

        self.kitchen.ride_along(others)

    def settle(self, sodium_mg: Draws) -> None:
        """Let salt come, or go back, until the target holds so much sodium."""
        gain = np.zeros((SOLUTES.stop, sodium_mg.shape[0]))
        np.subtract(sodium_mg, self.kitchen.leading[self.target][SODIUM], out=gain[SODIUM])
        moved = self.pass_solutes(gain)
        self.kitchen.ride_along(lambda: self.pass_companions(moved))

    def pass_solutes(self, solutes: Amounts) -> Amounts:
        """Solutes alone pass, shape of SOLUTES; gives what did, shape of SOLUTION."""
        solution = np.zeros((SOLUTION.stop, solutes.shape[1]))
        solution[SOLUTES] = solutes
        return self.kitchen.pass_solution(self.source, self.target, solution, self.step)

    def pass_companions(self, moved: Amounts, free: Amounts | None = None) -> None:
        """Let what goes along follow: moved, rows of SOLUTION; free, rows of FREE that pass as well.

        The source's sugars tell their energy. Amounts below 0 go the other way, and so do their companions.
        """
        pool, sugar_g = self.kitchen.pools[self.source], moved[SUGAR]
        rows = slice(ASH, ENERGY + 1) if free is None else WITH_SOLUTES
        flow = np.empty((rows.stop - rows.start, sugar_g.shape[0]))
        flow[0] = salt_g(moved)
        flow[1] = sugar_g
        flow[2] = ratio(pool[ENERGY] * sugar_g, pool[CARBOHYDRATE])
        flow[3:] = 0.0 if free is None else free
        self.kitchen.pass_others(self.source, self.target, rows, flow, self.step)
