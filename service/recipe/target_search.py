"""The inverse: which weight, time or number of servings brings a serving to a wanted sodium.

What is solved for is the likely figure, and beside it the value at which even the high one meets the goal.
As a rule it moves one way only with each lever, so a bracket that closes finds it surely; where no value
does, the answer says what stands in the way.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from ..core.documents import figure
from ..core.numbers import whole
from ..foods.dataset import FoodTable
from .answer import answer_document
from .calculation import cook
from .outcome import Outcome
from .reduction_options import Lever, lever_at, ranked_levers
from .request import RecipeRequest
from .sodium_goals import TOLERANCE, Goal, Where, goal_of
from .sodium_origins import sodium_origins
from .variants import Variant

_LARGEST = {"g": 1e6, "h": 1e4, "servings": 1e5}
_SMALLEST = {"g": 0.0, "h": 0.0, "servings": 1e-3}
_USUAL = {"g": 10.0, "h": 1.0, "servings": 1.0}
_STEP = 4.0
"""By what factor a bracket is first widened from the present value; each time by more."""
_MOST_WIDENINGS, _FREE_TURNS, _MOST_TURNS = 8, 12, 44
"""A bracket is widened so often, and closed in so many turns, halved in all but the first few."""
MOST_TRIALS = 2 * (3 + _MOST_WIDENINGS + _MOST_TURNS)
"""How often at most the recipe is worked out to find a value for the likely figure and one for the high."""


def target_answer(document: Mapping[str, Any], foods: FoodTable) -> dict[str, Any]:
    """The answer to `POST /v1/targets`: {recipe, target, vary} -> what value of `vary` meets the target.

    Raises InvalidRequest where the recipe cannot stand or `vary` points at nothing that can be varied.
    """
    recipe = document["recipe"]
    goal = goal_of(document["target"], recipe.get("audience"))
    search = _Search(Variant.of(recipe, foods), lever_at(recipe, document["vary"]), goal)
    found = search.solved("likely")
    levers = ranked_levers(search.variant)
    if found is None:
        return search.unreachable() | {"levers": levers}
    met = cook(RecipeRequest.from_document(search.lever.applied(recipe, figure(found))), foods)
    at_high = search.solved("high")
    calculation = answer_document(met)
    return {
        "reachable": True,
        "vary": search.lever.pointer,
        "value": figure(found),
        "unit": search.lever.unit,
        "value_at_high": None if at_high is None else figure(at_high),
        "wanted_mg": goal.wanted_mg,
        **goal.judged(met),
        "complete": calculation["sodium"]["complete"],
        "notices": [notice for notice in calculation["notices"] if _matters(notice)],
        "calculation": calculation,
        "levers": levers,
    }


def _matters(notice: Mapping[str, Any]) -> bool:
    """Whether a notice of the recipe stands in the way of a value that was found for it."""
    return bool(notice["severity"] == "stop" or notice["code"] == "incomplete")


@dataclass(frozen=True, slots=True)
class _Tried:
    """What a value gives: the goal's measure at the likely and high figures, and mg of sodium a serving."""

    likely: float
    high: float
    sodium_mg: float

    def at(self, where: Where) -> float:
        return self.likely if where == "likely" else self.high


