"""The state of the kitchen while a recipe is cooked: what is where, and every movement between places.

A pool holds amounts, shape (len(NUTRIENTS) + 1, DRAWS + 1): one row a nutrient in its own unit, the last
row the weight in g; one column a draw, column 0 the likely case. Things are moved, never made: `move` is
the only way to change a pool, so what came in is at every moment all there, in every column.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..foods.nutrients import INDEX, NUTRIENTS
from ..units.spread import DRAWS, Draws

Amounts = NDArray[np.float64]

WEIGHT = len(NUTRIENTS)
WATER, SODIUM = INDEX["WATER"], INDEX["NA"]
SALT_PER_SODIUM = 58.4428 / 22.98977
"""g of NaCl that hold 1 g of sodium, from the atomic weights."""


@dataclass(frozen=True, slots=True, eq=False)
class Movement:
    """Sodium that went from one place to another: mg in every draw. step None: when the dish is served."""

    source: str
    target: str
    step: int | None
    sodium_mg: Draws


def nothing() -> Amounts:
    """Amounts of nothing at all."""
    return np.zeros((len(NUTRIENTS) + 1, DRAWS + 1))


class Kitchen:
    """Pools by component id or place, and the ledger of movements between them."""

    def __init__(self, places: Iterable[str]) -> None:
        self.pools: dict[str, Amounts] = {place: nothing() for place in places}
        self.ledger: list[Movement] = []
        self.brought: Amounts = nothing()

    def bring(self, place: str, amounts: Amounts) -> None:
        """Put ingredients into a place: the only way anything comes in."""
        self.pools[place] = self.pools[place] + amounts
        self.brought = self.brought + amounts

    def move(self, source: str, target: str, amounts: Amounts, step: int | None) -> None:
        """Move amounts, at most what the source holds, and write the sodium into the ledger."""
        held = self.pools[source]
        moved = np.minimum(np.maximum(amounts, 0.0), held)
        # Taking the remainder as a difference of what is held keeps the sum exact in every column.
        self.pools[source] = held - moved
        self.pools[target] = self.pools[target] + moved
        if moved[SODIUM].any():
            self.ledger.append(Movement(source, target, step, moved[SODIUM]))

    def move_share(self, source: str, target: str, share: Draws | float, step: int | None) -> None:
        """Move a share (0 to 1) of everything in a place."""
        self.move(source, target, self.pools[source] * share, step)


def water(grams: Draws) -> Amounts:
    """Amounts of pure water."""
    amounts = nothing()
    amounts[WATER] = grams
    amounts[WEIGHT] = grams
    return amounts


def ratio(part: Draws, whole: Draws) -> Draws:
    """part / whole, 0 where there is no whole."""
    return np.divide(part, whole, out=np.zeros_like(part), where=whole > 0)
