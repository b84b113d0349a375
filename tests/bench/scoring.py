"""How an answer to an ingredient line is judged: rows of the evaluation files, verdicts, totals.

A row's food is right (top-1) when the service's food is one the row accepts, or when it gives none and the
row accepts `none`. It is found (top-3) when the food or one of the alternatives, three foods in all, is
accepted. Its weight is right when the likely weight lies in the row's range.
"""

from __future__ import annotations

import csv
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple

NO_MATCH = "none"
CONFIDENT = 0.8
"""From this confidence on, a wrong food is a false-confident one."""

BIN_EDGES = (0.0, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95)
"""Lower edges of the bins of the calibration table; the last bin runs to 1."""

ROUNDING = 1e-9
"""Relative slack at the ends of a weight's range, for sums in binary."""

PARTS = ("tuning", "held_out", "many_hands", "two_hands")
COLUMNS = ("line", "accepted", "grams_low", "grams_high", "kind", "note")


@dataclass(frozen=True, slots=True)
class Row:
    """A line and what a careful dietitian would accept for it; grams are of the edible part, in g."""

    line: str
    accepted: frozenset[str]
    grams: tuple[float, float] | None
    kind: str
    note: str


@dataclass(frozen=True, slots=True)
class Answer:
    """What a matcher says: code of its food (None = no match), others in order, confidence, likely g."""

    food: str | None
    alternatives: tuple[str, ...] = ()
    confidence: float = 0.0
    grams: float | None = None


@dataclass(frozen=True, slots=True)
class Verdict:
    """Row and answer, judged. weight is None where the row or the answer leaves nothing to weigh."""

    row: Row
    answer: Answer
    first: bool
    among_three: bool
    weight: bool | None

    @property
    def false_confident(self) -> bool:
        return not self.first and self.answer.confidence >= CONFIDENT

    @property
    def wrong_confident(self) -> bool:
        """Whether the food or the weight is wrong, at a confidence that asks nobody to look."""
        return not (self.first and self.weight is not False) and self.answer.confidence >= CONFIDENT


class Bin(NamedTuple):
    """One line of a calibration table: foods given with confidence in [low, high), and the share right."""

    low: float
    high: float
    count: int
    right: float


def part_path(part: str) -> Path:
    """Where the rows of a part are kept."""
    return Path(__file__).with_name(f"lines_{part}.csv")


def read_rows(part: str) -> list[Row]:
    """The rows of "tuning" or "held_out", in file order."""
    text = part_path(part).read_text(encoding="utf-8")
    lines = (line for line in text.splitlines() if not line.startswith("#"))
    return [_row(cells) for cells in csv.DictReader(lines)]


def _row(cells: dict[str, str]) -> Row:
    low, high = cells["grams_low"], cells["grams_high"]
    return Row(
        line=cells["line"],
        accepted=frozenset(cells["accepted"].split("|")),
        grams=(float(low), float(high)) if low else None,
        kind=cells["kind"],
        note=cells["note"],
    )


def judge(row: Row, answer: Answer) -> Verdict:
    """Compare an answer with what its row accepts."""
    candidates = [code for code in (answer.food, *answer.alternatives) if code is not None][:3]
    first = (answer.food or NO_MATCH) in row.accepted
    return Verdict(
        row=row,
        answer=answer,
        first=first,
        among_three=first or not row.accepted.isdisjoint(candidates),
        weight=_weight(row, answer),
    )


def _weight(row: Row, answer: Answer) -> bool | None:
    if row.grams is None:
        return None
    if answer.grams is None:
        # What has rightly not been matched cannot be weighed by the spoon.
        return None if answer.food is None and NO_MATCH in row.accepted else False
    low, high = row.grams
    return low * (1 - ROUNDING) <= answer.grams <= high * (1 + ROUNDING)


@dataclass(frozen=True, slots=True)
class Totals:
    """Shares over a set of verdicts, each from 0 to 1."""

    rows: int
    first: float
    among_three: float
    weighed: int
    weight: float
    false_confident: float
    wrong_confident: float


@dataclass(frozen=True, slots=True)
class Floor:
    """The least shares of right foods and right weights, and the most of false-confident rows (the food is
    wrong) and of wrong-confident ones (the food or the weight is), 0 to 1."""

    first: float
    weight: float
    false_confident: float
    wrong_confident: float = 1.0

    def missed(self, reached: Totals) -> list[str]:
        """In words, what falls short."""
        told = (
            ("top-1", reached.first, self.first, reached.first < self.first),
            ("weight in range", reached.weight, self.weight, reached.weight < self.weight),
            (
                "false-confident",
                reached.false_confident,
                self.false_confident,
                reached.false_confident > self.false_confident,
            ),
            (
                "wrong-confident",
                reached.wrong_confident,
                self.wrong_confident,
                reached.wrong_confident > self.wrong_confident,
            ),
        )
        return [f"{name} {got:.1%}, held to {held:.1%}" for name, got, held, short in told if short]


def share(hits: Iterable[bool]) -> float:
    """The share of hits that are true; 1 where there are none to miss."""
    marks = list(hits)
    return sum(marks) / len(marks) if marks else 1.0


def total(verdicts: Sequence[Verdict]) -> Totals:
    """Add verdicts up."""
    weights = [verdict.weight for verdict in verdicts if verdict.weight is not None]
    return Totals(
        rows=len(verdicts),
        first=share(verdict.first for verdict in verdicts),
        among_three=share(verdict.among_three for verdict in verdicts),
        weighed=len(weights),
        weight=share(weights),
        false_confident=sum(verdict.false_confident for verdict in verdicts) / max(len(verdicts), 1),
        wrong_confident=sum(verdict.wrong_confident for verdict in verdicts) / max(len(verdicts), 1),
    )


def calibration(verdicts: Sequence[Verdict]) -> list[Bin]:
    """How often a food was right, by the confidence it was given with; lines given no food are left out."""
    table = []
    for low, high in zip(BIN_EDGES, (*BIN_EDGES[1:], 1.0 + 1e-9), strict=True):
        inside = [v.first for v in verdicts if v.answer.food and low <= v.answer.confidence < high]
        table.append(Bin(low, min(high, 1.0), len(inside), share(inside)))
    return table
