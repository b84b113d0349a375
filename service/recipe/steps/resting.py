"""Where a solute comes to rest in a food: how much its water holds, over the bath's, once nothing moves."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ...core.spread import Draws
from ...transfer.food_kinds import partition_at_rest
from ...transfer.usual import behind_fat, let_in
from ..pool_rows import WATER, WEIGHT
from ..pools import as_salt_g
from .work import Work

REMEMBERED = ("salt", "water", "dissolved", "ran_off_salt")
"""What a food remembers that tells the strength of a bath before it."""
_MOST_BEHIND_FAT = 0.4
"""Share of a food's water that fat can shut in at most: the lean of a belly is open at its edges."""


@dataclass(frozen=True, slots=True, eq=False)
class Rest:
    """partition: solute in a gram of the food's water over that in a gram of the bath's, at rest.

    off: how far a draw of it lies off the likely one, a ratio. What trials of the first hours tell, and
    diffusivities are made of, is how much salt goes in, room and pace together: where a food rests higher it
    goes there the slower by the square, so that the first hours have the range of the pace alone and the last
    ones that of the rest. What leaves a food in plain water says nothing of where salt would rest: 1."""

    partition: Draws
    off: Draws


def rest_of(work: Work, kind: str) -> Rest:
    """Where salt rests in a component of a class of food, by its own figures, entered once."""
    at_rest = work.assume("at-rest", partition_at_rest(kind), "ratio", shared=f"{kind}/at-rest")
    off = np.ones_like(at_rest) if work.step.kind == "soak" else at_rest / at_rest[0]
    return Rest(np.asarray(_through_cells(work, kind, at_rest) * (1.0 - _shut_by_fat(work, kind))), off)


def _through_cells(work: Work, kind: str, at_rest: Draws) -> Draws:
    """Living cells of a plant keep salt out, under dry salt most of it; heat and strong brine kill them."""
    cells = let_in(kind)
    if cells is None:
        return at_rest
    off, rests = at_rest / at_rest[0], at_rest[0]
    alive = 1.0 - min(
        max(work.history.heated, work.composition.done_share, cells.dead(first_strength(work))), 1.0
    )
    if work.step.kind == "dry_cure":
        share = work.assume("let-in", cells.share, "fraction", ceiling=1.0, shared=f"{kind}/let-in")
        rests = rests * share
    return np.asarray(off * (1.0 - (1.0 - rests) * alive))


def _shut_by_fat(work: Work, kind: str) -> Draws | float:
    """Share of the food's water that its fat keeps from any bath, where the caller states none."""
    layers, main = behind_fat(kind), work.main
    if layers is None or main is None or work.step.untaken_fraction is not None:
        return 0.0
    fat, water = main.per_100g("FAT") or 0.0, main.per_100g("WATER") or 0.0
    over = max(fat - layers.lean_fat, 0.0) / max(water, 1.0)
    if over == 0.0:
        return 0.0
    shut = work.assume("behind-fat", layers.water, "g/g", shared=f"{kind}/behind-fat")
    return np.asarray(np.minimum(shut * over, _MOST_BEHIND_FAT))


def first_strength(work: Work) -> float:
    """Likely strength of a bath before foods took of it and gave to it: salt, and what draws water as it
    does, in percent of it and water; of a dry cure, in percent of the raw foods."""
    bath = work.pools.leading[work.step.bath or ""]
    salt, water, green = float(as_salt_g(bath[:, :1])[0]), float(bath[WATER, 0]), 0.0
    for name in work.step.food:
        history, weight = work.state.histories[name], float(work.pools.leading[name][WEIGHT, 0])
        gained = {each: float(np.ravel(getattr(history, each))[0]) for each in REMEMBERED}
        salt += (gained["salt"] + gained["ran_off_salt"]) * weight
        water += gained["water"] * weight
        green += (1 - gained["water"] - gained["dissolved"]) * weight
    if work.step.kind == "dry_cure":
        return 100 * salt / green if green > 0 else 0.0
    return 100 * salt / (salt + water) if salt > 0 and salt + water > 0 else 0.0
