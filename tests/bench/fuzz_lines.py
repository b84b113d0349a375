"""Throws random and mutated lines at the reader, the matcher and the weigher.

    python -m tests.bench.fuzz_lines [--count 100000] [--seed 1]

Passes when nothing but a refusal of the domain (InvalidRequest) is raised and no line takes over 20 ms of
processor time, a slow line being timed three more times and its median taken. Exits with 1 otherwise, the
lines listed.
"""

from __future__ import annotations

import argparse
import gc
import random
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from statistics import median
from time import process_time

from saltledger.core.errors import InvalidRequest
from saltledger.foods.dataset import bundled
from saltledger.recipe.ingredients import ReadSettings, resolve

from .scoring import PARTS, read_rows

LIMIT_SECONDS = 0.020
REPEATS = 3
LISTED = 20
FRAGMENTS = (
    *"½⅓¼¾⅛⁄–—-+/.,()[]{}°#'\"%&*•×x~:;!?\\|<>=_@$^`",
    " ", "  ", "\t", "\n", "\r\n", "\x00", "\x1b", "\u200b", "\u00a0", "\u202e", "\ufeff", "\U0001f9c2",
    "é", "ß", "ñ", "中文", "عربي", "e\u0301", "\ud7ff",
    "0", "1", "9" * 30, "1/0", "0/0", "1e309", "-1", "1/2/3", "3.14.15", "NaN", "inf", "1.000.000,5", "١٢",
    "cup", "cups", "tsp", "T", "t", "oz", "lb", "#", "kg", "ml", "can", "bunch", "clove", "pinch",
    "plus", "to", "or", "and", "of", "divided", "to taste", "juice of", "about", "half", "dozen",
    "salt", "butter", "flour", "chicken", "unsalted", "chopped", "cooked", "(", "((((", "))))", "(1 (2 (3",
)  # fmt: skip
ALPHABETS = (
    "abcdefghijklmnopqrstuvwxyz      ",
    "0123456789/.-½¼ ",
    "".join(chr(code) for code in range(32, 127)),
    "".join(chr(code) for code in range(0xA0, 0x250)),
)
LONG = 10_000


@dataclass(slots=True)
class Report:
    """What came of it: lines done and refused, exceptions by line, slow lines and the slowest of all."""

    done: int = 0
    refused: int = 0
    raised: list[tuple[str, str]] = field(default_factory=list)
    slow: list[tuple[str, float]] = field(default_factory=list)
    slowest: tuple[float, str] = (0.0, "")

    @property
    def passed(self) -> bool:
        return not self.raised and not self.slow


def mutated(dice: random.Random, line: str) -> str:
    """The line with one to four pieces put in, taken out, doubled or moved."""
    for _ in range(dice.randint(1, 4)):
        here, there = sorted(dice.randrange(len(line) + 1) for _ in range(2))
        match dice.randrange(7):
            case 0:
                line = line[:here] + dice.choice(FRAGMENTS) + line[here:]
            case 1:
                line = line[:here] + line[here + dice.randint(1, 3) :]
            case 2:
                line = line[:here] + line[here:there] * dice.randint(2, 5) + line[there:]
            case 3:
                line = line[there:] + " " + line[:there]
            case 4:
                line = dice.choice((line.upper(), line.title(), line.swapcase(), line[::-1]))
            case 5:
                words = line.split()
                dice.shuffle(words)
                line = " ".join(words)
            case _:
                line = line[:here] + dice.choice(ALPHABETS[2]) + line[here + 1 :]
    return line


def random_line(dice: random.Random) -> str:
    """A line made of pieces or of single characters; now and then a very long one."""
    kind = dice.random()
    if kind < 0.002:
        return (dice.choice(FRAGMENTS) + " ") * (LONG // dice.choice((2, 3, 5, 20)))
    if kind < 0.5:
        return " ".join(dice.choice(FRAGMENTS) for _ in range(dice.randint(0, 25)))
    return "".join(dice.choices(dice.choice(ALPHABETS), k=dice.randint(0, 120)))


def spliced(dice: random.Random, lines: Sequence[str]) -> str:
    """The head of one line and the tail of another."""
    head, tail = dice.choice(lines), dice.choice(lines)
    return head[: dice.randrange(len(head) + 1)] + tail[dice.randrange(len(tail) + 1) :]


def fuzzed(count: int, seed: int) -> Iterator[str]:
    """`count` lines, the same for the same seed: mutations of real lines, splices, and pure noise."""
    dice = random.Random(seed)
    lines = [row.line for part in PARTS for row in read_rows(part)]
    for _ in range(count):
        kind = dice.random()
        if kind < 0.6:
            yield mutated(dice, dice.choice(lines))
        elif kind < 0.75:
            yield spliced(dice, lines)
        else:
            yield random_line(dice)


def run(count: int, seed: int) -> Report:
    """Resolve every line and note what went wrong."""
    foods, settings, report = bundled(), ReadSettings(), Report()

    def attempt(line: str) -> tuple[float, bool]:
        start, refused = process_time(), False
        try:
            resolve(line, foods, settings)
        except InvalidRequest:
            refused = True
        return process_time() - start, refused

    resolve("1 cup flour", foods, settings)
    gc.collect()
    for line in fuzzed(count, seed):
        report.done += 1
        try:
            took, refused = attempt(line)
            if took > LIMIT_SECONDS:
                took = median(attempt(line)[0] for _ in range(REPEATS))
        except Exception as fault:  # what the fuzzing is for: anything but a refusal is a finding
            report.raised.append((line, repr(fault)))
            continue
        report.refused += refused
        report.slowest = max(report.slowest, (took, line))
        if took > LIMIT_SECONDS:
            report.slow.append((line, took))
    return report


def print_report(report: Report) -> None:
    print(
        f"{report.done} lines, {report.refused} refused, {len(report.raised)} raised, {len(report.slow)} slow"
    )
    print(f"slowest {report.slowest[0] * 1e3:.2f} ms: {report.slowest[1][:120]!r}")
    for line, fault in report.raised[:LISTED]:
        print(f"raised {fault} on {line[:200]!r}")
    for line, took in report.slow[:LISTED]:
        print(f"took {took * 1e3:.1f} ms: {line[:200]!r}")


def main() -> int:
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--count", type=int, default=100_000)
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    report = run(asked.count, asked.seed)
    print_report(report)
    return 0 if report.passed else 1


if __name__ == "__main__":
    sys.exit(main())
