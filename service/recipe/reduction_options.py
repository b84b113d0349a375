"""What can be changed in a recipe to bring its sodium down: what a caller names, and what saves most."""

from __future__ import annotations

import copy
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import islice
from typing import Any

import numpy as np

from ..core.documents import figure
from ..core.errors import Fault, InvalidRequest
from ..core.numbers import shown
from ..core.step_kinds import kinds_that
from ..foods.food import Food
from ..foods.matching.matcher import match
from ..foods.nutrients import INDEX
from ..lines import read_line
from ..transfer.pots import drain_and_rinse
from .outcome import ResolvedIngredient
from .request import StepRequest, eaten_share
from .variants import Variant

MOST_LEVERS = 8
MOST_TRIED = 24
"""So many changes are tried: of the ingredients that list most sodium first, then of baths, then of steps."""
WORTH_A_LOOK = 0.02
"""An ingredient that lists less than this share of all sodium is no lever."""
WORTH_SAYING = 0.005
"""A change that saves less than this share is not told."""
SURE_OF_NAME = 0.95
"""A match at least as sure as this is the food that was named, and none that is merely near."""
LESS_SALTED = 0.6
"""A food with at most this share of another's sodium is its unsalted or low-sodium sibling."""


_INDEX = re.compile(r"0|[1-9][0-9]{0,8}")


@dataclass(frozen=True, slots=True)
class Lever:
    """The figure that may be varied: where it is, its unit, and what the recipe is with another value.

    written: puts a value into a copy of the recipe's document. tried: the same in a trial.
    """

    pointer: str
    unit: str
    written: Callable[[dict[str, Any], float], None]
    tried: Callable[[Variant, float], Variant]

    def applied(self, document: Mapping[str, Any], value: float) -> dict[str, Any]:
        """The document with the value in it; the one that is given stays as it is."""
        changed = copy.deepcopy(dict(document))
        self.written(changed, value)
        return changed


def lever_at(recipe: Mapping[str, Any], pointer: str) -> Lever:
    """The lever that a JSON Pointer into the recipe names. Raises InvalidRequest where it names none."""
    match pointer.split("/")[1:]:
        case ["portion_g"] if "portion_g" in recipe:
            return Lever(pointer, "g", _write_portion, Variant.with_portion)
        case ["servings"] if "portion_g" not in recipe:
            return Lever(pointer, "servings", _write_servings, Variant.with_servings)
        case ["steps", index, "duration_h"] if _stands(recipe.get("steps"), index):
            return _time_lever(pointer, int(index))
        case ["ingredients", index] if _stands(recipe.get("ingredients"), index):
            return _grams_lever(pointer, int(index), lambda document: document["ingredients"])
        case ["components", i, "ingredients", j] if _stands(recipe.get("components"), i) and _stands(
            recipe["components"][int(i)].get("ingredients"), j
        ):
            at = int(i)
            return _grams_lever(pointer, int(j), lambda document: document["components"][at]["ingredients"])
    raise InvalidRequest(
        [
            Fault(
                "/vary",
                f"{pointer!r} is not an ingredient, a step's duration_h or "
                f"{'/portion_g' if 'portion_g' in recipe else '/servings'} of this recipe; "
                "point at one, as in /components/1/ingredients/0.",
            )
        ]
    )


def _stands(items: Any, index: str) -> bool:
    # As RFC 6901 writes an index: no leading zero, so that no two pointers name one place.
    return isinstance(items, list) and bool(_INDEX.fullmatch(index)) and int(index) < len(items)


def _write_servings(document: dict[str, Any], value: float) -> None:
    document["servings"] = value


def _write_portion(document: dict[str, Any], value: float) -> None:
    document["portion_g"] = value


def _time_lever(pointer: str, index: int) -> Lever:
    def written(document: dict[str, Any], value: float) -> None:
        document["steps"][index]["duration_h"] = value

    return Lever(pointer, "h", written, lambda variant, value: variant.with_step(index, duration_h=value))


def _grams_lever(pointer: str, index: int, among: Callable[[dict[str, Any]], list[Any]]) -> Lever:
    def written(document: dict[str, Any], value: float) -> None:
        ingredients = among(document)
        asked = ingredients[index]
        kept = {"line": asked} if isinstance(asked, str) else asked
        ingredients[index] = {**kept, "grams": value}

    return Lever(pointer, "g", written, lambda variant, value: variant.with_grams(pointer, value))


def ranked_levers(variant: Variant) -> list[dict[str, Any]]:
    """Single changes and what each saves per serving at the likely figure, largest first:
    {change, pointer, saves_mg, leaves_mg}."""
    before = _sodium_mg(variant)
    told = []
    for change, pointer, changed in islice(_changes(variant), MOST_TRIED):
        after = _sodium_mg(changed)
        if after < before * (1 - WORTH_SAYING):
            told.append((before - after, {"change": change, "pointer": pointer, "leaves_mg": figure(after)}))
    told.sort(key=lambda pair: -pair[0])
    return [{**document, "saves_mg": figure(saved)} for saved, document in told[:MOST_LEVERS]]


def _sodium_mg(variant: Variant) -> float:
    return float(variant.cooked().sodium_per_serving_mg[0])


_Change = tuple[str, str, Variant]
"""The change in words, what it changes, and the recipe with it."""


