"""Flour that food is turned in, and fat it is fried in: part sticks or soaks in, the rest stays behind."""

from __future__ import annotations

from ..units.kitchen_units import to_grams, to_millilitres
from .clauses import Clause
from .happenings import PROTEINS, SOLIDS, Happening
from .listed import Listed
from .reading_state import Kitchen

_BEHIND = frozenset({"in", "into", "with", "through", "on"})
_SPREADS = frozenset({"butter", "margarine", "shortening", "suet"})
_DEEP_ML = 200.0


def read_coating(kitchen: Kitchen, clause: Clause) -> None:
    """Take a clause that dredges or deep-fries."""
    if clause.act == "heat":
        kitchen.fat_is_hot = any(_is_much(kitchen.lines[n]) for n in kitchen.lines_of(clause, ("oil",)))
    if clause.negated or clause.has("surface", "board", "worktop", "counter", "tin", "tray"):
        return
    if clause.act in ("dredge", "coat", "mix", "put") or clause.base == "press":
        _dredge(kitchen, clause)
    hot_fat = clause.act in ("cook", "simmer", "put") and kitchen.fat_is_hot
    if clause.act == "fry" or (hot_fat and kitchen.solids(clause)):
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
    said = clause.base in ("dredge", "roll", "dip", "coat", "flour", "bread", "press") or clause.has(
        "coat", "shaking", "excess"
    )
    known = kitchen.latest(("dredge",))
    if (
        known is not None
        and (clause.act == "dredge" or clause.base == "press")
        and known.clause.sentence == clause.sentence
    ):
        known.liquid |= {n: 1.0 for n in behind if kitchen.kind(n) in ("egg", "flour")}
        return
    if not said or not (flours or of_mixture):
        return
    foods = {
        n: s
        for n, s in _coated(kitchen, clause).items()
        if kitchen.kind(n) in PROTEINS | {"vegetable", "tofu", "cheese", "potato"}
    }
    if not foods or set(foods) & set(flours):
        return
    if clause.has("batter") and not mixture.closed:
        flours = {
            **flours,
            **{n: s for n, s in mixture.lines.items() if n not in foods and kitchen.kind(n) != "oil"},
        }
    if clause.base == "dip" or clause.has("egg", "eggs"):
        flours = {**flours, **{n: 1.0 for n in behind if kitchen.kind(n) == "egg"}}
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
    oils = [n for n in kitchen.index.lines if n.kind == "oil" and _is_much(n)]
    foods = {n: s for n, s in kitchen.foods(clause).items() if kitchen.kind(n) in SOLIDS}
    if not oils or not foods:
        return
    if kitchen.company and kitchen.company[-1] & set(foods):
        foods |= {n: 1.0 for n in kitchen.company[-1] if kitchen.kind(n) in PROTEINS}
    if (known := kitchen.latest(("fry",))) is not None:
        known.foods.update(foods)
        return
    happening = Happening(
        "fry", clause, foods=foods, liquid={line.index: 1.0 for line in oils[:1]}, closed=True
    )
    happening.take_time(clause)
    kitchen.begin(happening)


def _is_much(listed: Listed) -> bool:
    """Whether a line is a bath of fat: a stated quarter of a litre or more."""
    line = listed.line
    if line.amount is None or line.unit is None or _SPREADS & set(listed.words):
        return False
    try:
        return line.amount.likely * (to_millilitres(line.unit) or to_grams(line.unit) or 0.0) >= _DEEP_ML
    except (KeyError, ValueError):
        return False


def _coated(kitchen: Kitchen, clause: Clause) -> dict[int, float]:
    """What is turned in a coating: the piece, never the egg or the crumbs."""
    direct = {n: s for n, s in kitchen.solids(clause, direct=True).items() if kitchen.kind(n) != "egg"}
    pieces = dict.fromkeys((n for n in kitchen.last_foods if kitchen.kind(n) != "egg"), 1.0)
    return direct or pieces or kitchen.main_foods()