@dataclass(frozen=True, slots=True)
class _Search:
    """One lever of one recipe, and what the values tried so far gave. pots: what servings share."""

    variant: Variant
    lever: Lever
    goal: Goal
    known: dict[float, _Tried] = field(default_factory=dict)
    pots: list[Outcome] = field(default_factory=list)

    def tried(self, value: float) -> _Tried:
        if value not in self.known:
            outcome = self._outcome(value)
            likely, high = self.goal.measure(outcome, "likely"), self.goal.measure(outcome, "high")
            self.known[value] = _Tried(likely, high, float(outcome.sodium_per_serving_mg[0]))
        return self.known[value]

    def _outcome(self, value: float) -> Outcome:
        """Where servings vary the same pots are shared out otherwise; else all is worked out again."""
        changed = self.lever.tried(self.variant, value)
        if self.lever.unit != "servings":
            return changed.cooked()
        if not self.pots:
            self.pots.append(changed.cooked())
        return replace(self.pots[0], request=changed.request)

    def solved(self, where: Where) -> float | None:
        """The value that meets the goal at the likely or high figure; None where none does."""
        unit = self.lever.unit
        return crossing(
            lambda value: self.tried(value).at(where) - self.goal.wanted,
            (_SMALLEST[unit], self._present(), _LARGEST[unit]),
            TOLERANCE * max(self.goal.wanted, 1e-9),
        )

    def _present(self) -> float:
        """The value as the recipe has it, or a usual one where it has none."""
        match self.lever.unit:
            case "servings":
                found = self.variant.request.servings
            case "g" if self.lever.pointer == "/portion_g":
                found = self.variant.request.portion_g or 0.0
            case "h":
                found = self.variant.request.steps[int(self.lever.pointer.split("/")[2])].duration_h or 0.0
            case _:
                found = next(e.grams for e in self.variant.listed if e.pointer == self.lever.pointer)
        return found if found > 0 else _USUAL[self.lever.unit]

    def unreachable(self) -> dict[str, Any]:
        unit = self.lever.unit
        ends = {
            value: self.tried(value).sodium_mg for value in (_SMALLEST[unit], self._present(), _LARGEST[unit])
        }
        least = min(ends, key=lambda value: ends[value])
        most: float | None = max(ends, key=lambda value: ends[value])
        if max(ends.values()) - ends[least] <= TOLERANCE * ends[least]:
            message = self._without_effect(ends[least])
        elif self.tried(least).likely > self.goal.wanted:
            message, most = self._in_the_way(least), None
        else:
            message = f"the most it comes to is {whole(max(ends.values()))} mg per serving."
        return {
            "reachable": False,
            "vary": self.lever.pointer,
            "unit": unit,
            "wanted_mg": self.goal.wanted_mg,
            "floor_mg": figure(ends[least]),
            **({} if most is None else {"ceiling_mg": figure(max(ends.values()))}),
            "notices": [
                {
                    "code": "target-not-reachable",
                    "severity": "check",
                    "message": f"Not reachable: {message}",
                    "pointer": "/vary",
                }
            ],
        }

    def _without_effect(self, remains_mg: float) -> str:
        remedy = {
            "h": "leave out measured and stated values that replace the time of that step",
            "g": "see whether it is mapped to a food, holds sodium and is eaten",
            "servings": "the limit is for a weight of the dish, whatever the serving",
        }[self.lever.unit]
        return (
            f"{self.lever.pointer} makes no difference to the {whole(remains_mg)} mg per serving; {remedy}."
        )

    def _in_the_way(self, value: float) -> str:
        """Which ingredient gives most of what is left at the best value, in words."""
        outcome = self.lever.tried(self.variant, value).cooked()
        eaten_mg = sodium_origins(outcome).eaten_mg
        remains_mg = float(outcome.sodium_per_serving_mg[0])
        most_mg = max(eaten_mg, default=0.0)
        if most_mg <= 0:
            return f"{whole(remains_mg)} mg per serving remain, above {self.goal.words}."
        most = outcome.listed[eaten_mg.index(most_mg)]
        given = f"{most.name!r} alone gives {whole(most_mg / outcome.request.servings)} mg"
        return f"{given} of the {whole(remains_mg)} mg per serving that remain, above {self.goal.words}."


def crossing(
    gap: Callable[[float], float], values: tuple[float, float, float], within: float
) -> float | None:
    """A value between the first and the last of `values` where `gap` is 0, to `within`; None where it keeps
    its sign. The search begins at the middle one.

    Widens a bracket from there by growing steps, then closes it by false position, either end kept twice at
    most (the Illinois rule), and at last by halves. Where `gap` jumps over 0, the side below it.
    """
    smallest, present, largest = values
    at = gap(present)
    if abs(at) <= within:
        return present
    for end, factor in ((smallest, 1 / _STEP), (largest, _STEP)):
        there = gap(end)
        if abs(there) <= within:
            return end
        if (there < 0) != (at < 0):
            return _closed(gap, *_bracket(gap, (present, at), (end, there), factor), within)
    return None


_Point = tuple[float, float]


def _bracket(
    gap: Callable[[float], float], near: _Point, far: _Point, factor: float
) -> tuple[_Point, _Point]:
    """Two points with the crossing between them, near to the present one."""
    for widening in range(_MOST_WIDENINGS):
        value = near[0] * factor ** (1 + widening)
        if not min(near[0], far[0]) < value < max(near[0], far[0]) or value < 1e-6:
            break
        point = (value, gap(value))
        if (point[1] < 0) != (near[1] < 0):
            return near, point
        near = point
    return near, far


def _closed(gap: Callable[[float], float], a: _Point, b: _Point, within: float) -> float:
    kept = 0
    for turn in range(_MOST_TURNS):
        (x, fx), (y, fy) = a, b
        if abs(y - x) <= 1e-9 * max(abs(x), abs(y)):
            break
        if min(x, y) > 0 and max(x, y) > _STEP * min(x, y):
            middle = math.sqrt(x * y)
        else:
            by_line = turn < _FREE_TURNS and turn % 4 != 3
            middle = (x * fy - y * fx) / (fy - fx) if by_line else 0.5 * (x + y)
        point = (middle, gap(middle))
        if abs(point[1]) <= within:
            return middle
        if (point[1] < 0) == (fy < 0):
            b, a = point, ((x, fx / 2) if kept == 1 else a)
            kept = 1
        else:
            a, b = point, ((y, fy / 2) if kept == 2 else b)
            kept = 2
    return a[0] if a[1] <= 0 else b[0]
