"""A line read in its recipe: the other lines decide what a doubtful word means ("cloves" among spices)."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from ..foods.dataset import FoodTable
from ..foods.names import depends_on_company
from ..tables import Row, load
from .ingredients import Ingredient, IngredientRequest, ReadSettings, resolve

Asked = str | IngredientRequest


def settled(
    asked: Sequence[Asked], read: Sequence[Ingredient], foods: FoodTable, settings: ReadSettings
) -> list[Ingredient]:
    """The ingredients of one recipe as read alone, the doubtful ones read again beside the others."""
    found = list(read)
    for at, ingredient in enumerate(read):
        if depends_on_company(ingredient.read.food_words):
            marks = _marks([each for other, each in enumerate(read) if other != at])
            found[at] = resolve(asked[at], foods, settings, beside=marks) if marks else ingredient
    return found


def _marks(others: Sequence[Ingredient]) -> tuple[str, ...]:
    """What the other ingredients of a recipe tell."""
    codes = {each.food.code for other in others for each in other.foods if each.food}
    return tuple(mark for mark, telling, least in _company() if len(telling & codes) >= least)


@cache
def _company() -> tuple[tuple[str, frozenset[str], int], ...]:
    def make(row: Row) -> tuple[str, frozenset[str], int]:
        return row["mark"], frozenset(row["codes"].split("|")), int(row["least"])

    return load("line_company", make)
