"""The order of rows in a pool: first what decides where things go, then what rides along with it.

Water, fat and solutes decide what a food weighs and how far salt passes; they, and the weight, lead. Every
other nutrient decides nothing and follows. Each group that moves together stands together, so that a
movement is a slice and not a search.
"""

from __future__ import annotations

from itertools import chain

import numpy as np
from numpy.typing import NDArray

from ..foods.nutrients import NUTRIENTS
from ..nutrition.retention import heat_labile
from ..transfer.pots import mobile_share

LEADING = ("SUGAR", "NA", "K", "NITRI", "NITRA", "WATER", "WEIGHT", "FAT", "ALC")
"""INFOODS tagnames of the leading rows in their order; WEIGHT, in g, is no nutrient but a row like them."""

_BESIDE = ("CLD",)
"""Rows that follow and that no answer tells: mg of the chloride that salts bring. What foods hold of their
own the dataset does not say."""

LEAD = len(LEADING)
SUGAR, SODIUM, POTASSIUM, NITRITE, NITRATE, WATER, WEIGHT, FAT, ALCOHOL = range(LEAD)

SOLUTES = slice(SUGAR, NITRATE + 1)
"""What is dissolved in a bath and decides anything."""

SOLUTION = slice(SUGAR, WATER + 1)
"""The solutes and the water they are in."""

_COMPANIONS = ("ASH", "CHOCDF", "ENERC")
_FATTY_ACIDS = ("FASAT", "FAMS", "FAPU")


def _groups() -> tuple[tuple[str, ...], ...]:
    """Tags of all rows by group, in their order: leaders, companions, free, free and labile, labile, fatty
    acids, and the rest.
    """
    named = (LEADING, _COMPANIONS, _FATTY_ACIDS)
    tags = [nutrient.tag for nutrient in NUTRIENTS if not any(nutrient.tag in group for group in named)]
    tags += _BESIDE

    def those(*, free: bool, labile: bool) -> tuple[str, ...]:
        return tuple(t for t in tags if bool(mobile_share(t)) == free and (t in heat_labile()) == labile)

    return (
        LEADING,
        _COMPANIONS,
        those(free=True, labile=False),
        those(free=True, labile=True),
        those(free=False, labile=True),
        _FATTY_ACIDS,
        those(free=False, labile=False),
    )


_GROUPS = _groups()
_, _, _LASTING_END, _FREE_END, _LABILE_END, _ACIDS_END, ROWS = np.cumsum([len(g) for g in _GROUPS]).tolist()

ROW: dict[str, int] = {tag: row for row, tag in enumerate(chain.from_iterable(_GROUPS))}
"""Row of each nutrient, and of WEIGHT, in a pool."""

NUTRIENT_ROWS: NDArray[np.intp] = np.array([ROW[nutrient.tag] for nutrient in NUTRIENTS])
"""The row of every nutrient, in the order of NUTRIENTS."""

OTHERS = slice(LEAD, ROWS)
"""What rides along."""

ASH, CARBOHYDRATE, ENERGY = (ROW[tag] for tag in _COMPANIONS)
CHLORIDE = ROW["CLD"]
FREE = slice(ENERGY + 1, _FREE_END)
"""Other nutrients that are, in part, free to leave with juice and into a pot."""

WITH_SOLUTES = slice(ASH, _FREE_END)
"""Those, and before them what goes along with salt and sugar: ash, carbohydrate and energy."""

LABILE = slice(_LASTING_END, _LABILE_END)
"""Nutrients that heat can destroy."""

FATTY_ACIDS = slice(_LABILE_END, _ACIDS_END)
