"""Weights that a line or its package states: the edible part of them, without the liquid of a drained can."""

from __future__ import annotations

from ...core.numbers import percent
from ...core.spread import Spread, product
from ...lines.line import Measure
from ...units.kitchen_units import to_grams
from . import typical
from .edible_portion import edible_share
from .weighed_line import WeighedLine
from .weight import Weight, said

STATED_IN_LINE = "stated in the line"
"""The source of a weight that the line itself gives."""

_CANS = frozenset({"can", "jar"})
_DRAINED = frozenset({"drained", "rinsed"})
_UNDRAINED = frozenset({"undrained", "liquid", "juice", "juices", "brine"})
_DRAINED_ROW = "drained solids"
"""How the dataset names rows whose values are those of a can without its liquid."""


def by_mass(measure: Measure, asked: WeighedLine, *, packed: bool = False) -> Weight:
    unit_g = to_grams(measure.unit or "") or 0.0
    grams = measure.amount.scaled(unit_g)
    basis = f"weight in the line, {said(measure)}"
    if packed and asked.line.unit in _CANS:
        return drained(Weight(grams, basis, STATED_IN_LINE), asked)
    share = edible_share(asked.line, asked.food, asked.phrase)
    if share is None:
        return Weight(grams, basis, STATED_IN_LINE)
    return Weight(product(grams, share.grams), f"{basis}, {share.basis}", share.source)


def drained(weight: Weight, asked: WeighedLine) -> Weight:
    """A can's weight without its liquid, where the line or the food's row says that it is drained."""
    words = " ".join(asked.line.preparation).replace(",", " ").split()
    if asked.line.unit not in _CANS or weight.grams is None:
        return weight
    figure = typical.drained_share(asked.phrase)
    share = figure.spread
    if _DRAINED.isdisjoint(words):
        if asked.food is None or _DRAINED_ROW not in asked.food.name or not _UNDRAINED.isdisjoint(words):
            return weight
        # Nothing is said of the liquid. The row's values are of what is drained, and most is; not always.
        share = Spread(share.low, share.likely, 1.0)
    basis = f"{weight.basis}, drained: {percent(share.likely)} of it"
    return Weight(product(weight.grams, share), basis, figure.source, weight.notices)
