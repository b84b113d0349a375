"""Uptake where a stirred bath is no model: from tables, and from dry salt, which has no water of its own.

Leaves out the choice between a measured, a stated, a modelled and a tabled figure, and the moving of
amounts: those are the recipe's.
"""

from __future__ import annotations

from functools import cache

import numpy as np
from numpy.typing import ArrayLike

from ..core.errors import NotFound
from ..core.figures import Figure, figure_of
from ..core.tables import load
from ..diffusion.curves import Reached, mean_reached
from ..diffusion.eigenmodes import Shape
from .brine import SATURATED_G_PER_G_WATER

ANY = "any"


def table_reached(food_class: str, bath: str) -> Figure:
    """Share of the way to equilibrium (0 to 1) that is usual for such a step, broad.

    bath: brine, marinate, soak (each water), pickle or dry_cure (there: share of the salt that goes in).
    A class without a row of its own has that of any food. Raises NotFound for an unknown bath.
    """
    table = _table()
    found = table.get((food_class, bath)) or table.get((ANY, bath))
    if found is None:
        raise NotFound("kind of bath", bath)
    return found


def dry_salt_reached(
    fourier: ArrayLike, salt_g: ArrayLike, food_salt_g: ArrayLike, food_water_g: ArrayLike, shape: Shape
) -> Reached:
    """Share of the salt on a food that has gone in, from a bed with no water but what it draws. Broadcasts.

    While salt lies on the surface its brine is saturated, and the piece takes up what an endless saturated
    bath would give it; that ends when the salt is used up or the water in the food is saturated. salt_g: on
    the food; food_salt_g and food_water_g: in it, before.
    """
    lying, held, water = (np.asarray(amount, dtype=float) for amount in (salt_g, food_salt_g, food_water_g))
    room = np.maximum(SATURATED_G_PER_G_WATER * water - held, 0.0)
    taken = np.minimum(room * mean_reached(fourier, np.inf, shape), lying)
    return np.asarray(np.divide(taken, lying, out=np.zeros(np.shape(taken)), where=lying > 0))


@cache
def _table() -> dict[tuple[str, str], Figure]:
    return dict(load("absorption_factors", lambda row: ((row["food_class"], row["bath"]), figure_of(row))))
