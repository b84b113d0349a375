"""What counted pieces of a food weigh: by its own household weights, by usual pieces, by their length."""

from __future__ import annotations

from dataclasses import dataclass

from ...core.numbers import shown
from ...core.sourced import SourcedFigure
from ...core.spread import Spread, product
from ...lines.line import Measure
from ...units.kitchen_units import dimension, find, to_millimetres
from . import household_weights, typical
from .edible_portion import drained
from .weighed_line import WeighedLine
from .weight import Weight, said

_OF_WHOLE = {"piece": 1.0, "half": 0.5}
"""Counts that stand for a share of the food itself where no weight is kept for them."""


@dataclass(frozen=True, slots=True)
class _Each:
    """What one counted piece weighs, and how that is known. drained: a can without its liquid."""

    figure: SourcedFigure
    basis: str
    drained: bool = False


def by_piece(measure: Measure, asked: WeighedLine, *, household: bool) -> Weight | None:
    """The weight by count, from the food's household weights or the table of pieces."""
    each = _piece_of_length(measure, asked) or _named_by_piece(measure, asked)
    own = (
        household_weights.by_count(asked.food, measure.unit, asked.line) if household and asked.food else None
    )
    ours = _Each(own.figure, own.basis, own.drained) if own else None
    if each is None and own and own.fits:
        each = _closer_piece(measure, asked) or ours
    each = each or _typical_piece(measure.unit, asked) or ours
    if each is None:
        return None
    unit = f" per {measure.unit}" if measure.unit else " each"
    text = f"{shown(measure.amount.likely)} × {shown(each.figure.spread.likely)} g{unit}, {each.basis}"
    weight = Weight(product(measure.amount, each.figure.spread), text, each.figure.source)
    return weight if each.drained else drained(weight, asked)


def _named_by_piece(measure: Measure, asked: WeighedLine) -> _Each | None:
    """ "3 cloves" of what is found to be garlic: the food is named by its piece."""
    unit = find(asked.line.food_words) if measure.unit is None and asked.food else None
    if unit is None or asked.food is None or dimension(unit) != "count":
        return None
    found = typical.piece(asked.dataset_name, unit)
    return _Each(found.weight(asked.line.size), f"usual {unit}") if found else None


def _closer_piece(measure: Measure, asked: WeighedLine) -> _Each | None:
    """The usual piece of what the line names closer than the dataset's name does."""
    if asked.food is None:
        return None
    found = typical.closer_piece(asked.phrase, measure.unit, asked.dataset_name)
    return _Each(found.weight(asked.line.size), "usual piece of what the line names") if found else None


def _typical_piece(unit: str | None, asked: WeighedLine) -> _Each | None:
    found = next((each for name in asked.phrases() if (each := typical.piece(name, unit))), None)
    found = found or (typical.piece_of_any_food(unit) if asked.line.food_words else None)
    if found:
        size = f"{asked.line.size} " if asked.line.size else ""
        return _Each(found.weight(asked.line.size), f"usual {size}piece")
    whole = _typical_piece(None, asked) if unit in _OF_WHOLE else None
    if whole is None:
        return None
    figure = whole.figure.scaled(_OF_WHOLE[unit or ""])
    return _Each(figure, whole.basis)


def _piece_of_length(measure: Measure, asked: WeighedLine) -> _Each | None:
    """ "a 2-inch piece of ginger": so many inches, where the weight of one is known."""
    is_length = dimension(measure.unit) == "length"
    length = Measure(Spread.exact(1.0), measure.unit) if is_length else asked.line.package
    millimetres = to_millimetres(length.unit or "") if length else None
    if length is None or millimetres is None or dimension(measure.unit) not in {None, "count", "length"}:
        return None
    inch = next((each for name in asked.phrases() if (each := typical.piece(name, "inch"))), None)
    if inch is None:
        return None
    grams = product(length.amount.scaled(millimetres / 25.4), inch.weight("").spread)
    return _Each(SourcedFigure(grams, inch.source), f"usual piece of {said(length)}")
