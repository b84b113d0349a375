"""Measures how well and how fast ingredient lines are read, mapped and weighed.

    python -m tests.bench.lines [--part tuning|held_out|both] [--errors] [--show-held-out]

Prints, for the lines of tests/bench/lines_*.csv: top-1, top-3, weight in range, false-confident rate,
calibration, speed; and the same foods sought by SQLite FTS5 and by rapidfuzz alone, with the ratios of
speed within this run. Times are processor time, which other work on the machine does not lengthen
much. Every line is timed at first sight, so that no cache of whole lines can flatter it. Our time is given
whole (reading, mapping and weighing) and for the mapping alone, which is what the others' search does.

Exits 1 where a part falls below its floors (FLOORS).

The held-out part is for totals: its rows are shown only with --show-held-out, and not to whoever tunes.
"""

from __future__ import annotations

import argparse
import gc
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack, contextmanager
from statistics import median
from time import process_time
from typing import Any, TypeVar
from unittest.mock import patch

from saltledger.foods.dataset import bundled
from saltledger.lines.line_reading import read_line
from saltledger.recipe import ingredients
from saltledger.recipe.ingredients import Ingredient, ReadSettings, resolve

from . import baselines
from .scoring import (
    NO_MATCH,
    PARTS,
    Answer,
    Floor,
    Row,
    Verdict,
    calibration,
    judge,
    read_rows,
    share,
    total,
)

T = TypeVar("T")
RECIPE_LINES = 15
WARM_UP = (
    "2 cups flour", "1 tsp salt", "3 eggs, beaten", "200 g butter", "1 (14.5 oz) can tomatoes, drained",
    "juice of 1 lemon", "1 onion, chopped", "2 cloves garlic", "500 ml milk", "1 kg chicken thighs",
    "a pinch of nutmeg", "salt to taste", "1/2 bunch parsley", "4 slices bacon", "1 cup nothing known",
)  # fmt: skip
WARM_UP_ROUNDS = 3
FLOORS = {
    "tuning": Floor(0.99, 0.99, 0.005, 0.005),
    "held_out": Floor(0.98, 0.98, 0.005, 0.005),
    "many_hands": Floor(0.98, 0.98, 0.005, 0.005),
    "two_hands": Floor(0.97, 0.965, 0.005, 0.01),
}
"""What each part has to reach: what was reached when they were set, less a line or a few."""

SEARCHED = 150
"""Lines of a part that plain searches are tried on: a scan of all names takes 30 ms for each."""

STAGES = {"read_line": "reading", "match_line": "mapping", "weigh": "weighing"}
"""The calls of recipe.ingredients that are timed one by one, and what they do."""


def answer_of(ingredient: Ingredient) -> Answer:
    """The service's answer in the words of the scoring."""
    return Answer(
        food=ingredient.food.code if ingredient.food else None,
        alternatives=tuple(food.code for food in ingredient.alternatives),
        confidence=ingredient.confidence,
        grams=ingredient.grams.likely if ingredient.grams else None,
    )


def timed(ask: Callable[[str], T], texts: Sequence[str]) -> tuple[list[T], list[float]]:
    """Answers to the texts in order, and the seconds of processor time each took."""
    answers, seconds = [], []
    gc.collect()
    for text in texts:
        start = process_time()
        answers.append(ask(text))
        seconds.append(process_time() - start)
    return answers, seconds


@contextmanager
def stopwatches() -> Iterator[Counter[str]]:
    """Seconds of processor time by stage, counted while the context lasts."""
    spent: Counter[str] = Counter()

    def watched(stage: str, call: Callable[..., Any]) -> Callable[..., Any]:
        def timed_call(*args: Any, **more: Any) -> Any:
            start = process_time()
            try:
                return call(*args, **more)
            finally:
                spent[stage] += process_time() - start  # type: ignore[assignment]

        return timed_call

    with ExitStack() as watching:
        for name, stage in STAGES.items():
            call = watched(stage, getattr(ingredients, name))
            watching.enter_context(patch.object(ingredients, name, call))
        yield spent


def service() -> Callable[[str], Ingredient]:
    """The service's own way from a line to an ingredient, loaded and warmed up on lines of no part."""
    foods, settings = bundled(), ReadSettings()

    def ask(text: str) -> Ingredient:
        return resolve(text, foods, settings)

    for _ in range(WARM_UP_ROUNDS):
        for text in WARM_UP:
            ask(text)
    return ask


def measure_part(part: str, ask: Callable[[str], Ingredient], *, errors: bool) -> list[str]:
    """Print everything about one part; in words, which of its floors it falls below."""
    rows = read_rows(part)
    texts = [row.line for row in rows]
    with stopwatches() as spent:
        found, seconds = timed(ask, texts)
    verdicts = [judge(row, answer_of(ingredient)) for row, ingredient in zip(rows, found, strict=True)]
    again = sum(timed(ask, texts)[1])
    print(f"\n{part}: {len(rows)} lines")
    print_quality(verdicts)
    print_speed(seconds, again, spent)
    print_baselines(rows, verdicts, {"ours, whole": sum(seconds), "ours, mapping": spent["mapping"]})
    if errors:
        print_errors(verdicts)
    return [f"{part}: {short}" for short in FLOORS[part].missed(total(verdicts))]


