"""What a recipe of four steps costs at full ranges: reading, the salt part, and the answer; one of twelve
beside it, and a bath alone.

    python -m tests.bench.salt [--repeat N] [--no-counts]

Each figure is the best of N runs after a first one, in milliseconds, and as a multiple of two yardsticks of
the same run: the plain sum over the list (grams times table values, no ranges), and a thousand additions of
arrays of 201 draws. The salt part is the steps alone, from filled pools to the last movement of what decides
where things go; the other nutrients are what then follows.

What does not hang on the machine's load are instructions (`tests.bench.instructions`): the command exits 1
where they are more than MOST allows.
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
from saltledger.gate.reading import load
from saltledger.http.schemas.bath import BathSchema
from saltledger.recipe.answer import answer_document
from saltledger.recipe.calculation import calculate, cook, laid_out, read_all
from saltledger.recipe.outcome import ResolvedIngredient
from saltledger.recipe.request import RecipeRequest
from saltledger.recipe.single_bath import bath_answer
from saltledger.recipe.state import CalculationState
from saltledger.recipe.steps.dispatch import do
from saltledger.transfer.bath_requests import BathRequest

from .instructions import instructions

FOUR_STEPS: dict[str, Any] = {
    "title": "Poached loin with its roots",
    "servings": 8,
    "components": [
        {"id": "loin", "ingredients": ["1.4 kg pork loin"]},
        {"id": "brine", "ingredients": ["3 l water", "150 g salt", "40 g sugar"]},
        {"id": "pot", "ingredients": ["4 l water", "1 onion", "2 bay leaves"]},
        {"id": "roots", "ingredients": ["800 g carrots", "600 g potatoes"]},
        {"id": "water", "ingredients": ["3 l water"]},
        {"id": "coat", "ingredients": ["60 g flour", "1/2 tsp salt"]},
    ],
    "steps": [
        {"kind": "brine", "food": "loin", "bath": "brine", "duration_h": 72, "thickness_cm": 7},
        {"kind": "simmer", "food": "loin", "bath": "pot", "duration_h": 2},
        {"kind": "boil", "food": "roots", "bath": "pot", "duration_h": 0.4},
        {"kind": "roast", "food": "loin", "duration_h": 0.5, "temperature_c": 200},
    ],
}  # fmt: skip

TWELVE_STEPS: dict[str, Any] = FOUR_STEPS | {
    "steps": [
        {"kind": "brine", "food": "loin", "bath": "brine", "duration_h": 36, "thickness_cm": 7},
        {"kind": "brine", "food": "loin", "bath": "brine", "duration_h": 36, "thickness_cm": 7},
        {"kind": "rinse", "food": "loin", "duration_h": 0.05},
        {"kind": "soak", "food": "loin", "bath": "water", "duration_h": 2, "thickness_cm": 7},
        {"kind": "rest", "food": "loin", "duration_h": 12, "thickness_cm": 7},
        {"kind": "simmer", "food": "loin", "bath": "pot", "duration_h": 1},
        {"kind": "simmer", "food": "loin", "bath": "pot", "duration_h": 1},
        {"kind": "boil", "food": "roots", "bath": "pot", "duration_h": 0.4},
        {"kind": "drain", "food": "roots"},
        {"kind": "dredge", "food": "loin", "bath": "coat"},
        {"kind": "roast", "food": "loin", "duration_h": 0.5, "temperature_c": 200},
        {"kind": "rest", "food": "loin", "duration_h": 0.2, "thickness_cm": 7},
    ]
}  # fmt: skip

BATH: dict[str, Any] = {
    "food": {"class": "pork", "weight_g": 1400, "shape": "sheet", "thickness_cm": 6, "water_fraction": 0.7},
    "bath": {"water_g": 3000, "salt_g": 150, "nitrite_g": 0.6, "sugar_g": 40},
    "temperature_c": 3,
    "duration_h": 72,
    "product_class": "immersion_cured",
}


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


def counted() -> dict[str, Callable[[], object]]:
    """What `tests.bench.instructions` counts: the salt part and the whole, and the yardstick."""
    foods, cases = bundled(), dict[str, Callable[[], object]]()
    for name, recipe in (("four", FOUR_STEPS), ("twelve", TWELVE_STEPS)):
        request = RecipeRequest.from_document(recipe)
        listed = read_all(request, foods)
        filled = [laid_out(request, listed) for _ in range(8)]
        cases[f"salt part, {name} steps"] = lambda request=request, filled=filled: _all_steps(
            request, filled.pop()
        )
        cases[f"whole recipe, {name} steps"] = lambda request=request: calculate(request, foods)
    asked = BathRequest.from_document(load(BathSchema(), BATH))
    cases["a bath alone"] = lambda: bath_answer(asked)
    cases[ADDITIONS] = additions
    return cases


ADDITIONS = "1,000 additions"

MOST = (
    ("salt part, twelve steps", 3.0, "salt part, four steps"),
    ("whole recipe, twelve steps", 3.0, "whole recipe, four steps"),
    ("salt part, four steps", 6.0, ADDITIONS),
    ("a bath alone", 36.0, ADDITIONS),
)
"""A case, and how many times the instructions of another it may take."""


def held(say: Callable[[str], None] = print) -> bool:
    """Whether the counts are within MOST, with a line for each."""
    counts = instructions("tests.bench.salt:counted")
    for name, count in counts.items():
        say(f"{name:32}{count:14,} instructions")
    found = [(case, counts[case] / counts[other], most, other) for case, most, other in MOST]
    for case, times, most, other in found:
        say(f"{case}: {times:.2f} times {other}, at most {most:g}{'' if times <= most else '  TOO MANY'}")
    return all(times <= most for _, times, most, _ in found)


def report(repeat: int, say: Callable[[str], None] = print) -> None:
    foods, request = bundled(), RecipeRequest.from_document(FOUR_STEPS)
    listed, outcome = read_all(request, foods), cook(request, foods)
    assert all(each.ingredient.food and each.ingredient.grams for each in listed), "a line was not read"
    salt_part, others = steps_milliseconds(request, listed, repeat)
    longer = RecipeRequest.from_document(TWELVE_STEPS)
    bath = BathRequest.from_document(load(BathSchema(), BATH))
    cases = {
        "plain sum over the list": milliseconds(lambda: plain_sum(listed), repeat),
        "1,000 additions of 201 draws": milliseconds(additions, repeat),
        "reading the lines": milliseconds(lambda: read_all(request, foods), repeat),
        "filling the kitchen": milliseconds(lambda: laid_out(request, listed), repeat),
        "the salt part (steps)": salt_part,
        "the other nutrients, following": others,
        "reading, steps and serving": milliseconds(lambda: cook(request, foods), repeat),
        "the answer's words": milliseconds(lambda: answer_document(outcome), repeat),
        "the whole recipe": milliseconds(lambda: calculate(request, foods), repeat),
        "one of twelve steps": milliseconds(lambda: calculate(longer, foods), repeat),
        "its salt part": steps_milliseconds(longer, read_all(longer, foods), repeat)[0],
        "a bath alone": milliseconds(lambda: bath_answer(bath), repeat),
    }
    plain, thousand = list(cases.values())[:2]
    say(f"{'':32}{'ms':>9}{'x plain sum':>13}{'x additions':>13}")
    for name, spent in cases.items():
        say(f"{name:32}{spent:9.3f}{spent / plain:13.1f}{spent / thousand:13.2f}")


def main() -> None:
    parser = argparse.ArgumentParser(description="Cost of the steps of a recipe at full ranges.")
    parser.add_argument("--repeat", type=int, default=50, help="runs of each case; the best counts")
    parser.add_argument("--no-counts", action="store_true", help="times alone: no valgrind, and no bounds")
    asked = parser.parse_args()
    report(asked.repeat)
    if not asked.no_counts and not held():
        sys.exit(1)


if __name__ == "__main__":
    main()
