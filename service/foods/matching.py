"""Which food of the dataset a line's words mean, how sure that is, and what else it may be.

Everyday names come first; what they leave unsaid is looked for in the dataset's own names, which run
"Head noun, qualifier, qualifier". A word that nothing explains makes the
answer less sure; too many make it none.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from .dataset import FoodTable
from .food import Food
from .names import Name, common_names
from .words import Words, fold


@dataclass(frozen=True, slots=True)
class Match:
    """food None: nothing fits. confidence: 0 to 1. alternatives: at most three other foods, nearest first."""

    food: Food | None
    confidence: float
    alternatives: tuple[Food, ...]
    why: str


def match(words: str, preparation: Sequence[str], foods: FoodTable) -> Match:
    """The food that words (and preparation, where it changes the food) mean."""
    asked = fold(words)
    for food in foods.custom:
        if frozenset(fold(food.name)) == frozenset(asked):
            return Match(food, 1.0, (), "the caller's own food of that name")
    exact = common_names().exact.get(frozenset(asked))
    if exact:
        return Match(foods.get(exact.code), 0.95, (), "everyday name")
    inside = sorted(common_names().inside(frozenset(asked)), key=lambda name: _place(name, asked))
    others = tuple(foods.get(code) for code in dict.fromkeys(name.code for name in inside))
    if not others:
        return Match(None, 0.0, (), "no food of that name")
    share = len(set(inside[0].words)) / len(set(asked))
    return Match(others[0], 0.9 * share, others[1:4], "an everyday name inside the line's words")


def _place(name: Name, asked: Words) -> tuple[int, int]:
    return -len(name.words), -max(asked.index(word) for word in name.words)
