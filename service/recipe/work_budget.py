"""What a request will cost, told from the request alone, before anything is calculated.

The unit is a millisecond of one core of the machine that `python -m tests.state.work` was last run on; that
command measures every figure here anew and holds estimates against what requests really take. The figures lie
near the worst of their kind, so that a request is rather refused than let through to take longer.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from ..core.errors import Fault, InvalidRequest
from ..core.numbers import percent, shown
from .reduction_options import MOST_TRIED
from .sub_recipes import documents_below

Document = Mapping[str, Any]

ANSWER_MS = 5.0
"""A whole calculation of next to nothing, and its answer."""
LINE_MS, CHARACTER_MS = 0.6, 0.006
"""An ingredient read, mapped, weighed and told; and each character of its line."""
OWN_FOOD_MS, OWN_FOOD_LINE_MS = 0.2, 0.0015
"""A food of the caller's own; and each line that may name it."""
PIECE_MS, TOLD_MS = 0.5, 1.0
"""One food in one step: its work, and what the other nutrients and the answer come to."""
WATER_MS, TOLD_WATER_MS = 0.9, 2.0
"""One food in one water, likewise: what passes between them, and what else follows."""
TRIAL_MS = 0.8
"""A trial of next to nothing."""
READ_MS = 8.0
"""A method read once more, with another answer to one of its questions."""
LINE_TAG_MS, PIECE_TAG_MS = 0.1, 0.04
"""One nutrient explained: for each line, and for each food in each step and water."""
SEARCH_TRIALS = 30
"""So many trials find a value, as a rule fewer; see `targets.MOST_TRIALS`."""


@dataclass(frozen=True, slots=True)
class Cost:
    """What one part of a request costs. pointer: where; what: how it comes, and what to do, in words."""

    pointer: str
    ms: float
    what: str

    def times(self, factor: float, pointer: str = "") -> Cost:
        """The same so many times over, below `pointer`."""
        return Cost(pointer + self.pointer, self.ms * factor, self.what)


def allow(costs: Iterable[Cost], limit_ms: float) -> None:
    """Raises InvalidRequest where costs come to more than `limit_ms`; it points at what most are in."""
    found = [cost for cost in costs if cost.ms > 0]
    whole = sum(cost.ms for cost in found)
    if whole > limit_ms:
        pointer, below = _most_of(found, whole)
        largest = max((cost for cost in found if cost.pointer.startswith(pointer)), key=lambda cost: cost.ms)
        message = (
            f"The request asks for {shown(max(whole / limit_ms, 1.1), 2)} times the work that one request "
            f"may; {percent(below / whole)} of it is here, and most by {largest.what}."
        )
        raise InvalidRequest([Fault(pointer, message)])


def _most_of(costs: Iterable[Cost], whole: float) -> tuple[str, float]:
    """The deepest place that holds at least half of the costs, and how much that is."""
    below: dict[str, float] = defaultdict(float)
    for cost in costs:
        parts = cost.pointer.split("/")
        for depth in range(len(parts)):
            below["/".join(parts[: depth + 1])] += cost.ms
    return max(
        ((place, ms) for place, ms in below.items() if ms >= whole / 2), key=lambda pair: pair[0].count("/")
    )


def of_recipe(recipe: Document, tags: int = 0) -> Iterator[Cost]:
    """The costs of one calculation; tags: how many nutrients are to be explained."""
    yield from _of_one(recipe, tags)
    for pointer, below in documents_below(recipe):
        whole = sum(cost.ms for cost in _of_one(below))
        yield Cost(pointer, whole, "the recipes that it is made of; use fewer, or save them with fewer steps")


def _of_one(recipe: Document, tags: int = 0) -> Iterator[Cost]:
    """The same without the recipes that it is made of."""
    yield Cost("", ANSWER_MS, "send fewer recipes at once")
    yield from _reading(recipe, tags)
    for i, step in enumerate(recipe.get("steps") or ()):
        told = TOLD_MS + _waters(step) * TOLD_WATER_MS + tags * PIECE_TAG_MS * max(_waters(step), 1)
        yield _step_cost(f"/steps/{i}", step, _step_ms(step) + _pieces(step) * told)


