"""How fast each solute goes over salt in the same food: by rows, in the cold and in a pot."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from ...core.spread import Draws
from ...transfer.diffusivity import pace_over_salt, ratio_to_salt
from ..pool_rows import FREE, ROW, SOLUTES
from ..pools import Amounts

if TYPE_CHECKING:
    from .work import Work

_NAMES = {
    "NA": "salt",
    "K": "potassium",
    "CLD": "chloride",
    "NITRI": "nitrite",
    "NITRA": "nitrate",
    "SUGAR": "sugar",
    "P": "phosphate",
}
_IN_POTS = {"phosphate": "phosphate_in_pots", "other": "other_in_pots"}
DIFFUSING = tuple(_NAMES[tag] for tag in tuple(ROW)[SOLUTES])
"""The name by which the table of solutes knows each row of SOLUTES."""


@lru_cache(maxsize=2)
def other_ratios(*, hot: bool = False) -> NDArray[np.float64]:
    """Pace of each row of FREE over that of salt."""
    names = [_NAMES.get(tag, "other") for tag in tuple(ROW)[FREE]]
    if hot:
        names = [_IN_POTS.get(name, name) for name in names]
    return np.array([ratio_to_salt(name) for name in names])


@lru_cache(maxsize=1)
def pace_of_others() -> NDArray[np.intp]:
    """A number for each row of FREE, the same for those that go at one pace in the cold and in pots."""
    _, numbers = np.unique([other_ratios(), other_ratios(hot=True)], axis=1, return_inverse=True)
    return np.asarray(numbers.ravel())


def in_pot(work: Work, salt: Draws) -> Amounts:
    """D t / l^2 of each row of SOLUTES in a pot, from that of salt; of what neither food nor pot holds, as
    salt."""
    pool, pot = work.pool[SOLUTES], work.pools.leading[work.step.bath or ""][SOLUTES]
    is_there = np.any(pool + pot > 0, axis=1).tolist()
    rows = [
        salt * work.assume(f"{name}-pace", pace_over_salt(name), "over salt", shared=f"{name}/pot-pace")
        if here and name != "salt"
        else salt
        for name, here in zip(DIFFUSING, is_there, strict=True)
    ]
    return np.stack(rows)
