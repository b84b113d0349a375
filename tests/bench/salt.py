"""What a recipe of four steps costs at full ranges: reading, the salt part, and the answer; one of twelve
beside it, and a bath alone.

    python -m tests.bench.salt [--repeat N] [--no-counts]

Each figure is the best of N runs after a first one, in milliseconds, and as a multiple of two yardsticks of
the same run: the plain sum over the list (grams times table values, no ranges), and a thousand additions of
arrays of 201 draws. The salt part is the steps alone, from filled pools to the last movement of what decides
where things go; the other nutrients are what then follows.

Exits 1 where the accuracy of the salt on the measurements kept for checking (`salt_accuracy.py`) falls under
its floor, or where instructions (`step_costs.py`), which do not hang on the machine's load, are more than
MOST allows.
"""

from __future__ import annotations

import argparse
import sys
import time
from collections.abc import Callable

import numpy as np
from saltledger.foods.dataset import bundled
from saltledger.recipe.answer import answer_document
from saltledger.recipe.calculation import calculate, cook, laid_out, read_all
from saltledger.recipe.outcome import ResolvedIngredient
from saltledger.recipe.request import RecipeRequest
from saltledger.recipe.single_bath import bath_answer
from saltledger.recipe.state import CalculationState

from . import step_costs as costs
from .instructions import counts_of, is_there
from .salt_accuracy import FLOOR, accuracy, kept_apart

MOST = (
    (costs.SALT_TWELVE, 3.0, costs.SALT_FOUR),
    (costs.WHOLE_TWELVE, 3.0, costs.WHOLE_FOUR),
    (costs.SALT_FOUR, 5.5, costs.ADDITIONS),
    (costs.ALONE, 16.0, costs.ADDITIONS),
)
"""A case, and how many times the instructions of another it may take."""


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
    return _timed(lambda: costs.all_steps(request, state)), _timed(state.pools.catch_up)


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


def over(say: Callable[[str], None] = print) -> list[str]:
    """What takes more instructions than MOST allows; says what each case takes. Raises RuntimeError where
    there is no valgrind to count them."""
    if not is_there():
        raise RuntimeError("Counting instructions needs valgrind: apt-get install valgrind, or --no-counts.")
    counts = dict(zip(costs.NAMES, counts_of(costs.__name__), strict=True))
    for name, count in counts.items():
        say(f"{name:32}{count:14,} instructions")
    ratios = [(counts[case] / counts[other], most, f"{case} over {other}") for case, most, other in MOST]
    for times, most, what in ratios:
        say(f"{times:8.2f}, at most {most:g}: {what}")
    return [what for times, most, what in ratios if times > most]


def report(repeat: int, say: Callable[[str], None] = print) -> None:
    foods, request = bundled(), RecipeRequest.from_document(costs.FOUR_STEPS)
    listed, outcome = read_all(request, foods), cook(request, foods)
    assert all(each.ingredient.food and each.ingredient.grams for each in listed), "a line was not read"
    salt_part, others = steps_milliseconds(request, listed, repeat)
    longer = RecipeRequest.from_document(costs.TWELVE_STEPS)
    bath = costs.bath()
    cases = {
        "plain sum over the list": milliseconds(lambda: plain_sum(listed), repeat),
        "1,000 additions of 201 draws": milliseconds(costs.additions, repeat),
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


def main() -> int:
    parser = argparse.ArgumentParser(
        description="Accuracy, and cost of the steps of a recipe, at full ranges."
    )
    parser.add_argument("--repeat", type=int, default=50, help="runs of each case; the best counts")
    parser.add_argument(
        "--no-counts", action="store_true", help="times alone: no valgrind, no bounds on cost"
    )
    asked = parser.parse_args()
    reached = accuracy(kept_apart())
    print(reached)
    report(asked.repeat)
    short = reached.short_of(FLOOR)
    for each in short:
        print(f"Under the floor: {each}.")
    costly = [] if asked.no_counts else over()
    for each in costly:
        print(f"Too many instructions: {each}.")
    return int(bool(short or costly))


if __name__ == "__main__":
    sys.exit(main())
