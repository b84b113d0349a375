"""Turns a read line into grams of its food, by the surest way there is, and says which.

The order: a weight in the line; the food's own household weight in the matching form; the same by another
volume; typical densities and pieces; a stated default where the line has no quantity. What cannot be
weighed is said to be so.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ...core.notices import Notice
from ...core.numbers import shown
from ...core.sourced import SourcedFigure
from ...core.spread import Spread, product
from ...lines.line import Line, Measure
from ...units.kitchen_units import Cup, dimension
from ..food import Food
from . import typical
from .counts import by_piece
from .edible_portion import STATED_IN_LINE, by_mass
from .volumes import RECKONED, by_volume
from .weighed_line import WeighedLine
from .weight import Weight, is_guess, range_text


def weigh(line: Line, food: Food | None, *, cup: Cup = "us") -> Weight:
    """What `line` weighs if it is of `food`; `food` None weighs by the line's words alone.

    cup: what cups and spoons hold. Never raises; what cannot be weighed has grams None and a notice.
    """
    asked = WeighedLine(line, food, cup)
    if line.amount is None:
        return without_quantity(asked)
    for weight in _ways(asked):
        if weight is not None:
            return _possible(_checked(weight, asked), asked)
    return _unknown(line)


def _ways(asked: WeighedLine) -> Iterator[Weight | None]:
    """Weights of the line by each way, the surest first."""
    line = asked.line
    main = Measure(line.amount, line.unit) if line.amount else None
    stated = [each for each in (main, *line.measures) if each]
    yield from (by_mass(each, asked) for each in stated if dimension(each.unit) == "mass")
    package = _all_packages(line)
    if package and dimension(package.unit) == "mass":
        yield by_mass(package, asked, packed=True)
    if package and dimension(package.unit) == "volume":
        yield by_volume(package, asked)
    for each in stated:
        if dimension(each.unit) == "volume":
            yield by_piece(each, asked, household=False)
            yield by_volume(each, asked)
        else:
            yield by_piece(each, asked, household=True)


def _all_packages(line: Line) -> Measure | None:
    """What the line's packages hold together."""
    if line.package is None or line.amount is None:
        return None
    return Measure(product(line.amount, line.package.amount), line.package.unit)


def _unknown(line: Line) -> Weight:
    asked = f"{line.unit} of " if line.unit else ""
    food = line.food_words or "this food"
    message = f"It is not known what a {asked}{food} weighs, so it is not counted. Give grams."
    return Weight(None, "weight not known", "", (Notice("no-weight", "check", message),), guessed=True)


def _checked(weight: Weight, asked: WeighedLine) -> Weight:
    """The weight, called a guess where its range is broad, or where it is of one of an unknown number."""
    grams = weight.grams
    if "per" in asked.line.flags:
        message = (
            "The line gives an amount for one of something, and not for how many. Give the amount for all."
        )
        return replace(weight, notices=(*weight.notices, Notice("amount-per", "info", message)), guessed=True)
    of_no_size = dimension(asked.line.unit) == "container" and not asked.line.package
    reckoned = weight.basis.endswith(RECKONED)
    if grams is None or not is_guess(
        grams, asked.line.amount, asked.food, reckoned=reckoned, container=of_no_size
    ):
        return weight
    message = f"The weight is rough: {shown(grams.likely)} g, {range_text(grams)}. Weigh it and give grams."
    told = weight.notices or (Notice("rough-weight", "info", message),)
    return replace(weight, notices=told, guessed=True)


def _possible(weight: Weight, asked: WeighedLine) -> Weight:
    """The weight, with a notice that stops where no line can mean so much."""
    if weight.grams is None or weight.source == STATED_IN_LINE:
        return weight
    measure = dimension(asked.line.unit) or "count"
    code = asked.food.code if asked.food else ""
    for limit in typical.line_limits():
        fits = limit.measure == measure and (not limit.codes or code in limit.codes)
        if fits and weight.grams.likely > limit.most_g:
            message = (
                f"The line comes to {shown(weight.grams.likely)} g ({weight.basis}): {limit.reason}. "
                "Write the amount in another way, or give grams."
            )
            return replace(weight, notices=(*weight.notices, Notice("impossible-weight", "stop", message)))
    return weight


ASSUMED = "no quantity in the line: a default for such a line"
"""The basis of a weight that no line states."""


def without_quantity(asked: WeighedLine) -> Weight:
    """A line without quantity: the default for its purpose, or nothing."""
    line = asked.line
    found = _default(asked) if line.food_words else None
    if found is None:
        message = "The line gives no quantity, so its food is not counted. Add an amount, or give grams."
        return Weight(None, "no quantity in the line", "", (Notice("no-quantity", "check", message),))
    grams = found.spread
    message = (
        f"The line gives no quantity; {shown(grams.likely)} g were taken ({range_text(grams)}). "
        "Add an amount, or give grams."
    )
    told = (Notice("default-quantity", "info", message),)
    return Weight(
        grams,
        ASSUMED,
        found.source,
        told,
        guessed=is_guess(grams, asked.line.amount, asked.food),
    )


def _default(asked: WeighedLine) -> SourcedFigure | None:
    """g taken for the food without quantity; None where nothing is said of it."""
    group = asked.food.group_code if asked.food else ""
    for default in typical.defaults(asked.line.flags, tuple(asked.phrases()), group):
        if not default.in_pieces:
            return SourcedFigure(default.amount, default.source)
        piece = _one_piece(asked)
        if piece:
            return SourcedFigure(product(default.amount, piece), default.source)
    return None


def _one_piece(asked: WeighedLine) -> Spread | None:
    """What one piece of the food weighs, in g."""
    weight = by_piece(Measure(Spread.exact(1.0), None), asked, household=True)
    return weight.grams if weight else None
