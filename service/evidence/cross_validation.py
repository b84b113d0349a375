"""How far ranges hold for measurements of sources and foods that nothing was set by.

Every source of a kind is left out in turn: the ranges are stretched, or drawn in, by what the other sources
ask for nine in ten of their measurements, each source with one vote, and the measurements left out are held
against ranges so stretched. A source of many foods is left out food by food.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from statistics import median

from .coverage import Held, kinds

NINE_IN_TEN = 0.9
SHARED_OUT = ("-fitting", "-checking")
"""Ends of ids of sources that are shared out over both parts by food."""


@dataclass(frozen=True, slots=True)
class CrossValidated:
    """Of the measurements of a kind, how many lie inside ranges that other sources set.

    stretch: what all sources together ask of the ranges, 1 for none, on the logarithm; width: median of high
    over low, so stretched; None where ranges hold 0.
    """

    kind: str
    sources: int
    inside: int
    of: int
    stretch: float
    width: float | None


def cross_validated(held: Iterable[Held]) -> list[CrossValidated]:
    """By kind, in the order of the table; kinds of a single source are left out."""
    groups: dict[str, dict[str, list[Held]]] = {kind: defaultdict(list) for kind in kinds()}
    for each in held:
        groups[each.case.kind][_unit(each)].append(each)
    return [_of_kind(kind, units) for kind, units in groups.items() if len(units) > 1]


def off(held: Held) -> float:
    """How far a measurement lies from likely, in reaches of its range; 1 is an end of it.

    On the logarithm where all is above 0. What rounding may explain is taken off.
    """
    low, likely, high = held.range.low, held.range.likely, held.range.high
    slack = abs(held.case.published) * held.case.rounding
    published = held.case.published
    published -= math.copysign(min(slack, abs(published - likely)), published - likely)
    at = math.log if min(low, published) > 0 else float
    reach = at(high) - at(likely) if published > likely else at(likely) - at(low)
    away = abs(at(published) - at(likely))
    return away / reach if reach > 0 else (0.0 if away < 1e-9 else math.inf)


def _unit(held: Held) -> str:
    """What a measurement is left out with: its source, or the one food of a source of many."""
    source = held.case.source.id
    for end in SHARED_OUT:
        if source.endswith(end):
            food = held.case.request["components"][0]["ingredients"][0]["food"]
            return f"{source.removesuffix(end)} {food}"
    return source


def _of_kind(kind: str, units: dict[str, list[Held]]) -> CrossValidated:
    reaches = {unit: [off(each) for each in several] for unit, several in units.items()}
    inside = 0
    for unit, several in reaches.items():
        stretch = _stretch([each for other, each in reaches.items() if other != unit])
        inside += sum(each <= stretch for each in several)
    stretch = _stretch(list(reaches.values()))
    widths = [each.width for several in units.values() for each in several if each.width is not None]
    width = median(widths) ** stretch if widths and math.isfinite(stretch) else None
    return CrossValidated(kind, len(units), inside, sum(map(len, reaches.values())), stretch, width)


def _stretch(units: Sequence[Sequence[float]]) -> float:
    """The least stretch with which nine in ten lie inside, every unit with one vote and one more that none
    holds: so many are not known yet."""
    votes = sorted((each, 1 / len(several)) for several in units for each in several)
    wanted, so_far = NINE_IN_TEN * (len(units) + 1), 0.0
    for each, vote in votes:
        so_far += vote
        if so_far >= wanted - 1e-9:
            return each
    return math.inf
