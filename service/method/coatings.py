"""Flour that food is turned in, and fat it is fried in: part sticks or soaks in, the rest stays behind."""

from __future__ import annotations

from .clauses import Clause
from .happenings import PROTEINS, SOLIDS, Happening
from .kitchen import Kitchen

_BEHIND = frozenset({"in", "into", "with", "through", "on"})
_DEEP_ML = 240.0


def read_coating(kitchen: Kitchen, clause: Clause) -> None:
    """Take a clause that dredges or deep-fries."""
    if clause.negated:
        return
    if clause.act in ("dredge", "coat", "mix", "put"):
        _dredge(kitchen, clause)
    if clause.act == "fry":
        _fry(kitchen, clause)


def _dredge(kitchen: Kitchen, clause: Clause) -> None:
    flours = {l: s for l, s in kitchen.lines_of(clause, ("flour",)).items()}
    behind = {l for m in clause.mentions if m.prep in _BEHIND for l in m.lines}
    flours = {l: s for l, s in flours.items() if l in behind or clause.base == "flour"}
    mixture = kitchen.mixture
    of_mixture = not mixture.closed and any(kitchen.kind(l) == "flour" for l in mixture.lines) and any(
        m.kind == "bath" and m.name == "other" and m.prep in _BEHIND for m in clause.mentions
    )
    said = clause.base in ("dredge", "roll", "dip", "coat", "flour", "bread", "toss", "press") or clause.has("coat", "shaking", "excess")
    if not said or not (flours or of_mixture):
        return
    foods = {l: s for l, s in kitchen.foods(clause).items() if kitchen.kind(l) in PROTEINS | {"vegetable", "tofu", "cheese", "potato"}}
    if not foods or set(foods) & set(flours):
        return
    known = kitchen.latest(("dredge",), foods)
    if not mixture.closed and (of_mixture or set(flours) & set(mixture.lines)):
        flours = {**flours, **{l: s for l, s in mixture.lines.items() if kitchen.kind(l) in ("flour", "salt", "spice", "herb")}}
    flours.update(
        {l: 1.0 for l in kitchen.index.of_kinds("flour") if l in flours}
    )
    if known is not None:
        known.liquid.update(flours)
        return
    kitchen.begin(Happening("dredge", clause, foods=foods, liquid=flours, closed=True, confidence=0.85))


def _fry(kitchen: Kitchen, clause: Clause) -> None:
    oils = [l for l in kitchen.index.lines if l.kind == "oil" and _is_much(l.line)]
    if not oils or kitchen.latest(("fry",)):
        return
    foods = kitchen.foods(clause)
    foods = {l: s for l, s in foods.items() if kitchen.kind(l) in SOLIDS}
    if not foods:
        return
    happening = Happening("fry", clause, foods=foods, liquid={line.index: 1.0 for line in oils[:1]}, closed=True)
    happening.take_time(clause)
    kitchen.begin(happening)


def _is_much(line: object) -> bool:
    """Whether a line is a bath of fat: a stated quarter of a litre or more."""
    from ..lines.line import Line
    from ..units.kitchen import to_millilitres

    assert isinstance(line, Line)
    if line.amount is None or line.unit is None:
        return False
    try:
        return line.amount.likely * (to_millilitres(line.unit) or 0.0) >= _DEEP_ML
    except (KeyError, ValueError):
        return False
