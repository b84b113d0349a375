"""The inverse: which weight, time or number of servings brings a serving to a wanted sodium.

What is solved for is the likely sodium per serving. It moves one way only with each of these figures, so a
bracket and repeated halving find it surely; where no value does, the answer says what stands in the way.
"""

from __future__ import annotations

import copy
import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from ..documents import figure
from ..errors import Fault, InvalidRequest
from ..foods.dataset import FoodTable
from ..nutrition.reference_values import sodium_references
from .answer import answer_document
from .calculation import cook
from .kitchen import SODIUM
from .outcome import Listed, Outcome
from .request import RecipeRequest

TOLERANCE = 1e-4
"""How near to the target a solution must come, as a share of it."""

_LARGEST = {"g": 1e6, "h": 1e4, "servings": 1e5}
_SMALLEST = {"g": 0.0, "h": 0.0, "servings": 1e-3}


@dataclass(frozen=True, slots=True)
class Lever:
    """The figure that may be varied: where it is, its unit, and how a recipe with another value looks."""

    pointer: str
    unit: str
    set: Callable[[dict[str, Any], float], None]

    def applied(self, document: Mapping[str, Any], value: float) -> dict[str, Any]:
        changed = copy.deepcopy(dict(document))
        self.set(changed, value)
        return changed


def target_answer(document: Mapping[str, Any], foods: FoodTable) -> dict[str, Any]:
    """The answer to `POST /v1/targets`: {recipe, target, vary} -> what value of `vary` meets the target.

    Raises InvalidRequest where the recipe cannot stand or `vary` points at nothing that can be varied.
    """
    recipe = document["recipe"]
    lever = lever_at(recipe, document["vary"])
    wanted = wanted_mg(document["target"], recipe)
    return _Search(recipe, lever, foods).answer(wanted)


def wanted_mg(target: Mapping[str, Any], recipe: Mapping[str, Any]) -> float:
    """mg of sodium per serving that a target asks for, stated or as a percentage of a reference."""
    if "sodium_mg_per_serving" in target:
        return float(target["sodium_mg_per_serving"])
    limits = {each["id"]: each["limit_mg"] for each in sodium_references(recipe.get("audience"))}
    name = target["reference"]
    if name not in limits:
        known = ", ".join(sorted(limits))
        raise InvalidRequest([Fault("/target/reference", f"There is no reference {name!r}; known: {known}.")])
    return float(limits[name] * target["percent"] / 100)


def lever_at(recipe: Mapping[str, Any], pointer: str) -> Lever:
    """The lever that a JSON Pointer into the recipe names. Raises InvalidRequest where it names none."""
    match pointer.split("/")[1:]:
        case ["servings"]:
            return Lever(pointer, "servings", _set_servings)
        case ["steps", index, "duration_h"] if _stands(recipe.get("steps"), index):
            return Lever(pointer, "h", lambda doc, value: _set_duration(doc, int(index), value))
        case ["ingredients", index] if _stands(recipe.get("ingredients"), index):
            return Lever(pointer, "g", lambda doc, value: _set_grams(doc["ingredients"], int(index), value))
        case ["components", i, "ingredients", j] if _stands(recipe.get("components"), i) and _stands(
            recipe["components"][int(i)].get("ingredients"), j
        ):
            return Lever(
                pointer,
                "g",
                lambda doc, value: _set_grams(doc["components"][int(i)]["ingredients"], int(j), value),
            )
    raise InvalidRequest(
        [
            Fault(
                "/vary",
                f"{pointer!r} is not an ingredient, a step's duration_h or /servings of this recipe; "
                "point at one, as in /components/1/ingredients/0.",
            )
        ]
    )


def _stands(items: Any, index: str) -> bool:
    return isinstance(items, list) and index.isascii() and index.isdecimal() and int(index) < len(items)


def _set_servings(document: dict[str, Any], value: float) -> None:
    document["servings"] = value


def _set_duration(document: dict[str, Any], index: int, value: float) -> None:
    document["steps"][index]["duration_h"] = value


def _set_grams(ingredients: list[Any], index: int, value: float) -> None:
    asked = ingredients[index]
    kept = {"line": asked} if isinstance(asked, str) else asked
    ingredients[index] = {**kept, "grams": value}


