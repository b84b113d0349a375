"""Every case worked out, and how many lie inside their ranges, by kind and part."""

from __future__ import annotations

import csv
import io
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fnmatch import fnmatchcase
from functools import cache
from statistics import median

from ..core.spread import Spread
from ..core.tables import Row, load, rows
from ..foods.dataset import bundled
from ..recipe.calculation import cook
from ..recipe.outcome import Outcome
from ..recipe.request import RecipeRequest
from ..render.evidence_drawing import Measured
from .cases import Case, cases
from .places import spread_at


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of answer. label: in plain words; floor: least share (0 to 1) inside;
    steps: kinds of steps whose range it tells."""

    id: str
    label: str
    floor: float
    steps: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Held:
    """A case and what the service says of it."""

    case: Case
    range: Spread
    rows: tuple[str, ...] = ()
    """The rows of the tables that it stands on."""

    @property
    def inside(self) -> bool:
        """Whether what was measured can lie in the range, as far as it is printed."""
        slack = abs(self.case.published) * self.case.rounding
        return self.range.low - slack <= self.case.published <= self.range.high + slack

    @property
    def width(self) -> float | None:
        """High over low; None where the range holds 0."""
        return self.range.high / self.range.low if self.range.low > 0 else None


def measured(held: Iterable[Held]) -> list[Measured]:
    """Cases as the picture draws them, kind by kind in the order of the table."""
    order = list(kinds())
    return [
        Measured(kinds()[each.case.kind].label, each.case.id, each.case.published, each.range, each.inside)
        for each in sorted(held, key=lambda each: order.index(each.case.kind))
    ]


@dataclass(frozen=True, slots=True)
class Coverage:
    """Of the cases of a kind and part, how many lie inside, and the median width of their ranges."""

    kind: str
    part: str
    inside: int
    of: int
    width: float | None
    bias: float | None
    """Median of likely over published; None where nothing published is above 0."""

    @property
    def share(self) -> float:
        return self.inside / self.of


@cache
def kinds() -> dict[str, Kind]:
    return {kind.id: kind for kind in load("evidence_kinds", _kind)}


def _kind(row: Row) -> Kind:
    return Kind(row["kind"], row["label"], float(row["floor"]), tuple(filter(None, row["steps"].split("|"))))


@dataclass(frozen=True, slots=True)
class Why:
    """Why measurements lie outside their range. cases: their ids, * for any words; verdict: see WHYS."""

    cases: str
    verdict: str
    words: str


WHYS = {
    "model": "the model does not follow it yet",
    "case": "the source does not tell what the answer hangs on",
    "scatter": "foods and laboratories differ so far",
    "figure": "a figure is wrong",
}


@cache
def whys() -> tuple[Why, ...]:
    """Every reason, in the order of the table: the first that fits a case counts."""
    return load("evidence_misses", _why)


def _why(row: Row) -> Why:
    if row["verdict"] not in WHYS:
        raise ValueError(f"no such verdict: {row['verdict']!r}")
    return Why(row["cases"], row["verdict"], row["why"])


def why(case: Case) -> Why | None:
    """Why a case lies outside its range, if the table says so."""
    return next((each for each in whys() if fnmatchcase(case.id, each.cases)), None)


def explained(held: Iterable[Held]) -> list[tuple[Held, Why | None]]:
    """The published measurements outside their range, each with why; not the dataset's own."""
    return [
        (each, why(each.case))
        for each in held
        if not each.inside and not each.case.source.id.startswith("sr28")
    ]


def hold(case: Case) -> Held:
    """Work a case out."""
    return Held(case, spread_at(_cooked(case), case.place))


def _cooked(case: Case) -> Outcome:
    return cook(RecipeRequest.from_document(case.request), bundled())


def hold_all(wanted: Iterable[Case] | None = None) -> list[Held]:
    """Work all cases out; neighbours that are of one request are cooked once."""
    held: list[Held] = []
    request, outcome = None, None
    for case in cases() if wanted is None else wanted:
        if outcome is None or case.request is not request:
            request, outcome = case.request, _cooked(case)
        held.append(Held(case, spread_at(outcome, case.place), _rows_of(outcome)))
    return held


def _rows_of(outcome: Outcome) -> tuple[str, ...]:
    found = (each.row for each in outcome.state.log)
    return tuple(dict.fromkeys(row for row in found if row))


def coverages(held: Sequence[Held]) -> list[Coverage]:
    """By kind, in the order of the table, and part."""
    groups: dict[tuple[str, str], list[Held]] = defaultdict(list)
    for each in held:
        groups[each.case.kind, each.case.source.part].append(each)
    order = list(kinds())
    return [_coverage(*key, groups[key]) for key in sorted(groups, key=lambda k: (order.index(k[0]), k[1]))]


def _coverage(kind: str, part: str, held: Sequence[Held]) -> Coverage:
    widths = [each.width for each in held if each.width is not None]
    ratios = [each.range.likely / each.case.published for each in held if each.case.published > 0]
    return Coverage(
        kind,
        part,
        sum(each.inside for each in held),
        len(held),
        median(widths) if widths else None,
        median(ratios) if ratios else None,
    )


def fallen(found: Iterable[Coverage]) -> list[Coverage]:
    """Those of the checking part under the floor of their kind."""
    return [each for each in found if each.part == "checking" and each.share < kinds()[each.kind].floor]


COVERAGE_HEAD = """\
# How many published measurements lie inside their range, by kind and part: made by `saltledger evidence
# --write`; do not edit by hand. width: median of high over low.
"""
_COLUMNS = ("kind", "part", "inside", "of", "width")


def coverage_csv(found: Iterable[Coverage]) -> str:
    """The table that answers and pages look up."""
    lines = [",".join(_COLUMNS)]
    for each in found:
        width = "" if each.width is None else f"{each.width:.2f}"
        lines.append(f"{each.kind},{each.part},{each.inside},{each.of},{width}")
    return COVERAGE_HEAD + "\n".join(lines) + "\n"


ROWS_HEAD = """\
# How many published measurements (but the dataset's own pairs) stand on each row of the tables, and how
# many of them lie inside; checked_by: the sources among them that no figure was made of
# (evidence_sources.csv). Made by `saltledger evidence --write`; do not edit by hand.
"""


def rows_csv(held: Iterable[Held]) -> str:
    """By row of the tables, the measurements that stand on it."""
    inside: dict[str, int] = defaultdict(int)
    of: dict[str, int] = defaultdict(int)
    checked_by: dict[str, set[str]] = defaultdict(set)
    for each in held:
        if each.case.kind != "dataset":
            for row in each.rows:
                inside[row] += each.inside
                of[row] += 1
                if each.case.source.part == "checking":
                    checked_by[row].add(each.case.source.id)
    body = [(row, str(inside[row]), str(of[row]), " ".join(sorted(checked_by[row]))) for row in sorted(of)]
    out = io.StringIO()
    csv.writer(out, lineterminator="\n").writerows([("row", "inside", "of", "checked_by"), *body])
    return ROWS_HEAD + out.getvalue()


def is_kept(found: Iterable[Coverage]) -> bool:
    """Whether the bundled table says what was found."""
    kept = [
        (row["kind"], row["part"], int(row["inside"]), int(row["of"])) for row in rows("evidence_coverage")
    ]
    return kept == [(each.kind, each.part, each.inside, each.of) for each in found]
