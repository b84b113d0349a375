"""What a five-step recipe costs at full ranges: reading, the salt part, and the answer.

    python -m tests.bench.salt [--repeat N]

Each figure is the best of N runs after a first one, in milliseconds, and as a multiple of two yardsticks of
the same run: the plain sum over the list (grams times table values, no ranges), and a thousand additions of
arrays of 201 draws. The salt part is the steps alone, from filled pools to the last movement of what decides
where things go; the other nutrients are what then follows.

First the accuracy of the salt on the measurements kept for checking (`salt_accuracy.py`): exits 1 under its
floor.
"""

from __future__ import annotations

import argparse
import sys
import time
from collections.abc import Callable
from typing import Any

import numpy as np
from saltledger.core.spread import DRAWS
from saltledger.foods.dataset import bundled
from saltledger.recipe.answer import answer_document
from saltledger.recipe.calculation import cook, laid_out, read_all
from saltledger.recipe.outcome import ResolvedIngredient
from saltledger.recipe.request import RecipeRequest
from saltledger.recipe.state import CalculationState
from saltledger.recipe.steps.dispatch import do

from .salt_accuracy import FLOOR, accuracy, kept_apart

RECIPE: dict[str, Any] = {
    "title": "Poached loin with its roots",
    "servings": 8,
    "components": [
        {"id": "loin", "ingredients": ["1.4 kg pork loin"]},
        {"id": "brine", "ingredients": ["3 l water", "150 g salt", "40 g sugar", "8 g curing salt"]},
        {"id": "pot", "ingredients": ["4 l water", "1 onion", "2 bay leaves"]},
        {"id": "roots", "ingredients": ["800 g carrots", "600 g potatoes"]},
        {"id": "coat", "ingredients": ["60 g flour", "1/2 tsp salt"]},
    ],
    "steps": [
        {"kind": "brine", "food": "loin", "bath": "brine", "duration_h": 72, "thickness_cm": 7},
        {"kind": "simmer", "food": "loin", "bath": "pot", "duration_h": 2},
        {"kind": "boil", "food": "roots", "bath": "pot", "duration_h": 0.4},
        {"kind": "dredge", "food": "loin", "bath": "coat"},
        {"kind": "roast", "food": "loin", "duration_h": 0.5, "temperature_c": 200},
    ],
}  # fmt: skip


def milliseconds(call: Callable[[], object], repeat: int) -> float:
    """The best of `repeat` runs, after one that is not counted."""
    call()
    return min(_timed(call) for _ in range(repeat))


def steps_milliseconds(
    request: RecipeRequest, listed: list[ResolvedIngredient], repeat: int
) -> tuple[float, float]:
    """The salt part, and what follows it; each run has a kitchen filled anew, which is not counted."""
    runs = [_steps_and_rest(request, laid_out(request, listed)) for _ in range(repeat + 1)][1:]
    return min(steps for steps, _ in runs), min(rest for _, rest in runs)


def _steps_and_rest(request: RecipeRequest, state: CalculationState) -> tuple[float, float]:
    return _timed(lambda: _all_steps(request, state)), _timed(state.pools.catch_up)


def _all_steps(request: RecipeRequest, state: CalculationState) -> None:
    for step in request.steps:
        do(step, state)


def _timed(call: Callable[[], object]) -> float:
    began = time.perf_counter()
    call()
    return (time.perf_counter() - began) * 1000


def plain_sum(listed: list[ResolvedIngredient]) -> np.ndarray:
    """What a sum over the ingredient list comes to: every nutrient, no ranges, nothing moved."""
    known = [each for each in listed if each.ingredient.food]
    rows = [
        np.nan_to_num(each.ingredient.food.values) * each.grams / 100
        for each in known
        if each.ingredient.food
    ]
    return np.sum(rows, axis=0)


def additions() -> None:
    draws = np.ones(DRAWS + 1)
    for _ in range(1000):
        draws + draws


def report(repeat: int, say: Callable[[str], None] = print) -> None:
    foods, request = bundled(), RecipeRequest.from_document(RECIPE)
    listed, outcome = read_all(request, foods), cook(request, foods)
    assert all(each.ingredient.food and each.ingredient.grams for each in listed), "a line was not read"
    salt_part, others = steps_milliseconds(request, listed, repeat)
    cases = {
        "plain sum over the list": milliseconds(lambda: plain_sum(listed), repeat),
        "1,000 additions of 201 draws": milliseconds(additions, repeat),
        "reading the lines": milliseconds(lambda: read_all(request, foods), repeat),
        "filling the kitchen": milliseconds(lambda: laid_out(request, listed), repeat),
        "the salt part (steps)": salt_part,
        "the other nutrients, following": others,
        "reading, steps and serving": milliseconds(lambda: cook(request, foods), repeat),
        "the answer's words": milliseconds(lambda: answer_document(outcome), repeat),
    }
    plain, thousand = list(cases.values())[:2]
    say(f"{'':32}{'ms':>9}{'x plain sum':>13}{'x additions':>13}")
    for name, spent in cases.items():
        say(f"{name:32}{spent:9.3f}{spent / plain:13.1f}{spent / thousand:13.2f}")


def main() -> int:
    parser = argparse.ArgumentParser(description="Accuracy, and cost of a five-step recipe at full ranges.")
    parser.add_argument("--repeat", type=int, default=50, help="runs of each case; the best counts")
    repeat = parser.parse_args().repeat
    reached = accuracy(kept_apart())
    print(reached)
    report(repeat)
    short = reached.short_of(FLOOR)
    for each in short:
        print(f"Under the floor: {each}.")
    return int(bool(short))


if __name__ == "__main__":
    sys.exit(main())
