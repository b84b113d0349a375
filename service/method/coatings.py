"""Flour that food is turned in, and fat it is fried in: part sticks or soaks in, the rest stays behind."""

from __future__ import annotations

from ..lines.line import Line
from ..units.kitchen import to_millilitres
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
    flours = kitchen.lines_of(clause, ("flour",))
    behind = {n for m in clause.mentions if m.prep in _BEHIND for n in m.lines}
    flours = {n: s for n, s in flours.items() if n in behind or clause.base == "flour"}
    mixture = kitchen.mixture
    of_mixture = (
        not mixture.closed
        and any(kitchen.kind(n) == "flour" for n in mixture.lines)
        and any(m.kind == "bath" and m.name == "other" and m.prep in _BEHIND for m in clause.mentions)
    )
    said = clause.base in ("dredge", "roll", "dip", "coat", "flour", "bread", "toss", "press") or clause.has(
        "coat", "shaking", "excess"
    )
    if not said or not (flours or of_mixture):
        return
    foods = {
        n: s
        for n, s in kitchen.foods(clause).items()
        if kitchen.kind(n) in PROTEINS | {"vegetable", "tofu", "cheese", "potato"}
    }
    if not foods or set(foods) & set(flours):
        return
    known = kitchen.latest(("dredge",), foods)
    if not mixture.closed and (of_mixture or set(flours) & set(mixture.lines)):
        flours = {
            **flours,
            **{
                n: s
                for n, s in mixture.lines.items()
                if kitchen.kind(n) in ("flour", "salt", "spice", "herb")
            },
        }
    flours.update({n: 1.0 for n in kitchen.index.of_kinds("flour") if n in flours})
    if known is not None:
        known.liquid.update(flours)
        return
    kitchen.begin(Happening("dredge", clause, foods=foods, liquid=flours, closed=True, confidence=0.85))


def _fry(kitchen: Kitchen, clause: Clause) -> None:
    oils = [n for n in kitchen.index.lines if n.kind == "oil" and _is_much(n.line)]
    if not oils or kitchen.latest(("fry",)):
        return
    foods = kitchen.foods(clause)
    foods = {n: s for n, s in foods.items() if kitchen.kind(n) in SOLIDS}
    if not foods:
        return
    happening = Happening(
        "fry", clause, foods=foods, liquid={line.index: 1.0 for line in oils[:1]}, closed=True
    )
    happening.take_time(clause)
    kitchen.begin(happening)


def _is_much(line: Line) -> bool:
    """Whether a line is a bath of fat: a stated quarter of a litre or more."""
    if line.amount is None or line.unit is None:
        return False
    try:
        return line.amount.likely * (to_millilitres(line.unit) or 0.0) >= _DEEP_ML
    except (KeyError, ValueError):
        return False
