"""Recipes that are ingredients of others: found by key, worked out once, and portioned draw by draw.

A portion brings what its recipe serves, in every draw. Draws belong to the name of their cause, so what two
recipes assume alike is high in both together, and a recipe that is all of another one has its range.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

import numpy as np

from ..core.documents import figure
from ..core.errors import Fault, InvalidRequest
from ..core.notices import STATED, Notice
from ..core.numbers import shown
from ..core.spread import Draws, Spread, summarise
from ..core.step_kinds import kinds_that
from ..foods.dataset import FoodTable
from ..foods.food import Food, Sugars, Values
from ..foods.nutrients import NUTRIENTS
from .derived import added_share
from .ingredients import Ingredient, IngredientRequest
from .outcome import Outcome, ResolvedIngredient
from .plausibility import plausible
from .pool_rows import NUTRIENT_ROWS, ROW, WEIGHT
from .pools import TRACE, Amounts
from .request import RecipeRequest

if TYPE_CHECKING:
    from collections.abc import Sequence

MOST_DEEP = 10
"""So many recipes may stand in one another."""

HEATING = kinds_that("heat")
"""Kinds of steps after which a recipe is cooked: its portion gets no yield and no heat losses again."""

CODE = "recipe:"
"""How the code of a food begins that is a recipe."""


@dataclass(frozen=True, slots=True)
class SavedRecipe:
    """A recipe as it is kept: what is worked out, its overrides laid over what was sent."""

    key: str
    version: int
    save_id: str
    title: str
    document: Mapping[str, Any]


Find = Callable[[str], SavedRecipe | None]
Cook = Callable[[RecipeRequest, FoodTable], Outcome]


class MadeOfItself(InvalidRequest):
    """A recipe that is, through others, an ingredient of itself. path: the keys, from it back to it."""

    def __init__(self, pointer: str, path: Sequence[str]) -> None:
        self.path = tuple(path)
        told = " → ".join(path)
        message = f"A recipe cannot be made of itself: {told}. Take one of them out."
        super().__init__([Fault(pointer, message)])


@dataclass(frozen=True, slots=True, eq=False)
class Portion:
    """What of another recipe goes in as an ingredient.

    fraction: of all that it serves; None where the weight of the ingredient says how much.
    """

    of: SavedRecipe
    outcome: Outcome
    fraction: float | None

    @property
    def name(self) -> str:
        return self.of.title or self.of.key

    def share(self, grams: Spread) -> Draws | float:
        """The share of all that the recipe serves, likely first. grams: the ingredient's weight."""
        if self.fraction is not None:
            return self.fraction
        share: Draws = grams.likely / np.maximum(self.outcome.eaten[WEIGHT], TRACE)
        return share

    def likely_share(self, grams: Spread) -> float:
        share = self.share(grams)
        return float(share if isinstance(share, float) else share[0])

    def amounts(self, grams: Spread) -> Amounts:
        """What it brings, by the rows of a pool, in every draw."""
        brought: Amounts = self.outcome.eaten * self.share(grams)
        return brought

    @property
    def per_100g(self) -> Values:
        """Likely amounts in 100 g of what its recipe serves, in the order of NUTRIENTS; NaN: not known."""
        eaten = self.outcome.eaten[:, 0]
        values: Values = eaten[NUTRIENT_ROWS] * 100 / max(float(eaten[WEIGHT]), TRACE)
        values[self.outcome.coverage() == 0] = np.nan
        values.setflags(write=False)
        return values

    @property
    def document(self) -> dict[str, Any]:
        """What the answer tells of it beside its weight: its key, and 100 g of it by tag."""
        held = zip((nutrient.tag for nutrient in NUTRIENTS), self.per_100g.tolist(), strict=True)
        per_100g = {tag: figure(value) for tag, value in held if not math.isnan(value)}
        return {"recipe": self.of.key, "recipe_per_100g": per_100g}

    @property
    def notices(self) -> list[Notice]:
        """What a person should look at in the recipe itself, for the line that it is an ingredient in."""
        found = (*plausible(self.outcome).notices, *self.outcome.notices)
        return [
            Notice(each.code, each.severity, f"In the recipe {self.name!r}: {each.message}")
            for each in found
            if each.severity != "info"
        ]


class Cookbook:
    """The saved recipes that one calculation may use, each worked out at most once."""

    def __init__(self, find: Find, own: str | None = None) -> None:
        """find: gives a recipe by its key, None where there is none. own: the key of the recipe that is
        worked out, None where it has none."""
        self._find, self._path = find, [own] if own is not None else []
        self._found: dict[str, SavedRecipe | None] = {}
        self._outcomes: dict[str, Outcome] = {}

    def saved(self, key: str) -> SavedRecipe | None:
        if key not in self._found:
            self._found[key] = self._find(key)
        return self._found[key]

    def outcome(self, found: SavedRecipe, foods: FoodTable, cook: Cook, pointer: str) -> Outcome:
        """What the recipe comes to. Raises InvalidRequest, MadeOfItself."""
        if found.key in self._path:
            raise MadeOfItself(pointer, [*self._path[self._path.index(found.key) :], found.key])
        if len(self._path) >= MOST_DEEP:
            message = f"Recipes stand in one another more than {MOST_DEEP} deep; list one's ingredients here."
            raise InvalidRequest([Fault(pointer, message)])
        if found.key not in self._outcomes:
            self._path.append(found.key)
            try:
                self._outcomes[found.key] = cook(RecipeRequest.from_document(found.document), foods)
            except MadeOfItself as refused:
                raise MadeOfItself(pointer, refused.path) from refused
            except InvalidRequest as refused:
                message = f"The recipe {found.key!r} cannot be worked out: {refused.faults[0].message}"
                raise InvalidRequest([Fault(pointer, message)]) from refused
            finally:
                self._path.pop()
        return self._outcomes[found.key]


