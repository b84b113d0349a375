"""Water with solutes in it, on its way from one place to another, and what goes along with it.

Ash goes with sodium and potassium, carbohydrate and energy with sugar.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from ...core.spread import Draws
from ...nutrition.energy import general_kcal_g
from ..pool_rows import ASH, ENERGY, SODIUM, SOLUTES, SOLUTION, SUGAR, WITH_SOLUTES
from ..pools import Amounts, Pools, minerals_g


@dataclass(frozen=True, slots=True, eq=False)
class Way:
    """From one place to another, in one step (None: when the dish is served)."""

    pools: Pools
    source: str
    target: str
    step: int | None

    def settle(self, sodium_mg: Draws) -> None:
        """Let salt come, or go back, until the target holds so much sodium."""
        gain = np.zeros((SOLUTES.stop, sodium_mg.shape[0]))
        np.subtract(sodium_mg, self.pools.leading[self.target][SODIUM], out=gain[SODIUM])
        moved = self.pass_solutes(gain)
        lent = self.energies()
        self.pools.ride_along(lambda: self.pass_companions(moved, lent))

    def pass_solutes(self, solutes: Amounts) -> Amounts:
        """Solutes alone pass, shape of SOLUTES; gives what did, shape of SOLUTION."""
        solution = np.zeros((SOLUTION.stop, solutes.shape[1]))
        solution[SOLUTES] = solutes
        return self.pools.pass_solution(self.source, self.target, solution, self.step)

    def energies(self) -> tuple[Callable[[], Draws], Callable[[], Draws]]:
        """How energy follows out of either place, as they are now (`Pools.energy_of`)."""
        return self.pools.energy_of(self.source), self.pools.energy_of(self.target)

    def pass_companions(
        self,
        moved: Amounts,
        lent: tuple[Callable[[], Draws], Callable[[], Draws]],
        free: Amounts | None = None,
    ) -> None:
        """Let what goes along follow: moved, rows of SOLUTION; free, rows of FREE that pass as well.

        lent: of `energies` before it moved. Amounts below 0 go the other way, and so do their companions.
        """
        sugar_g = moved[SUGAR]
        rows = slice(ASH, ENERGY + 1) if free is None else WITH_SOLUTES
        flow = np.empty((rows.stop - rows.start, sugar_g.shape[0]))
        flow[0] = minerals_g(moved)
        flow[1] = sugar_g
        out, back = lent
        flow[2] = sugar_g * general_kcal_g("CHOCDF") * np.where(sugar_g > 0, out(), back())
        flow[3:] = 0.0 if free is None else free
        self.pools.pass_others(self.source, self.target, rows, flow, self.step)
