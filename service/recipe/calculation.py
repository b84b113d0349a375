"""The calculation: read the lines, fill the pools, do the steps in order, serve, and answer."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from ..core.assumptions import AssumptionLog, dish_of, rows_in_force
from ..core.checkpoint import checkpoint
from ..core.errors import Fault, InvalidRequest
from ..core.notices import Notice
from ..core.spread import Draws, Spread, product, stacked
from ..core.step_kinds import kinds_that
from ..core.tables import row_of, with_words
from ..foods.dataset import Food, FoodTable
from ..foods.weights.edible_portion import is_drained
from ..nutrition.usual_amounts import usual
from .answer import PARTS, answer_document
from .completeness import counted_only, take_stock
from .contents import contents
from .ingredients import Ingredient, IngredientRequest
from .line_context import read_together
from .notice_gathering import gathered
from .outcome import Outcome, ResolvedIngredient
from .packets import custom_foods
from .plausibility import remember_finished
from .pool_rows import SODIUM, WATER, WEIGHT
from .pools import SALT_PER_SODIUM, TRACE, Amounts, Pools, nothing
from .request import PLACES, ComponentRequest, RecipeRequest, eaten_share
from .safety_checks import safety_of_the_dish
from .state import CalculationState, Composition
from .steps.dispatch import do
from .steps.doneness import doneness_notices
from .sub_recipes import MadeOfItself, portion_of, portions
from .unused_liquids import liquids_of, set_aside, unused_liquids, unused_notices


def calculate(
    request: RecipeRequest,
    foods: FoodTable,
    *,
    scheme: str | None = None,
    explained: Sequence[str] = (),
    parts: Collection[str] = PARTS,
) -> dict[str, Any]:
    """The contract's answer to a recipe. scheme: the label view to add, "fda", "eu" or "uk". explained: tags
    of the nutrients whose chain from line to figure is to be told. parts: what of it is wanted.

    Raises InvalidRequest where a line, a food code or a custom food of the request cannot stand.
    """
    outcome = cook(request, foods, follow=bool(explained))
    return answer_document(outcome, scheme=scheme, explained=explained, parts=parts)


def cook(request: RecipeRequest, foods: FoodTable, *, follow: bool = False) -> Outcome:
    """Do everything the recipe says, and give the state it ends in. follow: keep the trail that explains it.

    Raises InvalidRequest where a line, a food code or a custom food of the request cannot stand.
    """
    foods = foods.with_custom(custom_foods(request.custom_foods))
    listed = read_all(request, foods)
    return cook_listed(request, listed, foods, follow=follow)


def cook_listed(
    request: RecipeRequest, listed: Sequence[ResolvedIngredient], foods: FoodTable, *, follow: bool = False
) -> Outcome:
    """The same from ingredients that are read already; foods: those that they are of.

    Of a recipe in portions by weight the number of servings follows from what the dish weighs. Where
    something hangs on that number before it is known, all is done a second time with it.
    """
    if request.portion_g is None:
        return _cook_listed(request, listed, foods, follow=follow)
    rough = replace(request, servings=_portions_of(request, _listed_weight(request, listed)))
    outcome = _cook_listed(rough, listed, foods, follow=follow)
    exact = replace(request, servings=_portions_of(request, float(outcome.eaten[WEIGHT, 0])))
    if outcome.liquids or any(each.uncounted for each in outcome.listed):
        outcome = _cook_listed(exact, listed, foods, follow=follow)
        exact = replace(request, servings=_portions_of(request, float(outcome.eaten[WEIGHT, 0])))
    return replace(outcome, request=exact)


def _portions_of(request: RecipeRequest, weight_g: float) -> float:
    """How many portions by weight a dish of so many g makes. Raises InvalidRequest: of nothing, none."""
    assert request.portion_g is not None
    if weight_g <= TRACE:
        message = "Nothing of this recipe is eaten, so it has no portions by weight; state servings instead."
        raise InvalidRequest([Fault("/portion_g", message)])
    return weight_g / request.portion_g


def _listed_weight(request: RecipeRequest, listed: Sequence[ResolvedIngredient]) -> float:
    """What the lines that are eaten weigh as listed, in g, without what others sit in; 1 at least."""
    eaten = {each.id for each in request.components if eaten_share(each, request) > 0} - request.baths
    return max(1.0, sum(each.grams * each.eaten_share for each in listed if each.component in eaten))


def _cook_listed(
    request: RecipeRequest, listed: Sequence[ResolvedIngredient], foods: FoodTable, *, follow: bool
) -> Outcome:
    found = list(liquids_of(request, listed))
    stock = take_stock(request, listed, frozenset().union(*(each.keys for each in found)))
    sources = _sources(stock, foods)
    liquids = unused_liquids(found, request, stock, lambda asked, lines: _cooked(asked, lines, sources))
    outcome = _cooked(request, set_aside(stock, liquids), sources, follow=follow)
    if not liquids:
        return outcome
    notices = (*unused_notices(liquids, request, stock), *outcome.notices)
    return replace(outcome, liquids=liquids, notices=notices)


def _sources(listed: Sequence[ResolvedIngredient], foods: FoodTable) -> list[Mapping[str, str]]:
    """What the foods rest on, those of recipes among them too, the dataset first and each once."""
    own = foods.sources(each.ingredient.food.code for each in listed if each.ingredient.food)
    below = (source for _, portion, _ in portions(listed) for source in portion.outcome.sources)
    return list({source["sha256"]: source for source in (*own, *below)}.values())


def _cooked(
    request: RecipeRequest,
    listed: Sequence[ResolvedIngredient],
    sources: Sequence[Mapping[str, str]],
    *,
    follow: bool = False,
) -> Outcome:
    state = laid_out(request, listed)
    if follow:
        state.pools.follow()
    for step in request.steps:
        checkpoint()
        do(step, state)
    remember_finished(state)
    _serve(state, request)
    _note_unused(state)
    notices = [notice for each in listed for notice in _placed(each)]
    done = doneness_notices(request, listed, state.served)
    safe = safety_of_the_dish(request, listed, lambda component: eaten_share(component, request))
    outcome = Outcome(
        request,
        sources,
        tuple(listed),
        replace(state, pools=state.pools.handed_on()),
        (*gathered(listed, notices), *done, *state.notices, *safe),
        lambda: _cooked(request, counted_only(listed), sources),
    )
    for _, portion, _ in portions(listed):
        state.log.include(f"recipe:{portion.of.key}", portion.outcome.state.log)
    for batch, cause in outcome.batch_assumptions():
        state.log.take(batch.id, batch.value, batch.unit, batch.source, shared=cause)
    return outcome


def _note_unused(state: CalculationState) -> None:
    """A figure of the caller's own that nothing stands on is told, not passed over."""
    for figure in state.log.unused:
        of = f" for {figure.of}" if figure.of else ""
        state.note(
            "figure-not-used",
            "check",
            f"Nothing in this recipe stands on the row {figure.row}{of}; see the rows its assumptions name.",
            figure.pointer,
        )


