"""Liquid of cans: kept back for the dish ("drain the clams, reserving the juice"), or drained off unsaid."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from .clauses import Clause
from .happenings import Happening
from .kept_liquids import keeps
from .left_to_the_cook import grams_roughly
from .listed import ListedLine
from .method_words import phrasing, small_words
from .parts_said import millilitres
from .reading_state import ReadingState
from .tins_emptied import empty_tins

_LIQUIDS = frozenset({"liquid", "liquids", "juice", "juices", "brine", "liquor", "aquafaba", "water"})
_ADDS = frozenset({"put", "mix", "heat", "cook", "simmer", "boil", "other", "let", ""})
_KEPT_ONE = phrasing("kept_can_liquid")
_MAYBE = phrasing("only_maybe")
_LITTLE = small_words("little")
_LITTLE_ML = 30.0
_OF_CAN, _USUAL_CAN_G = 0.35, 400.0
"""Liquid in the weight of a can's contents, and that, g; common practice, no source."""


def return_liquids(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """Leave undrained, whole or in part, cans whose liquid is kept and then stirred in without an "if"."""
    drains = [h for h in state.happened if h.kind == "drain" and not h.rinsed and h.clause.end]
    if not drains:
        return
    for drain in drains:
        cans = [n for n in drain.foods if state.lines[n].is_canned]
        kept = next((c for c in clauses if _keeps_liquid(c, drain)), None) if cans else None
        if kept is None:
            continue
        later = (c for c in clauses if c.place > kept.place)
        used = next((c for c in later if c.act in _ADDS and _adds_kept(c, kept)), None)
        if used is not None:
            _pour_back(state, drain, cans, kept, used)
    state.happened = [h for h in state.happened if h.kind != "drain" or h.foods]


def _keeps_liquid(clause: Clause, drain: Happening) -> bool:
    """Whether a clause keeps what runs off: in the sentence that drains, or the next one of its paragraph."""
    if _LIQUIDS.isdisjoint(clause.words) or not keeps(clause) or clause.method != drain.clause.method:
        return False
    return clause.sentence == drain.clause.sentence or 0 <= clause.start - drain.clause.end <= 3


def _adds_kept(clause: Clause, kept: Clause) -> bool:
    if clause.sentence == kept.sentence or clause.negated or keeps(clause):
        return False
    return _KEPT_ONE.search(clause.text) is not None and _MAYBE.search(clause.sentence) is None


def _pour_back(
    state: ReadingState, drain: Happening, cans: Sequence[int], kept: Clause, used: Clause
) -> None:
    """Take so much of the cans out of what is drained as the liquid that goes back is of theirs."""
    ml = (
        millilitres(used)
        or millilitres(kept)
        or (_LITTLE_ML if used.has(*_LITTLE) or kept.has(*_LITTLE) else None)
    )
    held = sum(_OF_CAN * _can_grams(state.lines[n]) for n in cans)
    back = 1.0 if ml is None else min(ml / held, 1.0)
    for n in cans:
        left = round(drain.foods.pop(n) * (1.0 - back), 4)
        if left > 0.0:
            drain.foods[n] = left


def _can_grams(can: ListedLine) -> float:
    """What the cans of a line hold, g; those of no stated size are of the usual one."""
    amount = can.line.amount
    return grams_roughly(can) or _USUAL_CAN_G * (amount.likely if amount and amount.likely else 1.0)


_OF_LIQUID = phrasing("of_can_liquid")
_EATEN_WHOLE = small_words("can_eaten_whole")


def drain_cans(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """Cans of beans of which neither list nor method says whether they are drained: they are, and a person is
    asked; common practice, no source."""
    empty_tins(state, clauses)
    cans = [n for n in state.index.by_kind.get("legume", ()) if n.is_canned and state.spoken.get(n.index)]
    if not cans or any(_tells_of_liquid(clause, {can.index for can in cans}) for clause in clauses):
        return
    left = {n for each in state.happened if each.kind != "dredge" for n in each.foods}
    for can in cans:
        text = can.text.lower()
        said = any(map(text.__contains__, _SAID_OF_LIQUID)) or not _EATEN_WHOLE.isdisjoint(text.split())
        if not (said or can.index in left):
            clause = replace(clauses[0], start=0, end=0, text=can.text, sentence=can.text)
            drain = Happening("drain", clause, foods={can.index: 1.0}, confidence=0.6, guessed=True)
            drain.drained = drain.closed = True
            state.begin(drain)


def _tells_of_liquid(clause: Clause, cans: set[int]) -> bool:
    """Whether a clause speaks of the liquid of a can, or of cans that are drained."""
    if not _DRAINS.isdisjoint(clause.words) or clause.act in ("drain", "rinse"):
        return clause.negated or any(not cans.isdisjoint(m.lines) or m.kind == "it" for m in clause.mentions)
    return _OF_LIQUID.search(clause.text) is not None


_DRAINS = frozenset({"drain", "drained", "draining", "undrained"})


_SAID_OF_LIQUID = ("drain", "liquid", "juice", "brine", "rins")
