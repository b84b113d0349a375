"""What food can be: limits of plausible_limits.csv, and the nearest finished food of the dataset to hold a
dish against.

Numbers and rules only; `recipe.plausibility` asks them of a recipe.
"""

from __future__ import annotations

import math
from array import array
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from ..core.tables import Row, each_row, load
from .energy import general_kcal_g

Verdict = Literal["check", "stop"]

MIRRORED = ("NA", "K", "WATER", "PROCNT", "ENERC")
"""What is compared with the nearest finished food."""

_NEAR_BY = ("WATER", "PROCNT", "FAT", "CHOCDF", "FIBTG", "SUGAR")
"""What decides which finished food is nearest, all in g of 100 g."""

TRACE = 1e-6
"""So little below a limit is what floating point leaves."""

OWN_ENERGY_WITHIN = 0.15
"""How far the energy of a dish may lie from 4/9/4/7 of its own protein, fat, carbohydrate and alcohol."""


@dataclass(frozen=True, slots=True)
class Limit:
    """Beyond low or stop an amount is impossible, beyond check doubtful; None: no such limit."""

    low: float | None
    check: float | None
    stop: float | None
    unit: str
    source: str

    def verdict(self, amount: float) -> Verdict | None:
        if (self.stop is not None and amount > self.stop) or (
            self.low is not None and amount < self.low - TRACE
        ):
            return "stop"
        return "check" if self.check is not None and amount > self.check else None


@cache
def _limits() -> dict[tuple[str, str, str], Limit]:
    return dict(load("plausible_limits", _limit))


def _limit(row: Row) -> tuple[tuple[str, str, str], Limit]:
    low, check, stop = (float(row[name]) if row[name] else None for name in ("low", "check", "stop"))
    return (row["subject"], row["key"], row["food_class"]), Limit(
        low, check, stop, row["unit"], row["source"]
    )


@lru_cache(maxsize=1024)
def limit(subject: str, key: str, food_class: str | None = None) -> Limit | None:
    """The limit of a subject ("line", "serving", "component", "packet", "step", "mirror"), that of a class
    of food where it has one of its own."""
    family = (food_class or "").partition("_")[0]  # fish, of fish_lean
    return _limits().get((subject, key, family)) or _limits().get((subject, key, ""))


@dataclass(frozen=True, slots=True)
class Likeness:
    """The finished food that is nearest by water, protein, fat and carbohydrate; ratio: of the dish to it,
    by tag, None where the food has none."""

    code: str
    name: str
    ratio: Mapping[str, float | None]

    def far_off(self) -> tuple[str, ...]:
        """The tags whose ratio no two finished foods of one make have."""
        return tuple([tag for tag, ratio in self.ratio.items() if ratio is not None and _is_far(tag, ratio)])


def _is_far(tag: str, ratio: float) -> bool:
    found = limit("mirror", tag)
    if found is None:
        return False
    is_low = found.low is not None and ratio < found.low
    return is_low or (found.check is not None and ratio > found.check)


@dataclass(frozen=True, slots=True, eq=False)
class _Index:
    """All finished foods. groups: two figures each. near: shape (len(_NEAR_BY), foods), size: their squares'
    sums; held: (foods, len(MIRRORED))."""

    named: tuple[tuple[str, str], ...]
    groups: NDArray[np.str_]
    near: NDArray[np.float64]
    size: NDArray[np.float64]
    held: NDArray[np.float64]


@cache
def _index() -> _Index:
    table = each_row("data/finished_foods")
    head = next(table)
    code, name, group = map(head.index, ("code", "name", "group"))
    told = [head.index(tag) for tag in (*_NEAR_BY, *MIRRORED)]
    named, groups, figures = list[tuple[str, str]](), list[str](), array("d")
    for cells in table:
        named.append((cells[code], cells[name]))
        groups.append(cells[group])
        figures.extend([float(cells[at]) for at in told])
    by_food = np.frombuffer(figures).reshape(-1, len(told))
    near = np.ascontiguousarray(by_food[:, : len(_NEAR_BY)].T)
    held = np.ascontiguousarray(by_food[:, len(_NEAR_BY) :])
    return _Index(tuple(named), np.array(groups), near, np.square(near).sum(axis=0), held)


@cache
def _of_group(
    group: str | None,
) -> tuple[NDArray[np.intp], NDArray[np.float64], NDArray[np.float64]]:
    """Which finished foods are of a food group, two figures, with their near and size; all of them where it
    has too few, or None."""
    index = _index()
    own = np.flatnonzero(index.groups == group)
    found = own if len(own) > FEW else np.arange(len(index.groups))
    return found, np.ascontiguousarray(index.near[:, found]), index.size[found]


FEW = 5
"""How many of the nearest by their make are looked at for the one that is most like in the rest."""

LEAST = {"NA": 40.0, "K": 40.0, "WATER": 5.0, "PROCNT": 2.0, "ENERC": 20.0}
"""Of this little in 100 g, a ratio says nothing."""


def nearest(per_100g: Mapping[str, float], group: str | None = None) -> Likeness:
    """The finished food most like what is told by tag of 100 g: of the few nearest by their make, the one
    that is nearest in the rest. group: two figures of a food group, to look in it alone."""
    index, (own, near, size) = _index(), _of_group(group)
    asked = np.array([per_100g[tag] for tag in _NEAR_BY])
    away = size - 2 * (asked @ near)
    few = []
    for _ in range(FEW):  # quicker than to part thousands
        few.append(int(away.argmin()))
        away[few[-1]] = math.inf
    alike = [_likeness(index, at, per_100g) for at in own[few].tolist()]
    return min(alike, key=lambda each: (len(each.far_off()), _strangeness(each)))


def _likeness(index: _Index, at: int, per_100g: Mapping[str, float]) -> Likeness:
    ratios = {}
    for tag, held in zip(MIRRORED, index.held[at].tolist(), strict=True):
        amount, least = per_100g[tag], LEAST[tag]
        ratios[tag] = None if amount < least and held < least else amount / max(held, least)
    return Likeness(*index.named[at], ratios)


def _strangeness(alike: Likeness) -> float:
    """How far the ratios lie from 1, all together."""
    ratios = [ratio for ratio in alike.ratio.values() if ratio is not None]
    return sum([abs(math.log(max(ratio, 1e-3))) for ratio in ratios])


def own_energy_kcal(per_100g: Mapping[str, float]) -> float:
    """Energy by 4, 9, 4 and 7 kcal/g of protein, fat, carbohydrate without fibre, and alcohol."""
    available = max(per_100g["CHOCDF"] - per_100g["FIBTG"], 0.0)
    return (
        per_100g["PROCNT"] * general_kcal_g("PROCNT")
        + per_100g["FAT"] * general_kcal_g("FAT")
        + available * general_kcal_g("CHOCDF")
        + per_100g["ALC"] * general_kcal_g("ALC")
    )
