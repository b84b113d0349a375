"""Salted flour and crumbs that did not stick: thrown away, unless a person says that they go in, too."""

from __future__ import annotations

from .happenings import SALTING, Happening
from .left_to_the_cook import food_grams, grams_roughly
from .method_words import phrasing
from .questions import Doubts
from .reading_state import ReadingState
from .stakes import SALT_MG_PER_G, is_salty, is_worth_asking, lines_mg
from .weights_told import grams_of

_SHAKEN = phrasing("shaken_off")
_SALTY = SALTING | {"cheese", "savoury"}
_LEFT = 0.5
"""Of a coating, roughly, what is left when food was turned in it."""
_STICKS = 0.05
"""Flour in weights of the food that sticks to it whole: seed_foods/coatings.csv, on pieces of 3 cm."""


def all_sticks(state: ReadingState, coating: Happening) -> bool:
    """Whether food is only dusted: "toss the beef in 2 tbsp of flour" leaves none, as flour for a sauce."""
    if _SHAKEN.search(coating.clause.sentence):
        return False
    dry = [state.lines[n] for n in coating.liquid if state.kind(n) == "flour"]
    known = [grams_roughly(line) for line in dry]
    if not dry or None in known or "egg" in map(state.kind, coating.liquid):
        return False
    return sum(filter(None, known)) <= _STICKS * food_grams(coating, state)


def coating_left(state: ReadingState, doubts: Doubts, coating: Happening, component: str) -> float:
    """The share of a coating that is eaten beyond what sticks, asked where much sodium lies in it."""
    salty = {n for n in coating.liquid if state.kind(n) in _SALTY or is_salty(state.lines[n])}
    dry = coating.water  # salt that only the method names
    more_g = (grams_of(dry.salt) if dry is not None and dry.salt else None) or 0.0
    if not is_worth_asking(state, _LEFT * (lines_mg(state, salty) + SALT_MG_PER_G * more_g)):
        return 0.0
    return doubts.figure("coating", coating.clause.sentence, "sticks", component)
