"""How fast each solute goes over salt in the same food, in the cold and in a pot, and which share may go.

By rows. What is behind bone and skin, bound, or held by living cells takes no part.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from ...core.spread import DRAWS, Draws, draw
from ...transfer.diffusivity import pace_over_salt, ratio_to_salt
from ...transfer.pots import mobile_share
from ...transfer.usual import washed_out
from ..pool_rows import FREE, POTASSIUM, ROW, SOLUTES, SUGAR
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
    """Pace of each row of FREE over that of salt, (rows,), above 0."""
    names = [_NAMES.get(tag, "other") for tag in tuple(ROW)[FREE]]
    if hot:
        names = [_IN_POTS.get(name, name) for name in names]
    return np.array([ratio_to_salt(name) for name in names])


@lru_cache(maxsize=1)
def pace_of_others() -> NDArray[np.intp]:
    """A number for each row of FREE, (rows,), the same for those that go at one pace in the cold and in
    pots."""
    _, numbers = np.unique([other_ratios(), other_ratios(hot=True)], axis=1, return_inverse=True)
    return np.asarray(numbers.ravel())


def in_pot(work: Work, salt: Draws) -> Amounts:
    """D t / l^2 of each row of SOLUTES in a pot, from that of salt; of what neither food nor pot holds, as
    salt. salt: (draws,); given: (rows, draws)."""
    pool, pot = work.pool[SOLUTES], work.pools.leading[work.step.bath or ""][SOLUTES]
    is_there = np.any(pool + pot > 0, axis=1).tolist()
    rows = [
        salt * work.assume(f"{name}-pace", pace_over_salt(name), "over salt", shared=f"{name}/pot-pace")
        if here and name != "salt"
        else salt
        for name, here in zip(DIFFUSING, is_there, strict=True)
    ]
    return np.stack(rows)


def dead_cells(work: Work, kind: str) -> float:
    """Of a plant's cells in the cold, the share (0 to 1) that hold nothing back any more: those that heat
    went over before, all of what was cooked or dried before it was listed, and what a hot bath scalds.

    kind: the food's class in a cold bath. The figures of nuts and pulses are of dry ones.
    """
    water = work.main.per_100g("WATER") if work.main else None
    dried = kind in _LISTED_FRESH and water is not None and water < _DRIED_BELOW
    scalded = float(np.interp(work.step.temperature_c or 0.0, _SCALDS_C, (0.0, 1.0)))
    return round(min(max(work.history.heated, work.composition.done_share, float(dried), scalded), 1.0), 3)


_LISTED_FRESH = ("vegetable", "mushroom")
_DRIED_BELOW = 40.0
"""Per cent of water under which a vegetable was dried."""
_SCALDS_C = (45.0, 60.0)
"""Where a plant's cells begin to die, and where all are dead (from memory)."""


@lru_cache(maxsize=1024)
def closed_shares(
    open_share: float,
    kind: str | None = None,
    cells: str | None = None,
    *,
    hot: bool = False,
    dead: float = 0.0,
) -> tuple[Amounts, Amounts]:
    """Of rows of SOLUTES and of FREE, the share that takes no part: what is behind bone and skin, what is
    bound in the food (by its kind in a pot), and of a living plant's own what its cells hold back. (rows,
    draws) each, 0 to 1.

    open_share: of the weight, what a bath can reach, 0 to 1; cells: whose hold its own small solutes back, a
    class in a cold bath or, hot, a kind in a pot; None: nobody's. dead: the share of them that hold nothing
    any more (`dead_cells`).
    """
    free, others = free_shares(kind)
    of_own = _through_cells(cells, hot) if cells is not None else np.ones(1)
    of_own = of_own + (1 - of_own) * dead
    own = np.where(_OWN[:, np.newaxis], of_own, 1.0)
    shares = 1 - open_share * free * own, 1 - open_share * others * of_own
    for each in shares:
        each.setflags(write=False)
    return shares


_OWN = np.isin(np.arange(SOLUTES.stop), (SUGAR, POTASSIUM))
"""Rows of SOLUTES that are a plant's own."""


def _through_cells(kind: str, hot: bool) -> Draws:
    figure = washed_out(kind, hot=hot)
    if figure is None:
        return np.ones(1)
    return draw(figure.spread, f"{kind}/cells/{'pot' if hot else 'cold'}", floor=0.0, ceiling=1.0)


@lru_cache(maxsize=64)
def free_shares(kind: str | None = None) -> tuple[Amounts, Amounts]:
    """The share (0 to 1) of each row of SOLUTES and of FREE that is free to leave a food, (rows, draws) each.

    Sodium's is the likely one in every draw: what the sodium of an answer hangs on stands in its assumptions.
    """
    tags = tuple(ROW)

    def share(tag: str) -> Draws:
        figure = mobile_share(tag, kind)
        if figure is None or tag == "NA":
            return np.full(DRAWS + 1, figure.spread.likely if figure else 0.0)
        return draw(figure.spread, f"free/{figure.row or tag}", floor=0.0, ceiling=1.0)

    return tuple(np.array([share(tag) for tag in tags[rows]]) for rows in (SOLUTES, FREE))  # type: ignore[return-value]
