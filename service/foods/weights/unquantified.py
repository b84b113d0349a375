"""What is taken for a line that gives no quantity."""

from __future__ import annotations

from ...core.notices import Notice
from ...core.sourced import SourcedFigure
from ...core.spread import Spread, product
from ...lines.line import Measure
from . import typical
from .counts import by_piece
from .guesses import is_guess
from .weighed_line import WeighedLine
from .weight import Weight, figure_text, range_text

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
        f"The line gives no quantity; {figure_text(grams.likely)} g were taken ({range_text(grams)}). "
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