def print_quality(verdicts: Sequence[Verdict]) -> None:
    result = total(verdicts)
    print(f"  top-1            {result.first:7.1%}")
    print(f"  top-3            {result.among_three:7.1%}")
    print(f"  weight in range  {result.weight:7.1%}  of {result.weighed} lines with a weight to hold")
    print(f"  false-confident  {result.false_confident:7.1%}  wrong at confidence 0.8 or more")
    print(f"  wrong-confident  {result.wrong_confident:7.1%}  food or weight wrong at confidence 0.8 or more")
    print("  confidence   lines  right")
    for low, high, count, right in calibration(verdicts):
        if count:
            print(f"  {low:4.2f}-{high:4.2f}  {count:7d}  {right:6.1%}")
    unmatched = [verdict.first for verdict in verdicts if verdict.answer.food is None]
    print(f"  no match   {len(unmatched):7d}  {share(unmatched):6.1%}")


def print_speed(seconds: Sequence[float], again: float, spent: Counter[str]) -> None:
    recipes = [
        sum(seconds[start : start + RECIPE_LINES])
        for start in range(0, len(seconds) - RECIPE_LINES + 1, RECIPE_LINES)
    ]
    stages = ", ".join(f"{stage} {spent[stage] / len(seconds) * 1e6:.0f}" for stage in STAGES.values())
    print(f"  {len(seconds) / sum(seconds):,.0f} lines a second at first sight", end=" ")
    print(f"({len(seconds) / again:,.0f} when seen before); slowest {max(seconds) * 1e3:.2f} ms")
    print(f"  µs a line: {stages}, all {sum(seconds) / len(seconds) * 1e6:.0f}")
    print(f"  a recipe of {RECIPE_LINES} lines, warm, lines new:", end=" ")
    print(f"median {median(recipes) * 1e3:.2f} ms, slowest {max(recipes) * 1e3:.2f} ms")


def print_baselines(rows: Sequence[Row], verdicts: Sequence[Verdict], ours: dict[str, float]) -> None:
    names = bundled().names
    words = [read_line(row.line).food_words for row in rows]
    print(
        "  foods on the same lines    top-1   top-3  where a food is right  lines/s  whole, mapping faster by"
    )
    for label, seconds in ours.items():
        print_search(label, verdicts, seconds, ours, len(rows))
    for label, search in (
        ("SQLite FTS5 bm25 alone", baselines.full_text(names)),
        ("rapidfuzz WRatio alone", baselines.full_scan(names)),
    ):
        search("warm up")
        answers, taken = timed(search, words[:SEARCHED])
        judged = [judge(row, answer) for row, answer in zip(rows, answers, strict=False)]
        print_search(label, judged, sum(taken) * len(rows) / len(taken), ours, len(rows))


def print_search(
    label: str, verdicts: Sequence[Verdict], seconds: float, ours: dict[str, float], lines: int
) -> None:
    """seconds: for all `lines`, of which the verdicts may be the first ones."""
    result = total(verdicts)
    foods_only = share(verdict.first for verdict in verdicts if verdict.row.accepted != {NO_MATCH})
    ratios = "".join(f"{seconds / own:7.1f} x faster" for own in ours.values())
    print(f"  {label:23s} {result.first:8.1%} {result.among_three:7.1%} {foods_only:22.1%}", end="")
    print(f" {lines / seconds:8,.0f} {ratios}")


def print_errors(verdicts: Sequence[Verdict]) -> None:
    for verdict in verdicts:
        if not verdict.first or verdict.weight is False:
            print(f"  {_error(verdict)}")


def _error(verdict: Verdict) -> str:
    row, answer = verdict.row, verdict.answer
    told = []
    if not verdict.first:
        names = bundled().names
        got = f"{answer.food} {names[answer.food]}" if answer.food else "no match"
        accepted = " ".join(sorted(row.accepted)[:4])
        told.append(f"food: {got} at {answer.confidence:.2f}, accepted {accepted}")
    if verdict.weight is False and row.grams:
        told.append(f"weight: {answer.grams} g, accepted {row.grams[0]:g} to {row.grams[1]:g}")
    return f"[{row.kind}] {row.line!r}: {'; '.join(told)}"


def main() -> None:
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--part", choices=(*PARTS, "all"), default="all")
    parser.add_argument(
        "--errors", action="store_true", help="list the rows of the tuning part that are wrong"
    )
    parser.add_argument("--show-held-out", action="store_true", help="list wrong rows of the other parts too")
    asked = parser.parse_args()
    ask = service()
    missed: list[str] = []
    for part in PARTS if asked.part == "all" else (asked.part,):
        shown = asked.errors if part == "tuning" else asked.show_held_out
        missed += measure_part(part, ask, errors=shown)
    if missed:
        raise SystemExit("\n".join(("", "Below the floor:", *missed)))


if __name__ == "__main__":
    main()