def _changes(variant: Variant) -> Iterator[_Change]:
    cures = {each.component for each in variant.listed if _cures(each)}
    whole = sum(each.sodium_mg or 0.0 for each in variant.listed)
    for each in sorted(variant.listed, key=lambda each: -(each.sodium_mg or 0.0)):
        if (each.sodium_mg or 0.0) >= WORTH_A_LOOK * whole and not _cures(each):
            yield from _ingredient_changes(variant, each, is_in_cure=each.component in cures)
    yield from _poured_away(variant)
    for step in variant.request.steps:
        yield from _step_changes(variant, step, is_cure=step.bath in cures)


def _cures(listed: ResolvedIngredient) -> bool:
    """Whether an ingredient brings nitrite or nitrate: less of it, or less time, is no way to save sodium."""
    food = listed.ingredient.food
    return food is not None and any((food.per_100g(tag) or 0.0) > 0 for tag in ("NITRI", "NITRA"))


def _ingredient_changes(
    variant: Variant, listed: ResolvedIngredient, *, is_in_cure: bool
) -> Iterator[_Change]:
    drained = {name for step in variant.request.steps if step.kind == "drain" for name in step.food}
    if not _is_the_dish(variant, listed):
        caution = " It is part of a cure: see that it stays one." if is_in_cure else ""
        halved = variant.with_grams(listed.key, listed.grams / 2)
        yield f"Halve {listed.name!r}.{caution}", listed.pointer, halved
    yield from _less_salted(variant, listed)
    if listed.component not in drained:
        yield from _rinsed(variant, listed)


def _is_the_dish(variant: Variant, listed: ResolvedIngredient) -> bool:
    """Whether an ingredient is most of what is no bath: to halve it would be to serve half."""
    dish = [each for each in variant.listed if each.component not in variant.request.baths]
    return listed in dish and listed.grams > 0.5 * sum(each.grams for each in dish)


def _less_salted(variant: Variant, listed: ResolvedIngredient) -> Iterator[_Change]:
    """The unsalted or low-sodium food of the same name, where the foods have one."""
    now = listed.ingredient.food
    words = read_line(listed.ingredient.line).food_words.removeprefix("salted ")
    if now is None or not words or "salt" in now.name.split(",")[0].casefold():
        return
    for wish in ("unsalted", "low-sodium"):
        found = match(f"{wish} {words}", (), variant.foods)
        other = found.food if found.confidence >= SURE_OF_NAME else None
        if other and other.group_code == now.group_code and _is_less_salted(other, now):
            yield (
                f"Take {other.name!r} in place of {now.name!r}.",
                listed.pointer,
                variant.with_grams(listed.key, listed.grams, other),
            )
            return


def _is_less_salted(other: Food, now: Food) -> bool:
    less, more = other.per_100g("NA"), now.per_100g("NA")
    return less is not None and more is not None and less <= LESS_SALTED * more


def _rinsed(variant: Variant, listed: ResolvedIngredient) -> Iterator[_Change]:
    """A can that goes in as it is, drained and rinsed first."""
    food = listed.ingredient.food
    kept = drain_and_rinse(food, rinsed=True)
    done = any("rins" in phrase for phrase in listed.ingredient.preparation)
    if food is None or kept is None or done or kept.sodium.likely >= 1:
        return
    values = food.values.copy()
    values[INDEX["NA"]] *= kept.sodium.likely / kept.weight.likely
    values.setflags(write=False)
    less = replace(food, values=np.asarray(values))
    grams = listed.grams * kept.weight.likely
    verb = "Rinse" if kept.weight.likely > 0.9 else "Drain and rinse"
    yield f"{verb} {listed.name!r}.", listed.pointer, variant.with_grams(listed.key, grams, less)


def _step_changes(variant: Variant, step: StepRequest, *, is_cure: bool) -> Iterator[_Change]:
    foods = " and ".join(repr(name) for name in step.food)
    if step.kind == "drain" and not step.rinsed:
        yield f"Rinse {foods} after draining.", step.pointer, variant.with_step(step.index, rinsed=True)
    if step.kind == "soak":
        more = variant.with_step(step.index, water_changes=step.water_changes + 1)
        yield f"Change the water of {foods} once more.", f"{step.pointer}/water_changes", more
    if step.pump_percent:
        half, where = step.pump_percent / 2, f"{step.pointer}/pump_percent"
        less = variant.with_step(step.index, pump_percent=half)
        yield f"Pump {foods} with {shown(half)} % of {step.bath!r}, half as much.", where, less
    if not step.duration_h or step.bath is None:
        return
    where = f"{step.pointer}/duration_h"
    if step.kind == "soak":
        longer = variant.with_step(step.index, duration_h=2 * step.duration_h)
        yield f"Soak {foods} for {shown(2 * step.duration_h)} h, twice as long.", where, longer
    elif step.kind not in kinds_that("pot") and not is_cure:
        shorter = variant.with_step(step.index, duration_h=step.duration_h / 2)
        yield (
            f"Leave {foods} in {step.bath!r} for {shown(step.duration_h / 2)} h, half as long.",
            where,
            shorter,
        )


def _poured_away(variant: Variant) -> Iterator[_Change]:
    for component in variant.request.components:
        if component.id in variant.request.baths and eaten_share(component, variant.request) > 0:
            change = f"Pour {component.id!r} away instead of serving it."
            yield change, f"{component.pointer}/eaten_fraction", variant.without_eating(component.id)