def of_prose(recipe: Document, trials: int, tags: int = 0) -> Iterator[Cost]:
    """The costs of a recipe in prose: its answer; and of each choice of its questions, with which it is read
    and cooked once more and only its sodium told."""
    yield from of_recipe(recipe, tags)
    yield Cost("", trials * (READ_MS + TRIAL_MS), f"{trials} choices of its questions; answer some of them")
    for cost in _reading(recipe, 0):
        yield cost.times(trials)
    for i, step in enumerate(recipe.get("steps") or ()):
        yield _step_cost(f"/steps/{i}", step, trials * _step_ms(step))
    for pointer, below in documents_below(recipe):
        whole = sum(cost.ms for cost in _of_one(below))
        yield Cost(pointer, trials * whole, "the recipes that it is made of; save them with fewer steps")


def of_target(document: Document) -> Iterator[Cost]:
    """The costs of a search: the recipe's steps many times over, and its answer."""
    recipe = document["recipe"]
    for cost in of_recipe(recipe):
        yield cost.times(2, "/recipe")
    trials = SEARCH_TRIALS + min(MOST_TRIED, _changes(recipe))
    yield Cost("/recipe", trials * TRIAL_MS, "send fewer recipes at once")
    for i, step in enumerate(recipe.get("steps") or ()):
        yield _step_cost(f"/recipe/steps/{i}", step, trials * _step_ms(step))


def of_comparison(document: Document) -> Iterator[Cost]:
    """The costs of every version."""
    for i, version in enumerate(document["versions"]):
        for cost in of_recipe(version["recipe"]):
            yield cost.times(1, f"/versions/{i}/recipe")


def of_lines(lines: Sequence[str], pointer: str = "/lines") -> Cost:
    """The cost of reading and mapping lines."""
    ms = sum(LINE_MS + CHARACTER_MS * len(line) for line in lines)
    return Cost(pointer, ms, f"{len(lines)} lines; send fewer or shorter ones")


def _reading(recipe: Document, tags: int) -> Iterator[Cost]:
    groups = {"/ingredients": recipe.get("ingredients") or ()}
    for i, component in enumerate(recipe.get("components") or ()):
        groups[f"/components/{i}/ingredients"] = component["ingredients"]
    own = recipe.get("custom_foods") or ()
    for pointer, asked in groups.items():
        read = of_lines([_line(each) for each in asked], pointer)
        more = len(asked) * (len(own) * OWN_FOOD_LINE_MS + tags * LINE_TAG_MS)
        yield Cost(pointer, read.ms + more, read.what)
    yield Cost("/custom_foods", len(own) * OWN_FOOD_MS, f"{len(own)} foods of your own; send those in use")


def _line(ingredient: Any) -> str:
    return ingredient if isinstance(ingredient, str) else str(ingredient.get("line") or "")


def _pieces(step: Document) -> int:
    food = step.get("food") or ()
    return 1 if isinstance(food, str) else len(food)


def _changes(recipe: Document) -> int:
    """How many single changes there may be to try: three of an ingredient, two of a step, one of a bath."""
    components = recipe.get("components") or ()
    lines = len(recipe.get("ingredients") or ()) + sum(len(each["ingredients"]) for each in components)
    return 3 * lines + 2 * len(recipe.get("steps") or ()) + len(components)


def _waters(step: Document) -> int:
    """In how many waters the food of a step sits, one after another; 0 where it sits in none."""
    return 1 + int(step.get("water_changes") or 0) if step.get("bath") else 0


def _step_ms(step: Document) -> float:
    """The work of a step, without what is told of it."""
    return _pieces(step) * (PIECE_MS + _waters(step) * WATER_MS)


def _step_cost(pointer: str, step: Document, ms: float) -> Cost:
    pieces, waters = _pieces(step), _waters(step)
    what = f"{pieces} foods in one step; name fewer, have fewer steps, or split the recipe"
    if waters <= 1:
        return Cost(f"{pointer}/food", ms, what)
    what = f"{pieces} foods in each of {waters} waters; have fewer of either, or split the recipe"
    return Cost(f"{pointer}/{'water_changes' if waters > pieces else 'food'}", ms, what)
