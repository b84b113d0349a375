"""What foods hold, by the rows of a pool."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from ..core.spread import Draws, stacked
from ..foods.food import Food
from ..foods.hand_kept import chloride_mg_per_100g
from .pool_rows import CHLORIDE, NUTRIENT_ROWS, ROWS
from .pools import Amounts


def contents(foods: Sequence[Food], grams: Draws) -> Amounts:
    """What foods hold, grams of shape (len(foods), DRAWS + 1). A value that is not known adds nothing."""
    amounts: Amounts = stacked([per_g(food) for food in foods]).T @ grams
    return amounts


@lru_cache(maxsize=4096)
def per_g(food: Food) -> NDArray[np.float64]:
    """What a gram of a food holds, by the rows of a pool."""
    held = np.ones(ROWS)
    held[NUTRIENT_ROWS] = np.nan_to_num(food.values) / 100
    held[CHLORIDE] = chloride_mg_per_100g(food.code) / 100
    held.setflags(write=False)
    return held