class _Search:
    """One lever of one recipe, and the sodium per serving that its values give."""

    def __init__(self, recipe: Mapping[str, Any], lever: Lever, foods: FoodTable) -> None:
        self.recipe, self.lever, self.foods = recipe, lever, foods

    def outcome(self, value: float) -> Outcome:
        changed = self.lever.applied(self.recipe, value)
        return _cooked(changed, self.foods)

    def sodium_mg(self, value: float) -> float:
        return float(self.outcome(value).sodium_per_serving_mg[0])

    def answer(self, wanted: float) -> dict[str, Any]:
        smallest, largest = _SMALLEST[self.lever.unit], _LARGEST[self.lever.unit]
        rising = self.sodium_mg(largest) >= self.sodium_mg(smallest)
        floor_at = smallest if rising else largest
        floor, ceiling = sorted((self.sodium_mg(smallest), self.sodium_mg(largest)))
        if not floor * (1 - TOLERANCE) <= wanted <= ceiling * (1 + TOLERANCE):
            return self._unreachable(wanted, floor, ceiling, self.outcome(floor_at))
        value = self._solve(wanted, smallest, largest, rising)
        outcome = self.outcome(value)
        return {
            "reachable": True,
            "vary": self.lever.pointer,
            "value": figure(value),
            "unit": self.lever.unit,
            "calculation": answer_document(outcome),
            "levers": levers(self.recipe, self.foods),
        }

    def _solve(self, wanted: float, low: float, high: float, rising: bool) -> float:
        """Halve the bracket: first by decades where it is wide, then evenly, until the target is met."""
        for _ in range(200):
            middle = math.sqrt(low * high) if low > 0 and high / low > 4 else (low + high) / 2
            middle = min(middle, 1000.0) if low == 0.0 and high > 1e4 else middle
            got = self.sodium_mg(middle)
            if abs(got - wanted) <= TOLERANCE * max(wanted, 1e-9) / 10 or high - low <= 1e-9 * high:
                return middle
            if (got < wanted) == rising:
                low = middle
            else:
                high = middle
        return (low + high) / 2

    def _unreachable(self, wanted: float, floor: float, ceiling: float, at_floor: Outcome) -> dict[str, Any]:
        too_low = wanted < floor
        message = (
            f"Not reachable: {_heaviest(at_floor)}"
            if too_low
            else f"Not reachable: the most it comes to is {ceiling:.0f} mg per serving."
        )
        return {
            "reachable": False,
            "vary": self.lever.pointer,
            "floor_mg": figure(floor),
            "ceiling_mg": figure(ceiling),
            "notices": [
                {"code": "target-not-reachable", "severity": "check", "message": message, "pointer": "/vary"}
            ],
            "levers": levers(self.recipe, self.foods),
        }


def _cooked(recipe: Mapping[str, Any], foods: FoodTable) -> Outcome:
    """The recipe cooked, any fault pointing into it where it stands in the caller's document."""
    try:
        return cook(RecipeRequest.from_document(recipe), foods)
    except InvalidRequest as refused:
        raise InvalidRequest(Fault("/recipe" + f.pointer, f.message) for f in refused.faults) from refused


def _heaviest(outcome: Outcome) -> str:
    """Which ingredient gives most of what is left, in words."""
    by_line = {each: _listed_mg(each) for each in outcome.listed}
    most = max(by_line, key=lambda each: by_line[each], default=None)
    eaten = float(outcome.eaten[SODIUM, 0]) / outcome.request.servings
    if most is None or by_line[most] == 0:
        return f"{eaten:.0f} mg per serving remain."
    share = min(by_line[most] / outcome.request.servings, eaten)
    return f"{eaten:.0f} mg per serving remain, {share:.0f} mg of them listed with {most.name!r}."


def _listed_mg(each: Listed) -> float:
    return each.sodium_mg or 0.0


def levers(recipe: Mapping[str, Any], foods: FoodTable) -> list[dict[str, Any]]:
    """Single changes and what each saves per serving, largest first: an ingredient or a time halved."""
    base = _cooked(recipe, foods)
    before = float(base.sodium_per_serving_mg[0])
    tried: list[dict[str, Any]] = [
        {"change": change, "pointer": lever.pointer, "saves_mg": figure(before - after)}
        for change, lever, value in _halvings(recipe, base)
        if (after := _Search(recipe, lever, foods).sodium_mg(value)) < before * 0.995
    ]
    return sorted(tried, key=lambda each: -float(each["saves_mg"]))[:8]


def _halvings(recipe: Mapping[str, Any], base: Outcome) -> Iterator[tuple[str, Lever, float]]:
    whole = base.sodium_as_listed_mg
    for each in base.listed:
        if each.grams > 0 and _listed_mg(each) >= 0.02 * whole:
            yield f"Halve {each.name!r}.", lever_at(recipe, each.pointer), each.grams / 2
    for step in base.request.steps:
        if step.duration_h and step.bath:
            pointer = f"{step.pointer}/duration_h"
            change = f"Halve the time of step {step.index} ({step.kind})."
            yield change, lever_at(recipe, pointer), step.duration_h / 2
