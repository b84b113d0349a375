"""Raw rows and cooked rows: who is heated twice, who is not heated at all, and alcohol that stays.

Counting a cooking loss twice, or not at all, is the commonest fault of a recipe sum; a person can mend both.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ...core.notices import Notice
from ...core.numbers import shown
from ...core.step_kinds import kinds_that
from ...foods.food import Food
from ...nutrition.retention import cooking_state, says_done
from ..outcome import ResolvedIngredient
from ..request import SHORT_FORM, ComponentRequest, RecipeRequest

LITTLE_ALCOHOL_G = 0.1
"""Grams of alcohol a serving that are not worth a notice: a drop of extract."""

NAMED = 3
"""How many foods a notice names."""


def doneness_notices(
    request: RecipeRequest, listed: Sequence[ResolvedIngredient], served: frozenset[str]
) -> Iterator[Notice]:
    """What a reader should know of raw and cooked rows. served: ids of components that are eaten in part."""
    for component in request.components:
        own = [each for each in listed if each.component == component.id and each.grams > 0]
        steps = _heating(component, request)
        if steps:
            yield from (notice for each in own for notice in _cooked_again(each, steps))
        elif component.id in served and not _is_heated_around(component, request):
            yield from _raw_as_listed(component, own)
            yield from _alcohol_kept(component, own, request)


def _heating(component: ComponentRequest, request: RecipeRequest) -> list[int]:
    """Which steps heat a component, counted from 1."""
    return [
        step.index + 1
        for step in request.steps
        if step.kind in kinds_that("heat") and component.id in step.food
    ]


def _is_heated_around(component: ComponentRequest, request: RecipeRequest) -> bool:
    """Whether it is the liquid of a step with heat, is boiled down, or ends on food that is heated later."""
    return any(
        (step.bath == component.id and step.kind in kinds_that("heat") | {"dredge"})
        or (step.kind in ("reduce", "combine", "divide") and component.id in step.food)
        for step in request.steps
    )


def _cooked_again(listed: ResolvedIngredient, steps: Sequence[int]) -> Iterator[Notice]:
    food = listed.ingredient.food
    state = food and cooking_state(food.name, food.group_code)
    if food is None or state not in ("cooked", "canned"):
        return
    is_meant = state == "canned" or says_done(listed.ingredient.line)
    message = (
        f"{listed.name!r} is taken to be {food.name} ({food.code}), which has been cooked before, and step "
        f"{steps[0]} heats it again: no yield and no heat losses of a raw food are counted for it."
    )
    if not is_meant:
        message += " If it goes in raw, give food: the code of a raw row, from GET /v1/foods?query=."
    yield Notice("cooked-food-cooked-again", "info" if is_meant else "check", message, listed.pointer)


def _raw_as_listed(component: ComponentRequest, own: Sequence[ResolvedIngredient]) -> Iterator[Notice]:
    raw = list(dict.fromkeys(food.name for food in _foods(own) if _is_raw(food)))
    if not raw:
        return
    more = f" and {len(raw) - NAMED} more" if len(raw) > NAMED else ""
    yield Notice(
        "summed-as-listed",
        "info",
        f"No step heats {_named(component)}, so what is raw in it is summed as listed, with nothing lost in "
        f"cooking: {'; '.join(raw[:NAMED])}{more}. Give the steps (boil, roast …) for the dish as eaten.",
        component.pointer,
    )


def _alcohol_kept(
    component: ComponentRequest, own: Sequence[ResolvedIngredient], request: RecipeRequest
) -> Iterator[Notice]:
    alcohol_g = sum(
        each.grams * each.eaten_share * (food.per_100g("ALC") or 0.0) / 100
        for each in own
        if (food := each.ingredient.food)
    )
    if alcohol_g / request.servings >= LITTLE_ALCOHOL_G:
        yield Notice(
            "alcohol-all-kept",
            "info",
            f"No step heats {_named(component)}, so all of its alcohol is taken to be kept: "
            f"{shown(alcohol_g / request.servings, 2)} g a serving. Give the step where it is cooked.",
            component.pointer,
        )


def _named(component: ComponentRequest) -> str:
    return "it" if component.id == SHORT_FORM else repr(component.id)


def _foods(own: Sequence[ResolvedIngredient]) -> Iterator[Food]:
    return (food for each in own if (food := each.ingredient.food))


def _is_raw(food: Food) -> bool:
    return cooking_state(food.name, food.group_code) == "raw"