def read_all(request: RecipeRequest, foods: FoodTable) -> list[ResolvedIngredient]:
    """Every food of every line, read and mapped. Raises InvalidRequest with all faults of all lines."""
    asked = {
        f"{component.pointer}/ingredients/{i}": each
        for component in request.components
        for i, each in enumerate(component.ingredients)
    }
    own = {pointer: each for pointer, each in asked.items() if not _is_portion(each)}
    read = dict(zip(own, read_together([*own.values()], [*own], foods, request.settings), strict=True))
    read |= _portions(asked, foods)
    components = [component.id for component in request.components for _ in component.ingredients]
    return [
        ResolvedIngredient(component, pointer, each, part)
        for component, pointer in zip(components, asked, strict=True)
        for part, each in enumerate(read[pointer].foods)
    ]


def _is_portion(asked: IngredientRequest) -> bool:
    """Whether an ingredient is a portion of a saved recipe, and no reviewer says that it is a food."""
    return asked.recipe is not None and asked.food is None


def _portions(asked: Mapping[str, IngredientRequest], foods: FoodTable) -> dict[str, Ingredient]:
    """The ingredients that are portions of saved recipes, by pointer. Raises InvalidRequest."""
    made: dict[str, Ingredient] = {}
    faults: list[Fault] = []
    for pointer, each in asked.items():
        if _is_portion(each):
            try:
                made[pointer] = portion_of(each, foods.without_custom, cook)
            except MadeOfItself as refused:
                raise MadeOfItself(pointer + refused.faults[0].pointer, refused.path) from refused
            except InvalidRequest as refused:
                faults += [Fault(pointer + fault.pointer, fault.message) for fault in refused.faults]
    if faults:
        raise InvalidRequest(faults)
    return made


def _placed(listed: ResolvedIngredient) -> Iterator[Notice]:
    return (notice.below(listed.pointer) for notice in listed.ingredient.notices)


def _weighed(listed: Sequence[ResolvedIngredient], component: str) -> list[tuple[Food, float]]:
    return [
        (each.ingredient.food, each.ingredient.grams.likely)
        for each in listed
        if each.component == component and each.ingredient.food and each.ingredient.grams
    ]


def _lines(listed: Sequence[ResolvedIngredient], component: str) -> dict[str, str]:
    """By a food's code, the lines of a component that it stands in."""
    lines: dict[str, str] = {}
    for each in listed:
        if each.component == component and each.ingredient.food:
            code = each.ingredient.food.code
            lines[code] = " ".join(filter(None, [lines.get(code), each.ingredient.line]))
    return lines


def laid_out(request: RecipeRequest, listed: Sequence[ResolvedIngredient]) -> CalculationState:
    """The kitchen before the first step, every component filled."""
    names = [component.id for component in request.components]
    state = CalculationState(
        pools=Pools([*names, *PLACES]),
        log=AssumptionLog(dish_of(request.document) if rows_in_force() else "", request.own_figures),
        compositions={name: Composition.of(_weighed(listed, name), _lines(listed, name)) for name in names},
        served=frozenset(c.id for c in request.components if eaten_share(c, request) > 0),
        steps=tuple(request.steps),
    )
    _fill(state, listed)
    # What lines say is not eaten left before anything mixed; from here on every place is one mixture.
    state.pools.likely_moves.clear()
    return state