_IN_FORCE: ContextVar[Cookbook | None] = ContextVar("cookbook", default=None)


@contextmanager
def cookbook(find: Find, own: str | None = None) -> Iterator[None]:
    """While it is open, ingredients may name saved recipes; see `Cookbook`."""
    token = _IN_FORCE.set(Cookbook(find, own))
    try:
        yield
    finally:
        _IN_FORCE.reset(token)


def portion_of(asked: IngredientRequest, foods: FoodTable, cook: Cook) -> Ingredient:
    """The ingredient that is a portion of a saved recipe.

    Raises InvalidRequest with pointers relative to `asked`: there is no such recipe, or it cannot be worked
    out; MadeOfItself.
    """
    assert asked.recipe is not None
    kept = _IN_FORCE.get()
    found = kept.saved(asked.recipe) if kept else None
    if kept is None or found is None:
        message = f"There is no saved recipe {asked.recipe!r}; save it first, or list its ingredients here."
        raise InvalidRequest([Fault("/recipe", message)])
    outcome = kept.outcome(found, foods, cook, "/recipe")
    weight = outcome.eaten[WEIGHT]
    if float(weight[0]) <= TRACE:
        message = f"Nothing of the recipe {asked.recipe!r} is eaten, so there is nothing to use of it."
        raise InvalidRequest([Fault("/recipe", message)])
    fraction = None if asked.fraction is None else float(asked.fraction)
    if asked.servings is not None:
        fraction = asked.servings / outcome.request.servings
    if asked.grams is not None:  # a reviewer's weight holds over what was sent
        fraction = None
    portion = Portion(found, outcome, fraction)
    grams = Spread.exact(asked.grams or 0.0) if fraction is None else summarise(weight * fraction)
    return Ingredient(
        line=asked.line or portion.name,
        amount=None,
        unit=None,
        grams=grams,
        grams_basis=_basis(asked, found),
        grams_source=STATED,
        food=_as_food(portion),
        confidence=1.0,
        sure_of_food=1.0,
        alternatives=(),
        preparation=(),
        eaten_fraction=asked.eaten_fraction,
        notices=tuple(portion.notices),
        portion=portion,
    )


def _basis(asked: IngredientRequest, found: SavedRecipe) -> str:
    named = f"the recipe {found.key!r} (version {found.version})"
    if asked.grams is not None:
        return f"{STATED}: grams of {named}"
    if asked.servings is not None:
        return f"{STATED}: {shown(asked.servings)} servings of {named}"
    return f"{STATED}: {shown(asked.fraction or 0.0)} of {named}"


def _as_food(portion: Portion) -> Food:
    """What is served of a recipe, as a food: likely amounts in 100 g, of the heaviest food's group."""
    outcome = portion.outcome
    eaten = outcome.eaten[:, 0]
    heaviest = max(
        (each for each in outcome.listed if each.ingredient.food and each.component in outcome.state.served),
        key=lambda each: each.grams * each.eaten_share,
        default=None,
    )
    like = heaviest.ingredient.food if heaviest else None
    added, sugar = added_share(outcome), float(eaten[ROW["SUGAR"]] * 100 / eaten[WEIGHT])
    heated = any(step.kind in HEATING for step in outcome.request.steps)
    return Food(
        code=f"{CODE}{portion.of.key}",
        name=f"{portion.name}, cooked" if heated else portion.name,
        group=like.group if like else "",
        group_code=like.group_code if like else "",
        values=portion.per_100g,
        source=f"the saved recipe {portion.of.key!r}, version {portion.of.version} ({portion.of.save_id})",
        sugars=Sugars(None if added is None else added * sugar),
    )


def portions(listed: Sequence[ResolvedIngredient]) -> Iterator[tuple[ResolvedIngredient, Portion, Spread]]:
    """The ingredients that are portions of recipes, each with its weight."""
    for each in listed:
        if each.ingredient.portion is not None and each.ingredient.grams is not None:
            yield each, each.ingredient.portion, each.ingredient.grams


def by_weight(portion: Portion | None) -> Portion | None:
    """The portion, as much of it as the ingredient's weight says."""
    return None if portion is None else replace(portion, fraction=None)


def documents_below(document: Mapping[str, Any]) -> Iterator[tuple[str, Mapping[str, Any]]]:
    """Every recipe that a document is made of, at any depth, once, with the pointer of the first ingredient
    that leads to it; nothing where no cookbook is open."""
    kept, seen = _IN_FORCE.get(), set[str]()
    waiting = list(named_in(document)) if kept else []
    while waiting and kept is not None:
        pointer, key = waiting.pop()
        found = kept.saved(key) if key not in seen else None
        seen.add(key)
        if found is not None:
            yield pointer, found.document
            waiting += [(pointer, below) for _, below in named_in(found.document)]


def named_in(document: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    """The ingredients of a document that are recipes: pointer and key."""
    groups = {"/ingredients": document.get("ingredients") or ()}
    for i, component in enumerate(document.get("components") or ()):
        groups[f"/components/{i}/ingredients"] = component["ingredients"]
    for pointer, asked in groups.items():
        for i, each in enumerate(asked):
            if isinstance(each, Mapping) and each.get("recipe") is not None:
                yield f"{pointer}/{i}", each["recipe"]
