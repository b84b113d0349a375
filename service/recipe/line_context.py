"""A line read in its recipe: the other lines decide what a doubtful word means ("cloves" among spices)."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from ..core.checkpoint import checkpoint
from ..core.errors import Faults
from ..core.tables import Row, load
from ..foods.dataset import FoodTable
from ..foods.matching.everyday_names import depends_on_company
from .ingredients import Ingredient, IngredientRequest, ReadSettings, resolve

Asked = str | IngredientRequest


def read_together(
    asked: Sequence[Asked], pointers: Sequence[str], foods: FoodTable, settings: ReadSettings
) -> list[Ingredient]:
    """The ingredients of one recipe, in order, the doubtful ones read beside the others.

    pointers: where each stands. Raises InvalidRequest with the faults of all of them.
    """
    alone: list[Ingredient] = []
    faults = Faults()
    for each, pointer in zip(asked, pointers, strict=True):
        checkpoint()
        with faults.below(pointer):
            alone.append(resolve(each, foods, settings))
    faults.refuse()
    return [_beside(at, asked, alone, foods, settings) for at in range(len(asked))]


def _beside(
    at: int, asked: Sequence[Asked], alone: Sequence[Ingredient], foods: FoodTable, settings: ReadSettings
) -> Ingredient:
    """The ingredient of that place, read again beside the others where they may tell what it is."""
    if not depends_on_company(alone[at].read.food_words):
        return alone[at]
    marks = _marks([each for other, each in enumerate(alone) if other != at])
    return resolve(asked[at], foods, settings, beside=marks) if marks else alone[at]


def _marks(others: Sequence[Ingredient]) -> tuple[str, ...]:
    """What the other ingredients of a recipe tell."""
    codes = {each.food.code for other in others for each in other.foods if each.food}
    return tuple(mark for mark, telling, least in _company() if len(telling & codes) >= least)


@cache
def _company() -> tuple[tuple[str, frozenset[str], int], ...]:
    def make(row: Row) -> tuple[str, frozenset[str], int]:
        return row["mark"], frozenset(row["codes"].split("|")), int(row["least"])

    return load("line_company", make)
