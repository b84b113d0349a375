"""Changes tried on a recipe without reading it again: other weights, times, fates, foods or servings."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from ..core.errors import pointing_below
from ..core.notices import STATED
from ..core.spread import Spread
from ..foods.dataset import FoodTable
from ..foods.food import Food
from .calculation import cook_listed, read_all
from .outcome import Outcome, ResolvedIngredient
from .packets import custom_foods
from .request import RecipeRequest
from .sub_recipes import by_weight

LEAST_PORTION_G = 0.1


@dataclass(frozen=True, slots=True, eq=False)
class Variant:
    """A recipe, its ingredients read; every `with_...` is another variant, and none changes this one."""

    request: RecipeRequest
    listed: tuple[ResolvedIngredient, ...]
    foods: FoodTable

    @classmethod
    def of(cls, recipe: Mapping[str, Any], foods: FoodTable) -> Variant:
        """From a schema-checked document. Raises InvalidRequest, its faults pointing below /recipe."""
        with pointing_below("/recipe"):
            request = RecipeRequest.from_document(recipe)
            known = foods.with_custom(custom_foods(request.custom_foods))
            return cls(request, tuple(read_all(request, known)), known)

    def cooked(self) -> Outcome:
        return cook_listed(self.request, self.listed, self.foods)

    def with_servings(self, servings: float) -> Variant:
        return replace(self, request=replace(self.request, servings=servings))

    def with_portion(self, portion_g: float) -> Variant:
        """Portions of another weight; of the least that may be stated where it would be less."""
        portion_g = max(portion_g, LEAST_PORTION_G)
        return replace(self, request=replace(self.request, portion_g=portion_g))

    def with_grams(self, key: str, grams: float, food: Food | None = None) -> Variant:
        """So many grams of the food with that key (`ResolvedIngredient.key`), or of another."""
        return replace(self, listed=tuple(_weighed(each, key, grams, food) for each in self.listed))

    def with_step(self, index: int, **changes: Any) -> Variant:
        """Other measures of one step, by their names in a StepRequest."""
        steps = tuple(
            replace(step, **changes) if step.index == index else step for step in self.request.steps
        )
        return replace(self, request=replace(self.request, steps=steps))

    def without_eating(self, component: str) -> Variant:
        """What is left of a component is not eaten."""
        components = tuple(
            replace(each, eaten_fraction=0.0) if each.id == component else each
            for each in self.request.components
        )
        return replace(self, request=replace(self.request, components=components))


def _weighed(listed: ResolvedIngredient, key: str, grams: float, food: Food | None) -> ResolvedIngredient:
    if listed.key != key:
        return listed
    ingredient = replace(
        listed.ingredient,
        grams=Spread.exact(grams),
        grams_basis=STATED,
        grams_source=STATED,
        food=food or listed.ingredient.food,
        portion=None if food else by_weight(listed.ingredient.portion),
    )
    return replace(listed, ingredient=ingredient)
