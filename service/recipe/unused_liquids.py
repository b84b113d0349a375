"""A brine that nobody uses: a liquid that the recipe names as one to be poured away, and no step puts food
into.

It is never silently eaten. What the proposed step would leave of it in the food is taken to be eaten, the
rest not; the range has it both ways, and a check gives the step, and the figure with and without it.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache

from ..core.name_rules import NameRules
from ..core.notices import Notice
from ..core.numbers import percent, whole
from ..nutrition.usual_amounts import usual
from .completeness import is_heading
from .outcome import Liquid, Outcome, ResolvedIngredient
from .request import ComponentRequest, RecipeRequest, StepRequest, component_label, eaten_share

Cook = Callable[[RecipeRequest, Sequence[ResolvedIngredient]], Outcome]
"""Cooks a recipe from its lines as they are."""

MOST_TRIED = 3
"""For how many liquids of a recipe the proposed step is tried; further ones are taken to be poured away."""

SALTS_MG = 10_000.0
"""mg of sodium in 100 g from which on a food is a salt."""

MOSTLY = 80.0
"""g of water in 100 g from which on a food is mostly water."""

POT = "unused-liquid"
"""Id of the component that a proposal makes of lines; no component of a caller has it, for a low line."""


@dataclass(frozen=True, slots=True)
class _Words:
    """Words that say that a liquid is not eaten. what: where they stand; kind: the step that it is for."""

    what: str
    kind: str | None


@cache
def _rules() -> NameRules[_Words]:
    return NameRules.of("liquid_words", lambda row: _Words(row["what"], row["kind"] or None))


def _said(what: str, text: str) -> _Words | None:
    fitting = _rules().all(text.replace("_", " ").replace("-", " "))
    return next((words for words in fitting if words.what == what), None)


def unused_liquids(
    found: Sequence[Liquid], request: RecipeRequest, listed: Sequence[ResolvedIngredient], cook: Cook
) -> tuple[Liquid, ...]:
    """The liquids that were found, each with what comes of the proposed step."""
    if not found:
        return ()
    without = _mg_per_serving(cook(request, listed))
    tried = [_weighed(each, request, listed, cook) for each in found[:MOST_TRIED]]
    rest = [replace(each, sodium_mg=_sum_mg(each, listed)) for each in found[MOST_TRIED:]]
    return tuple(replace(each, without_mg=without) for each in (*tried, *rest))


def liquids_of(request: RecipeRequest, listed: Sequence[ResolvedIngredient]) -> Iterator[Liquid]:
    """The liquids of a recipe that no step uses, by their words alone."""
    used = {name for step in request.steps for name in (*step.food, step.bath)}
    for component in request.components:
        own = [each for each in listed if each.component == component.id]
        if component.eaten_fraction is not None or component.id in used or not own:
            continue
        said = _said("name", f"{component.id} {component_label(component, request)}")
        if said is not None:
            keys = frozenset(each.key for each in own)
            name = component_label(component, request) or component.id
            yield Liquid(component.pointer, name, component.id, keys, said.kind)
        else:
            yield from _lines(component, own)


def _lines(component: ComponentRequest, own: Sequence[ResolvedIngredient]) -> Iterator[Liquid]:
    """Lines that say it themselves, or stand below a heading that does, by kind."""
    by_kind: dict[str | None, list[ResolvedIngredient]] = {}
    under: _Words | None = None
    for each in own:
        if is_heading(each):
            under = _said("name", each.ingredient.line)
            continue
        said = _of_a_line(each) or under
        if said is not None and each.ingredient.eaten_fraction is None:
            by_kind.setdefault(said.kind, []).append(each)
    for kind, lines in by_kind.items():
        keys = frozenset(each.key for each in lines)
        yield Liquid(lines[0].pointer, lines[0].name, component.id, keys, kind)


def _of_a_line(listed: ResolvedIngredient) -> _Words | None:
    """What a line says of itself; of soaking and boiling only where it is water or salt, since food is
    eaten."""
    said = _said("line", listed.ingredient.line)
    food = listed.ingredient.food
    if said is None or said.kind == "brine" or food is None:
        return said
    is_water = (food.per_100g("WATER") or 0.0) > 95 and not (food.per_100g("ENERC") or 0.0)
    return said if is_water or (food.per_100g("NA") or 0.0) > SALTS_MG else None


def _weighed(
    found: Liquid, request: RecipeRequest, listed: Sequence[ResolvedIngredient], cook: Cook
) -> Liquid:
    sodium_mg = _sum_mg(found, listed)
    made, proposal = replace(found, sodium_mg=sodium_mg), proposed(found, request, listed)
    if proposal is None or sodium_mg <= 0:
        return made
    if not _lists_water(found, listed):
        return replace(made, eaten=usual("eaten_of_unused").spread.likely)
    with_mg = _mg_per_serving(cook(*proposal))
    bare = _mg_per_serving(cook(request, [_set_aside(each, found, 0.0) for each in listed]))
    share = (with_mg - bare) * request.servings / sodium_mg
    return replace(made, with_mg=with_mg, eaten=min(max(share, 0.0), 1.0))


def _lists_water(found: Liquid, listed: Sequence[ResolvedIngredient]) -> bool:
    """Whether a liquid has water of its own, without which there is no telling what it does."""
    foods = [(each.ingredient.food, each.grams) for each in listed if each.key in found.keys]
    return any(grams > 0 and (food.per_100g("WATER") or 0.0) > MOSTLY for food, grams in foods if food)


def _sum_mg(found: Liquid, listed: Sequence[ResolvedIngredient]) -> float:
    return sum(_mg(each) for each in listed if each.key in found.keys)


def _mg(listed: ResolvedIngredient) -> float:
    assumed = listed.assumed_mg.likely if listed.assumed_mg else 0.0
    return (listed.sodium_mg or 0.0) + assumed


def _mg_per_serving(outcome: Outcome) -> float:
    return float(outcome.sodium_per_serving_mg[0])


def proposed(
    found: Liquid, request: RecipeRequest, listed: Sequence[ResolvedIngredient]
) -> tuple[RecipeRequest, list[ResolvedIngredient]] | None:
    """The recipe with the step that the liquid is for; None where its words tell none or there is no food
    for it."""
    food = _food_of(found, request, listed)
    if found.kind is None or food is None:
        return None
    whole = any(each.component == found.component and each.key not in found.keys for each in listed)
    bath = POT if whole else found.component
    step = StepRequest(index=len(request.steps), kind=found.kind, food=(food,), bath=bath)
    components = [
        replace(each, eaten_fraction=0.0) if each.id == bath else each for each in request.components
    ]
    if whole:
        components.append(ComponentRequest(POT, (), 0.0, found.pointer))
    steps = (step, *request.steps)
    made = replace(
        request,
        components=tuple(components),
        steps=steps,
        baths=request.baths | {bath},
    )
    return made, [replace(each, component=bath) if each.key in found.keys else each for each in listed]


def _food_of(found: Liquid, request: RecipeRequest, listed: Sequence[ResolvedIngredient]) -> str | None:
    """The component that the liquid is for: the rest of its own, or else the heaviest that is eaten."""
    weights: dict[str, float] = {}
    eaten = {each.id for each in request.components if eaten_share(each, request) > 0} - request.baths
    for each in listed:
        if each.key not in found.keys and each.component in eaten:
            weights[each.component] = weights.get(each.component, 0.0) + each.grams
    if weights.get(found.component, 0.0) > 0:
        return found.component
    named = {name: grams for name, grams in weights.items() if grams > 0}
    return max(named, key=lambda name: named[name]) if named else None


def set_aside(listed: Sequence[ResolvedIngredient], liquids: Sequence[Liquid]) -> list[ResolvedIngredient]:
    """The lines, those of unused liquids eaten only in the share that the proposed step leaves in the
    food."""
    made = list(listed)
    for liquid in liquids:
        made = [_set_aside(each, liquid, liquid.eaten) for each in made]
    return made


def _set_aside(listed: ResolvedIngredient, liquid: Liquid, share: float) -> ResolvedIngredient:
    if listed.key not in liquid.keys:
        return listed
    return replace(listed, ingredient=replace(listed.ingredient, eaten_fraction=share))


def unused_notices(
    liquids: Sequence[Liquid], request: RecipeRequest, listed: Sequence[ResolvedIngredient]
) -> Iterator[Notice]:
    """A check for each liquid that no step uses."""
    for liquid in liquids:
        message = f"No step uses {liquid.name[:80]!r}, which by its words is not eaten as it stands. "
        yield Notice("liquid-not-used", "check", message + _remedy(liquid, request, listed), liquid.pointer)


def _remedy(liquid: Liquid, request: RecipeRequest, listed: Sequence[ResolvedIngredient]) -> str:
    food = _food_of(liquid, request, listed)
    if liquid.with_mg is None and liquid.eaten:
        return (
            f"It lists no water, so that {percent(liquid.eaten)} of its salt are taken to be eaten; eaten "
            f"whole, a serving would hold {whole(liquid.without_mg)} mg of sodium. Give the water as well, "
            f"in a component of its own, and the {liquid.kind} step that uses it."
        )
    if liquid.with_mg is None or food is None:
        return (
            f"It is taken to be poured away; eaten whole, a serving would hold {whole(liquid.without_mg)} mg "
            "of sodium. State its eaten_fraction, or the step that uses it."
        )
    named = all(each.key in liquid.keys for each in listed if each.component == liquid.component)
    bath = liquid.component if named else str(liquid.kind)
    step = json.dumps({"kind": liquid.kind, "food": food, "bath": bath})
    where = "" if named else f"Give it a component of its own, {bath!r}, and add "
    return (
        f"{where or 'Add '}the step {step}: with it a serving holds about {whole(liquid.with_mg)} mg of "
        f"sodium, without it (all of it eaten) {whole(liquid.without_mg)} mg. Until then the figure is as "
        "with the step."
    )
