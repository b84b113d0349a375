"""Vegetables that stand in cold vinegar with salt: a salad, unless they are taken out of it again."""

from __future__ import annotations

from .clauses import Clause
from .happenings import SALTING, WET, Happening
from .left_to_the_cook import grams_roughly
from .reading_state import ReadingState

_PIECES = frozenset({"vegetable", "fruit"})
_SHARP = frozenset({"acid", "water", "sweet", "spice", "herb", "aromatic"}) | SALTING


def lie_in_vinegar(state: ReadingState, clause: Clause) -> None:
    """ "Stir vinegar, salt and sugar, add the onion, leave for an hour": it counts if it is drained."""
    mixture, pending = state.mixture, state.pending
    if mixture.heated or (pending is not None and pending.kind != "dry_cure"):
        return
    foods = {n: s for n, s in mixture.lines.items() if state.kind(n) in _PIECES}
    liquid = {n: s for n, s in mixture.lines.items() if n not in foods}
    kinds = set(map(state.kind, liquid))
    if not foods or "acid" not in kinds or not kinds & SALTING or not kinds <= _SHARP:
        return
    state.pending = Happening("marinate", clause, foods=foods, liquid=liquid)


_OVER = frozenset({"cover", "top", "pour", "fill"})


def drowns(state: ReadingState, clause: Clause) -> bool:
    """ "Cover with the vinegar", "top up with the vinegar": what lies there lies in it."""
    over = clause.base in _OVER or (clause.base == "add" and "jar" in state.last_sentence)
    return over and "acid" in map(state.kind, state.lines_of(clause)) and clause.vessel() != "pan"


def _laid_in_vinegar(state: ReadingState, clause: Clause) -> bool:
    """ "Put the onions in the vinegar and salt for 30 minutes", "the eggs in a jar with the vinegar and salt
    for two weeks": one clause names all of it."""
    if not clause.hours or clause.vessel() in ("pot", "pan") or clause.hours[0].likely < _WAITS_H:
        return False
    foods = state.solids(clause, direct=True) or dict.fromkeys(state.last_foods, 1.0)
    inside = {n for m in clause.mentions if m.prep in _INSIDE for n in m.lines}
    eggs = bool(foods) and set(map(state.kind, foods)) == {"egg"}
    if eggs and clause.hours[0].likely >= _KEEPS_H:
        inside |= {n for m in clause.mentions if m.prep == "with" for n in m.lines}
    liquid = {n: s for n, s in state.lines_of(clause).items() if n in inside and n not in foods}
    stirred = {} if state.mixture.closed else state.mixture.shares()
    if liquid and liquid.keys() <= stirred.keys() and foods.keys().isdisjoint(stirred):
        liquid = stirred  # "mix the vinegar and salt. Put the eggs in the vinegar"
    kinds = set(map(state.kind, liquid))
    sharp = "acid" in kinds and not kinds.isdisjoint(SALTING) and kinds <= _SHARP
    if not sharp or not (eggs or (foods and _PIECES.issuperset(map(state.kind, foods)))):
        return False
    state.pending = Happening("marinate", clause, foods=foods, liquid=liquid)
    state.pending.take_time(clause)
    return True


_INSIDE = frozenset({"in", "into", "under"})


def covered_with_vinegar(state: ReadingState, clause: Clause) -> bool:
    """ "Slice the radishes into a jar. Cover with the vinegar": salt may come to it."""
    if state.pending is None and _laid_in_vinegar(state, clause):
        return True
    if not drowns(state, clause) or state.pending is not None or state.pot is not None:
        return False
    foods = state.solids(clause, direct=True) or dict.fromkeys(state.last_foods, 1.0)
    liquid = {n: s for n, s in state.lines_of(clause, _SHARP).items() if n not in foods}
    if not state.mixture.lines.keys().isdisjoint(liquid):
        return False  # it was stirred with salt before
    kinds = set(map(state.kind, foods))
    eggs = kinds == {"egg"} and not SALTING.isdisjoint(map(state.kind, liquid))
    if not (eggs or (kinds and kinds.union(map(state.kind, state.last_foods)) <= _PIECES)):
        return False
    if state.last_heat and not eggs:
        return False
    state.pending = Happening("marinate", clause, foods=foods, liquid=liquid)
    return True


def is_drowned(state: ReadingState, each: Happening) -> bool:
    """Whether vegetables stand in more vinegar than they are dressed with."""
    if each.hours is None or each.hours.likely < _WAITS_H or "oil" in map(state.kind, each.liquid):
        return False
    wet = sum(grams_roughly(state.lines[n]) or 0.0 for n in each.liquid if state.kind(n) in WET)
    return wet > _DRESSED * sum(grams_roughly(state.lines[n]) or 0.0 for n in each.foods)


_DRESSED = 0.25
"""Vinegar in weights of the vegetables, up to which it is eaten with them; common practice, no source."""


def is_kept(state: ReadingState, each: Happening) -> bool:
    """Whether vegetables, eggs or fish stand in so much vinegar for so long that they are taken out of it: no
    salad, and no marinade that is cooked with them."""
    if each.hours is None or each.hours.likely < _KEEPS_H or each.eaten is not None:
        return False
    kinds = set(map(state.kind, each.foods))
    fish = kinds == {"fish"} and _SHARP.issuperset(map(state.kind, each.liquid))
    return (fish or kinds == {"egg"} or kinds <= _PIECES) and is_drowned(state, each)


_WAITS_H, _KEEPS_H = 0.5, 24.0
