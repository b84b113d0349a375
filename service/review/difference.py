"""What changed between two versions of a recipe: which line moved the sodium of a serving, by how much.

The parts add up to the whole. A line's part is the change of what it lists, at the share eaten before;
what is left is the work of the steps and baths, and of the number of servings.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal

from .overrides import normalised_line
from .tracing import Line, eaten_shares, lines

Document = Mapping[str, Any]
Change = Literal["same", "changed", "moved", "added", "removed"]


Kind = Literal["line", "override", "part", "step", "servings", "recipe", "data", "made_of"]
Place = tuple[int | None, int | None]


@dataclass(frozen=True, slots=True)
class Cause:
    """One cause of a change, mg of sodium a serving (`causes.causes`).

    before, after: what it was and is, in words of the recipe. by: who overruled. pair: of a line, its place
    among the ingredients of both sides.
    """

    kind: Kind
    what: str
    moved_mg: float
    before: str | None = None
    after: str | None = None
    by: str | None = None
    pair: Place | None = None


@dataclass(frozen=True, slots=True)
class LineChange:
    """One line before and after; mg of sodium per serving. `moved_mg` is its own part of the change."""

    change: Change
    component: str
    before: str | None
    after: str | None
    food_before: str | None
    food_after: str | None
    before_mg: float
    after_mg: float
    moved_mg: float


@dataclass(frozen=True, slots=True)
class Difference:
    """The change of sodium per serving, mg, and its parts: lines, steps (and shares eaten), servings.

    `before_mg + sum of lines' moved_mg + steps_moved_mg + servings_moved_mg == after_mg`.
    """

    before_mg: float
    after_mg: float
    lines: tuple[LineChange, ...]
    steps_moved_mg: float
    servings_moved_mg: float
    servings_before: float
    servings_after: float
    steps_changed: tuple[int, ...]
    overrules_moved_mg: float = 0.0
    data_moved_mg: float = 0.0
    recipes_moved_mg: float = 0.0
    other_moved_mg: float = 0.0
    causes: tuple[Cause, ...] = ()

    @property
    def moved_mg(self) -> float:
        return self.after_mg - self.before_mg


@dataclass(frozen=True, slots=True)
class _Side:
    """One version: its lines, mg per serving, and each component's eaten share."""

    answer: Document
    lines: Sequence[Line]
    shares: Mapping[str, float]

    @classmethod
    def of(cls, answer: Document) -> _Side:
        return cls(answer, lines(answer), eaten_shares(answer))

    @property
    def servings(self) -> float:
        return float(self.answer["servings"])

    @property
    def per_serving_mg(self) -> float:
        return float(self.answer["sodium"]["per_serving_mg"]["likely"])


def difference(before: Document, after: Document, steps: tuple[Sequence[Any], Sequence[Any]]) -> Difference:
    """The change from answer `before` to answer `after`; `steps` are those of the two requests."""
    old, new = _Side.of(before), _Side.of(after)
    changes = tuple(_line_change(pair, old, new) for pair in _pairs(old.lines, new.lines))
    eaten_after = sum(line.eaten_mg for line in new.lines)
    by_servings = eaten_after * (1 - new.servings / old.servings)
    by_lines = sum(change.moved_mg for change in changes)
    return Difference(
        before_mg=old.per_serving_mg,
        after_mg=new.per_serving_mg,
        lines=changes,
        steps_moved_mg=new.per_serving_mg - old.per_serving_mg - by_lines - by_servings,
        servings_moved_mg=by_servings,
        servings_before=old.servings,
        servings_after=new.servings,
        steps_changed=tuple(_steps_changed(*steps)),
    )


Pair = tuple[Line | None, Line | None]


def line_pairs(before: Sequence[Line], after: Sequence[Line]) -> list[tuple[int | None, int | None]]:
    """Places of the lines of both sides, matched by the surest likeness first, in the newer list's order."""
    left = dict(enumerate(before))
    partner: dict[int, int] = {}
    for likeness in (_same_line, _same_food, _same_words):
        for i, line in enumerate(after):
            if i in partner:
                continue
            found = _alike(line, left, likeness)
            if found is not None:
                partner[i] = found
                del left[found]
    matched: list[tuple[int | None, int | None]] = [(partner.get(i), i) for i in range(len(after))]
    return matched + [(i, None) for i in left]


def _pairs(before: Sequence[Line], after: Sequence[Line]) -> list[Pair]:
    """The lines of both sides, matched."""
    return [
        (None if i is None else before[i], None if j is None else after[j])
        for i, j in line_pairs(before, after)
    ]


def _alike(line: Line, among: Mapping[int, Line], likeness: Callable[[Line], object]) -> int | None:
    wanted = likeness(line)
    if wanted is None:
        return None
    return next((i for i, each in among.items() if likeness(each) == wanted), None)


def _same_line(line: Line) -> object:
    return line.component, normalised_line(line.line), line.food_code if not line.line else None


def _same_food(line: Line) -> object:
    return (line.component, line.food_code) if line.food_code else None


def _same_words(line: Line) -> object:
    return normalised_line(line.line) or None


def _line_change(pair: Pair, old: _Side, new: _Side) -> LineChange:
    before, after = pair
    newest = after or before
    assert newest is not None
    return LineChange(
        change=_kind(before, after, old, new),
        component=newest.component,
        before=before.line if before else None,
        after=after.line if after else None,
        food_before=before.food_name if before else None,
        food_after=after.food_name if after else None,
        before_mg=before.eaten_mg if before else 0.0,
        after_mg=after.eaten_mg if after else 0.0,
        moved_mg=_moved_mg(before, after, old, new),
    )


def _kind(before: Line | None, after: Line | None, old: _Side, new: _Side) -> Change:
    if before is None or after is None:
        return "added" if before is None else "removed"
    if before.component != after.component:
        return "moved"
    alike = _same_line(before) == _same_line(after) and before.food_code == after.food_code
    lists = before.listed_mg * old.servings, after.listed_mg * new.servings
    return "same" if alike and math.isclose(*lists, rel_tol=1e-5, abs_tol=1e-6) else "changed"


def _moved_mg(before: Line | None, after: Line | None, old: _Side, new: _Side) -> float:
    """What a line's own change did, mg per serving: at the old servings, and at the old share if any."""
    if after is None:
        return -before.eaten_mg if before else 0.0
    listed_now = after.listed_mg * new.servings / old.servings
    share_after = new.shares.get(after.component) or 0.0
    if before is None:
        return listed_now * share_after
    if before.component != after.component:
        return listed_now * share_after - before.eaten_mg
    share = old.shares.get(before.component)
    return (listed_now - before.listed_mg) * (share_after if share is None else share)


def _steps_changed(before: Sequence[Any], after: Sequence[Any]) -> Iterator[int]:
    """Indices, in the newer list where it has them, of steps that are not what they were."""
    for i in range(max(len(before), len(after))):
        if before[i : i + 1] != after[i : i + 1]:
            yield i
