"""The calculation: read the lines, fill the kitchen, do the steps in order, serve, and answer."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

import numpy as np

from ..checkpoint import checkpoint
from ..errors import Fault, InvalidRequest
from ..findings import Notice
from ..foods.dataset import Food, FoodTable
from ..units.spread import Draws
from .answer import answer_document
from .assumptions import Book
from .bench import Bench, Character
from .custom import custom_foods
from .derived import sugars_part_ways
from .doneness import doneness_notices
from .ingredients import resolve
from .kitchen import Amounts, Kitchen
from .outcome import Listed, Outcome
from .request import OFTEN_SERVED, PLACES, ComponentRequest, RecipeRequest, StepRequest
from .rows import NUTRIENT_ROWS, ROWS
from .safety import safety_of_the_dish
from .steps import do


def calculate(
    request: RecipeRequest, foods: FoodTable, *, scheme: str | None = None, explained: Sequence[str] = ()
) -> dict[str, Any]:
    """The contract's answer to a recipe. scheme: the label view to add, "fda", "eu" or "uk". explained: tags
    of the nutrients whose chain from line to figure is to be told.

    Raises InvalidRequest where a line, a food code or a custom food of the request cannot stand.
    """
    outcome = cook(request, foods, follow=bool(explained))
    return answer_document(outcome, scheme=scheme, explained=explained)


def cook(request: RecipeRequest, foods: FoodTable, *, follow: bool = False) -> Outcome:
    """Do everything the recipe says, and give the state it ends in. follow: keep the trail that explains it,
    which is kept as well where only it can tell added sugars from others.

    Raises InvalidRequest where a line, a food code or a custom food of the request cannot stand.
    """
    foods = foods.with_custom(custom_foods(request.custom_foods))
    listed = read_all(request, foods)
    follow = follow or sugars_part_ways(request, listed)
    return cook_listed(request, listed, foods.identity, follow=follow)


def cook_listed(
    request: RecipeRequest, listed: Sequence[Listed], dataset: Mapping[str, str], *, follow: bool = False
) -> Outcome:
    """The same from ingredients that are read already; dataset: the identity of the foods they are of."""
    bench = laid_out(request, listed)
    if follow:
        bench.kitchen.follow()
    for step in request.steps:
        checkpoint()
        do(step, bench)
    _serve(bench, request)
    notices = [notice for each in listed for notice in _placed(each)]
    done = doneness_notices(request, listed, bench.served)
    safe = safety_of_the_dish(request, listed, lambda component: eaten_share(component, request))
    return Outcome(request, dataset, tuple(listed), bench, (*notices, *done, *bench.notices, *safe))


def read_all(request: RecipeRequest, foods: FoodTable) -> list[Listed]:
    """Every food of every line, read and mapped. Raises InvalidRequest with all faults of all lines."""
    listed: list[Listed] = []
    faults: list[Fault] = []
    for component in request.components:
        for i, asked in enumerate(component.ingredients):
            pointer = f"{component.pointer}/ingredients/{i}"
            checkpoint()
            try:
                of_line = resolve(asked, foods, request.settings).foods
                listed += [Listed(component.id, pointer, each, part) for part, each in enumerate(of_line)]
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


def laid_out(request: RecipeRequest, listed: Sequence[Listed]) -> Bench:
    """The kitchen before the first step, every component filled."""
    names = [component.id for component in request.components]
    bench = Bench(
        kitchen=Kitchen([*names, *PLACES]),
        book=Book(),
        characters={name: Character.of(_weighed(listed, name)) for name in names},
        served=frozenset(c.id for c in request.components if eaten_share(c, request) > 0),
    )
    _fill(bench, listed)
    return bench


def _fill(bench: Bench, listed: Sequence[Listed]) -> None:
    """Bring every component's ingredients, and set aside at once what the lines say is not eaten."""
    known = [each for each in listed if each.ingredient.food and each.ingredient.grams]
    for component in dict.fromkeys(each.component for each in known):
        own = [each for each in known if each.component == component]
        foods = [each.ingredient.food for each in own if each.ingredient.food]
        grams = np.stack([_drawn(bench, each) for each in own])
        bench.kitchen.bring(component, contents(foods, grams))
        not_eaten = np.array([1 - each.eaten_share for each in own])
        if not_eaten.any():
            left = contents(foods, grams * not_eaten[:, np.newaxis])
            bench.kitchen.move_all_of(component, "not_eaten", left, None)


def _drawn(bench: Bench, listed: Listed) -> Draws:
    ingredient = listed.ingredient
    assert ingredient.grams is not None
    source = f"{ingredient.grams_basis} ({ingredient.grams_source})"
    return bench.book.take(f"weight:{listed.key}", ingredient.grams, "g", source)


def contents(foods: Sequence[Food], grams: Draws) -> Amounts:
    """What foods hold, grams of shape (len(foods), DRAWS + 1). A value that is not known adds nothing."""
    per_g = np.ones((ROWS, len(foods)))
    per_g[NUTRIENT_ROWS] = np.nan_to_num(np.stack([food.values for food in foods], axis=1)) / 100
    amounts: Amounts = per_g @ grams
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
            _note_bath(bench, component, share, request)
        if share > 0:
            bench.kitchen.move_share(component.id, "eaten", share, None)
        bench.kitchen.move_share(component.id, "poured_away" if is_bath else "not_eaten", 1.0, None)


def _note_bath(bench: Bench, component: ComponentRequest, share: float, request: RecipeRequest) -> None:
    """Brines are poured away as a rule; pots and marinades often are not, so a person should say."""
    fate = "poured away" if share == 0 else "eaten"
    is_doubtful = any(step.bath == component.id and step.kind in OFTEN_SERVED for step in request.steps)
    bench.note(
        "bath-fate-assumed",
        "check" if is_doubtful or share > 0 else "info",
        f"What is left of {component.id!r} is taken to be {fate}. If it is not, state its eaten_fraction.",
        component.pointer,
    )