def _fill(state: CalculationState, listed: Sequence[ResolvedIngredient]) -> None:
    """Bring every component's ingredients, and set aside at once what the lines say is not eaten."""
    known = [
        each
        for each in listed
        if each.ingredient.food and each.ingredient.grams and each.ingredient.portion is None
    ]
    for component in dict.fromkeys(each.component for each in known):
        own = [each for each in known if each.component == component]
        foods = [each.ingredient.food for each in own if each.ingredient.food]
        grams = stacked([_drawn(state, each) for each in own])
        state.pools.bring(component, contents(foods, grams))
        main = state.compositions[component].main
        state.histories[component].weighed_drained = all(
            is_drained(each.ingredient.grams_basis) for each in own if each.ingredient.food is main
        )
        not_eaten = np.array([1 - each.eaten_share for each in own])
        if not_eaten.any():
            left = contents(foods, grams * not_eaten[:, np.newaxis])
            state.pools.move_all_of(component, "not_eaten", left, None)
    for each, portion, weight in portions(listed):
        _bring(state, each, portion.amounts(weight))
    wet = {name for step in state.steps if step.bath for name in step.food}
    for each in listed:
        if each.assumed_mg is not None:
            _bring_assumed(state, each)
            if each.component in wet and each.ingredient.food is None and each.ingredient.grams is not None:
                _bring_water(state, each, each.ingredient.grams)
    names = {name: None for each in listed if each.uncounted for name in each.uncounted.rests_on}
    state.log.add(lambda: [usual(name).assumption for name in names])


def _bring_assumed(state: CalculationState, listed: ResolvedIngredient) -> None:
    """Bring what a line that was not counted may hold, as salt: all such lines are high or low together."""
    assert listed.uncounted is not None
    name, source = f"uncounted:{listed.key}", listed.uncounted.source
    sodium_mg = state.log.take(name, listed.uncounted.sodium_mg, "mg", source, shared="uncounted")
    salt = nothing()
    salt[SODIUM], salt[WEIGHT] = sodium_mg, sodium_mg * SALT_PER_SODIUM / 1000
    _bring(state, listed, salt)


def _bring_water(state: CalculationState, listed: ResolvedIngredient, grams: Spread) -> None:
    """Bring the water of a weighed food that no row fits, so that it takes up the salt of what it lies in as
    any food does; what else it holds is not known and adds nothing."""
    share = usual("water_of_unknown")
    held = state.log.take(
        f"water:{listed.key}", product(grams, share.spread), "g", share.source, shared="uncounted"
    )
    water = nothing()
    water[WATER], water[WEIGHT] = held, held
    _bring(state, listed, water)


def _bring(state: CalculationState, listed: ResolvedIngredient, amounts: Amounts) -> None:
    """Bring what a line holds, and set aside at once what it says is not eaten."""
    state.pools.bring(listed.component, amounts)
    if listed.eaten_share < 1:
        state.pools.move_all_of(listed.component, "not_eaten", amounts * (1 - listed.eaten_share), None)


def _drawn(state: CalculationState, listed: ResolvedIngredient) -> Draws:
    ingredient = listed.ingredient
    assert ingredient.grams is not None
    words = f"{ingredient.grams_basis} ({ingredient.grams_source})"
    source = with_words(ingredient.grams_source, words)
    food = ingredient.food.code if ingredient.food else ""
    # Of one food a measure errs alike, wherever in the list it stands.
    cause = f"weight/{food}/{row_of(source) or ingredient.unit or words}"
    return state.log.take(f"weight:{listed.key}", ingredient.grams, "g", source, shared=cause)


def _serve(state: CalculationState, request: RecipeRequest) -> None:
    for component in request.components:
        share = eaten_share(component, request)
        is_bath = component.id in request.baths
        if component.eaten_fraction is None and is_bath:
            _note_bath(state, component, share, request)
        if share > 0:
            state.pools.move_share(component.id, "eaten", share, None)
        if share < 1:
            state.pools.move_share(component.id, "poured_away" if is_bath else "not_eaten", 1.0, None)


def _note_bath(
    state: CalculationState, component: ComponentRequest, share: float, request: RecipeRequest
) -> None:
    """Brines are poured away as a rule; pots and marinades often are not, so a person should say."""
    fate = "poured away" if share == 0 else "eaten"
    is_doubtful = any(
        step.bath == component.id and step.kind in kinds_that("served") for step in request.steps
    )
    state.note(
        "bath-fate-assumed",
        "check" if is_doubtful or share > 0 else "info",
        f"What is left of {component.id!r} is taken to be {fate}. If it is not, state its eaten_fraction.",
        component.pointer,
    )
