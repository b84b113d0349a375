"""Safety of a recipe: its steps and the whole dish, put to the rules of `safety` and `curing`.

These are prompts for a person. They defer to local codes and licensed practice, and none is a clearance.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import lru_cache

from ..core.notices import Notice
from ..core.spread import Draws
from ..core.step_kinds import step_kinds
from ..curing.assessment import USUAL_PICK_UP, assess
from ..curing.cures_in_dish import cure_notices
from ..foods.dataset import MOST_LINES
from ..foods.food import Food
from ..nutrition.retention import is_done
from ..safety.cold_steps import cold_notices
from ..safety.dish import Dish, DishPart, Item, Treatment
from ..safety.hazards import dish_notices
from ..safety.safety_limits import safe_temperature
from ..transfer.bath_notices import strength_notices
from ..transfer.food_kinds import food_class_of
from .core_temperatures import centre_courses
from .ingredients import Ingredient
from .outcome import ResolvedIngredient
from .pool_rows import NITRATE, NITRITE, SODIUM, WATER, WEIGHT
from .pools import strength_percent
from .request import ComponentRequest, RecipeRequest, StepRequest
from .state import CalculationState
from .steps.nature import known_class
from .steps.work import Work, works


def watch_temperature(step: StepRequest, state: CalculationState) -> None:
    """Say what the temperature of a cold step means for the foods in it."""
    for work in works(step, state):
        kind = known_class(work)
        if kind is not None:
            for notice in _of_temperature(step.kind, kind, step.temperature_c, step.duration_h, step.pointer):
                state.put(notice)


@lru_cache(maxsize=1024)
def _of_temperature(
    step_kind: str, kind: str, temperature_c: float | None, duration_h: float | None, pointer: str
) -> tuple[Notice, ...]:
    notices = cold_notices(step_kind, kind, temperature_c, duration_h)
    return tuple(notice.below(pointer) for notice in notices)


def watch_strength(step: StepRequest, state: CalculationState) -> None:
    """Say where a brine holds more salt than dissolves, or is colder than it can be without ice."""
    bath = state.pools.leading[step.bath or ""]
    if step.kind == "dry_cure" or step.temperature_c is None or bath[WATER, 0] <= 0 or bath[SODIUM, 0] <= 0:
        return
    for notice in strength_notices(strength_percent(bath), step.temperature_c):
        state.put(notice.below(step.pointer))


def watch_cure(step: StepRequest, state: CalculationState, goals_g: Mapping[str, Draws]) -> None:
    """Hold the nitrite of a bath against the limit, on the green weight of all the food in it."""
    bath = state.pools.leading[step.bath or ""]
    nitrite_g, nitrate_g = float(bath[NITRITE, 0]) / 1000, float(bath[NITRATE, 0]) / 1000
    green_g = sum(float(state.pools.leading[name][WEIGHT, 0]) for name in goals_g)
    pickle_g = float(bath[WEIGHT, 0])
    if nitrite_g + nitrate_g <= 0 or green_g <= 0 or pickle_g <= nitrite_g + nitrate_g:
        return
    gained_g = sum(float(goal[0]) for goal in goals_g.values()) - green_g
    assessment = assess(
        nitrite_g=nitrite_g,
        nitrate_g=nitrate_g,
        meat_g=green_g,
        pickle_g=pickle_g,
        product_class=step.product_class,
        scheme=step.scheme,
        usual_class=step_kinds()[step.kind].product_class,
        pick_up_share=gained_g / green_g if gained_g > 0 else USUAL_PICK_UP,
        food_class=known_class(Work(step, state, step.food[0])) or "pork",
    )
    for notice in assessment.notices:
        state.put(notice.below(step.pointer))


def watch_pump(step: StepRequest, state: CalculationState, stays_g: Mapping[str, Draws]) -> None:
    """Hold the nitrite of a pickle that is pumped in against the limit; stays_g: of the pickle, by piece."""
    bath = state.pools.leading[step.bath or ""]
    nitrite_g, nitrate_g = float(bath[NITRITE, 0]) / 1000, float(bath[NITRATE, 0]) / 1000
    green_g = sum(float(state.pools.leading[name][WEIGHT, 0]) for name in stays_g)
    if nitrite_g + nitrate_g <= 0 or green_g <= 0:
        return
    assessment = assess(
        nitrite_g=nitrite_g,
        nitrate_g=nitrate_g,
        meat_g=green_g,
        pickle_g=float(bath[WEIGHT, 0]),
        product_class=step.product_class,
        scheme=step.scheme,
        usual_class=step_kinds()[step.kind].product_class,
        pick_up_share=sum(float(grams[0]) for grams in stays_g.values()) / green_g,
        food_class=known_class(Work(step, state, step.food[0])) or "pork",
    )
    for notice in assessment.notices:
        state.put(notice.below(step.pointer))


def safety_of_the_dish(
    request: RecipeRequest,
    listed: Sequence[ResolvedIngredient],
    eaten_share: Callable[[ComponentRequest], float],
) -> Iterator[Notice]:
    """What is to be said of the recipe as a whole: cooking by all steps together, and what is no step's."""
    parts = [_part(component, request, listed, eaten_share(component)) for component in request.components]
    dish = Dish(request.title, parts)
    yield from dish_notices(dish)
    yield from cure_notices(dish)


