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


def covered_with_vinegar(state: ReadingState, clause: Clause) -> bool:
    """ "Slice the radishes into a jar. Cover with the vinegar": salt may come to it."""
    if not drowns(state, clause) or state.pending is not None or state.pot is not None:
        return False
    foods = state.solids(clause, direct=True) or dict.fromkeys(state.last_foods, 1.0)
    liquid = {n: s for n, s in state.lines_of(clause, _SHARP).items() if n not in foods}
    if not state.mixture.lines.keys().isdisjoint(liquid):
        return False  # it was stirred with salt before
    if not foods or not _PIECES.issuperset(map(state.kind, (*foods, *state.last_foods))) or state.last_heat:
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
    """Whether vegetables stand in so much vinegar for so long that they are taken out of it: no salad."""
    long = each.hours is not None and each.hours.likely >= _KEEPS_H and each.eaten is None
    return long and _PIECES.issuperset(map(state.kind, each.foods)) and is_drowned(state, each)


_WAITS_H, _KEEPS_H = 0.5, 24.0
