"""A recipe for another number of servings, in batches that fit a kettle, in portions by weight.

Ten times everything gives ten times everything, so all of it follows from the answer to the recipe itself.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from ..core.documents import figure
from ..core.errors import Fault, InvalidRequest

Document = Mapping[str, Any]

AS_WRITTEN = (
    "Times, temperatures and losses are those of the recipe as written. A larger batch heats and cools more "
    "slowly and loses less water for its size: weigh the first one, and cool and hold it by local food codes."
)

MOST_BATCHES = 10_000


@dataclass(frozen=True, slots=True)
class Wish:
    """What a recipe is to be scaled to, None where not asked.

    servings: how many. portion_g: what each weighs as served, in place of the recipe's own servings.
    batch_g: the most that one batch may weigh as served.
    """

    servings: float | None = None
    portion_g: float | None = None
    batch_g: float | None = None


def scaled(answer: Document, wish: Wish) -> dict[str, Any]:
    """What an answer comes to for another number of servings, in equal batches, in portions by weight.

    Raises InvalidRequest: the dish has no weight to be portioned, or would need too many batches.
    """
    serving_g = float(answer["per_serving"]["weight_g"])
    whole_g = serving_g * answer["servings"]
    by_weight = wish.portion_g is not None or wish.batch_g is not None
    if by_weight and whole_g <= 0:
        name = "portion_g" if wish.portion_g is not None else "batch_g"
        raise InvalidRequest([Fault(f"/{name}", "Nothing of this recipe is eaten, so it cannot be weighed.")])
    portion_g = wish.portion_g if wish.portion_g is not None else serving_g
    own = whole_g / portion_g if wish.portion_g is not None else answer["servings"]
    servings = wish.servings if wish.servings is not None else own
    factor = servings / own
    batches = _batches(whole_g * factor, wish.batch_g)
    return {
        "servings": figure(servings),
        "factor": figure(factor),
        "weight_g": figure(whole_g * factor),
        "complete": answer["sodium"].get("complete"),
        "portion": {"weight_g": figure(portion_g), "nutrients": dict(_portion(answer, wish.portion_g))},
        "batches": {
            "count": batches,
            "factor": figure(factor / batches),
            "servings": figure(servings / batches),
            "weight_g": figure(whole_g * factor / batches),
        },
        "ingredients": [_ingredient(each, factor, batches) for each in answer["ingredients"]],
        "notices": [AS_WRITTEN] if factor > 1 else [],
    }


def _batches(whole_g: float, most_g: float | None) -> int:
    """How many equal batches it takes. Raises InvalidRequest."""
    if most_g is None:
        return 1
    count = max(1, math.ceil(whole_g / most_g - 1e-9))
    if count > MOST_BATCHES:
        message = f"This takes {count:,} batches, over {MOST_BATCHES:,}; give what a kettle holds, in g."
        raise InvalidRequest([Fault("/batch_g", message)])
    return count


def _portion(answer: Document, portion_g: float | None) -> Iterator[tuple[str, dict[str, Any]]]:
    """What a portion holds, by tag: a serving, or so many g of the dish, whose range is that of 100 g."""
    told, share = (answer["per_serving"], 1.0) if portion_g is None else (answer["per_100g"], portion_g / 100)
    for tag, each in told["nutrients"].items():
        amounts = {name: figure(each[name] * share) for name in ("amount", "low", "high")}
        yield tag, {**amounts, "unit": each["unit"], "coverage": each["coverage"]}


def _ingredient(listed: Document, factor: float, batches: int) -> dict[str, Any]:
    """A line and its further foods, for all of it and for one batch."""

    def times(value: float | None, by: float) -> float | None:
        return None if value is None else figure(value * by)

    return {
        "component": listed["component"],
        "line": listed["line"],
        "food": listed["food"],
        "amount": times(listed["amount"], factor),
        "unit": listed["unit"],
        "grams": times(listed["grams"], factor),
        "batch_grams": times(listed["grams"], factor / batches),
    }
