"""The calculation: read the lines, fill the kitchen, do the steps in order, serve, and answer."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np

from ..errors import Fault, InvalidRequest
from ..findings import Notice
from ..foods.dataset import Food, FoodTable
from ..units.spread import Draws
from .answer import answer_document
from .assumptions import Book
from .bench import Bench, Character
from .custom import custom_foods
from .ingredients import resolve
from .kitchen import WEIGHT, Amounts, Kitchen, nothing
from .outcome import Listed, Outcome
from .request import PLACES, ComponentRequest, RecipeRequest, StepRequest
from .steps import do


def calculate(request: RecipeRequest, foods: FoodTable) -> dict[str, Any]:
    """The contract's answer to a recipe.

    Raises InvalidRequest where a line, a food code or a custom food of the request cannot stand.
    """
    return answer_document(cook(request, foods))


def cook(request: RecipeRequest, foods: FoodTable) -> Outcome:
    """Do everything the recipe says, and give the state it ends in."""
    foods = foods.with_custom(custom_foods(request.custom_foods))
    listed = read_all(request, foods)
    bench = _laid_out(request, listed)
    _fill(bench, listed)
    for step in request.steps:
        do(step, bench)
    _serve(bench, request)
    notices = [notice for each in listed for notice in _placed(each)]
    return Outcome(request, foods.identity, tuple(listed), bench, (*notices, *bench.notices))


def read_all(request: RecipeRequest, foods: FoodTable) -> list[Listed]:
    """Every ingredient read and mapped. Raises InvalidRequest with all faults of all lines."""
    listed: list[Listed] = []
    faults: list[Fault] = []
    for component in request.components:
        for i, asked in enumerate(component.ingredients):
            pointer = f"{component.pointer}/ingredients/{i}"
            try:
                listed.append(Listed(component.id, pointer, resolve(asked, foods, request.settings)))
            except InvalidRequest as refused:
                faults += [Fault(pointer + fault.pointer, fault.message) for fault in refused.faults]
    if faults:
        raise InvalidRequest(faults)
    return listed


def _placed(listed: Listed) -> Iterator[Notice]:
    return (notice.below(listed.pointer) for notice in listed.ingredient.notices)


def _weighed(listed: Sequence[Listed], component: str) -> list[tuple[Food, float]]:
    return [
        (each.ingredient.food, each.ingredient.grams.likely)
        for each in listed
        if each.component == component and each.ingredient.food and each.ingredient.grams
    ]


def _laid_out(request: RecipeRequest, listed: Sequence[Listed]) -> Bench:
    names = [component.id for component in request.components]
    return Bench(
        kitchen=Kitchen([*names, *PLACES]),
        book=Book(),
        characters={name: Character.of(_weighed(listed, name)) for name in names},
        served=frozenset(c.id for c in request.components if eaten_share(c, request) > 0),
    )


def _fill(bench: Bench, listed: Sequence[Listed]) -> None:
    for each in listed:
        food, grams = each.ingredient.food, each.ingredient.grams
        if food is None or grams is None:
            continue
        source = f"{each.ingredient.grams_basis} ({each.ingredient.grams_source})"
        drawn = bench.book.take(f"weight:{each.pointer}", grams, "g", source)
        brought = contents(food, drawn)
        bench.kitchen.bring(each.component, brought)
        share = each.ingredient.eaten_fraction
        if share is not None and share < 1:
            bench.kitchen.move(each.component, "not_eaten", brought * (1 - share), None)


def contents(food: Food, grams: Draws) -> Amounts:
    """What so many grams of a food hold. A value that is not known adds nothing (see `coverage`)."""
    amounts = nothing()
    np.multiply.outer(np.nan_to_num(food.values) / 100, grams, out=amounts[:WEIGHT])
    amounts[WEIGHT] = grams
    return amounts


def eaten_share(component: ComponentRequest, request: RecipeRequest) -> float:
    """The share of a component that is eaten: as stated; else none of a bath, all of anything else.

    A bath that a later step treats as food (a stock that is reduced, say) is taken to be eaten.
    """
    if component.eaten_fraction is not None:
        return component.eaten_fraction
    roles = [_role(step, component.id) for step in request.steps]
    last = next((role for role in reversed(roles) if role), "food")
    return 0.0 if last == "bath" else 1.0


def _role(step: StepRequest, name: str) -> str | None:
    if step.bath == name:
        return "bath"
    return "food" if name in step.food else None


def _serve(bench: Bench, request: RecipeRequest) -> None:
    for component in request.components:
        share = eaten_share(component, request)
        is_bath = component.id in request.baths
        if component.eaten_fraction is None and is_bath:
            _note_bath(bench, component, share)
        bench.kitchen.move_share(component.id, "eaten", share, None)
        bench.kitchen.move(
            component.id,
            "poured_away" if is_bath else "not_eaten",
            bench.kitchen.pools[component.id],
            None,
        )


def _note_bath(bench: Bench, component: ComponentRequest, share: float) -> None:
    fate = "poured away" if share == 0 else "eaten"
    bench.note(
        "bath-fate-assumed",
        "check",
        f"What is left of {component.id!r} is taken to be {fate}. If it is not, state eaten_fraction (0 to 1).",
        component.pointer,
    )