def _part(
    component: ComponentRequest, request: RecipeRequest, listed: Sequence[ResolvedIngredient], share: float
) -> DishPart:
    own = [each for each in listed if each.component == component.id]
    items = tuple(_item(each.ingredient, each.name, each.pointer) for each in own if each.grams > 0)
    stated = None if any(item.food_class for item in items) else _stated_class(component.id, request)
    if stated is not None:
        items = tuple(replace(item, food_class=stated) for item in items)
    treatments = _with_centres(list(_treatments(component.id, request)), _heaviest(own), request)
    return DishPart(component.id, component.pointer, items, treatments, share)


def _heaviest(own: Sequence[ResolvedIngredient]) -> Food | None:
    """The heaviest food of a component."""
    mapped = [each for each in own if each.ingredient.food]
    return max(mapped, key=lambda each: each.grams).ingredient.food if mapped else None


def _with_centres(
    treatments: Sequence[Treatment], food: Food | None, request: RecipeRequest
) -> tuple[Treatment, ...]:
    """The treatments with the temperatures that their heat brings to the centre of the heaviest food."""
    own = [request.steps[each.index] for each in treatments if not each.as_bath]
    stated = next((step.food_class for step in own if step.food_class), None)
    kind = stated or (food and food_class_of(food.group_code, food.name))
    centres = centre_courses(own, kind, food) if kind else {}
    if not centres:
        return tuple(treatments)
    return tuple(
        each if each.as_bath else replace(each, centre=centres.get(each.index)) for each in treatments
    )


@lru_cache(maxsize=MOST_LINES)
def _item(ingredient: Ingredient, name: str, pointer: str) -> Item:
    """An ingredient that weighs something; the same lines come again with every save."""
    food, grams = ingredient.food, ingredient.grams.likely if ingredient.grams else 0.0
    if food is None:
        return Item(name, name, "", grams, pointer)
    kind = food_class_of(food.group_code, food.name)
    return Item(
        words=f"{food.name} {ingredient.line}",
        said=ingredient.line or food.name,
        group_code=food.group_code,
        grams=grams,
        pointer=pointer,
        food_class=kind if kind and safe_temperature(kind, "whole") else None,
        was_cooked=is_done(food.name, food.group_code),
        fat_percent=food.per_100g("FAT"),
        nitrite_mg=(food.per_100g("NITRI") or 0.0) * grams / 100,
        nitrate_mg=(food.per_100g("NITRA") or 0.0) * grams / 100,
    )


def _stated_class(name: str, request: RecipeRequest) -> str | None:
    """The class of meat, poultry or fish that a step says a component is."""
    stated = (step.food_class for step in request.steps if name in step.food)
    return next((kind for kind in stated if kind and safe_temperature(kind, "whole")), None)


def _treatments(name: str, request: RecipeRequest) -> Iterator[Treatment]:
    """What the steps do to a component, as food or as bath, in order; and to what it goes into, from then
    on."""
    names = {name}
    for step in request.steps:
        as_bath = step.bath in names
        if as_bath or not names.isdisjoint(step.food):
            if step.kind in ("combine", "divide") and step.into is not None:
                names.add(step.into)
            yield Treatment(
                index=step.index,
                kind=step.kind,
                pointer=step.pointer,
                as_bath=as_bath,
                temperature_c=step.temperature_c,
                core_c=None if as_bath else step.core_temperature_c,
                duration_h=step.duration_h,
                product_class=step.product_class,
                scheme=step.scheme,
                others=step.food if as_bath else tuple(filter(None, [step.bath])),
            )
