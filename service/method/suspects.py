"""Sentences that speak of what is drained, rinsed or thrown away, and that changed nothing when read."""

from __future__ import annotations

from typing import Any

from .clause_cuts import WRUNG_OUT
from .clauses import Clause
from .happenings import PROTEINS, SALTING, LeftOver
from .left_over import ASIDE
from .method_words import small_words
from .reading_state import COLD, HOT, MOST_HAPPENINGS, ReadingState
from .salt_on_food import JUICE
from .stakes import is_salty, is_worth_asking, lines_mg

_LEAVES = frozenset({"discard", "drain", "rinse"})
_LEFT = frozenset({"leftover", "left-over", "surplus", "reserved", "wiped", "scraped"})
_OF_POTS = frozenset({"cooking", "pasta", "starchy"})
_PARTS = small_words("partial")
"""What goes without its salt, or is no food."""
_SIEVES = frozenset({"skim", "sieve", "strain"})
"""What takes lumps and foam away, and no salt."""
_WASHES = frozenset({"wash", "soak", "steep", "desalt", "freshen"})
"""What takes salt out of nothing but food that was salted before."""
_THROWS = frozenset({"throw", "pour", "tip", "dump", "chuck", "empty", "fling", "toss", "change"})
_MAY_LEAVE = WRUNG_OUT | _THROWS
_SQUEEZED = frozenset({"line", "it", "bath"})
_WRUNG = frozenset({"vegetable", "potato", "salty", "tofu", "cheese", "salt"})
_STAYS = frozenset({"in", "into", "over", "on", "onto", "to", "with"})
_DRESSES = frozenset({"oil", "savoury", "milk"})
_SALTED = SALTING | {"savoury", "stock", "salty"}
_BOUGHT = PROTEINS | {"salty", "cheese", "vegetable", "other", "herb"}
"""Kinds of food that may be bought in salt or brine."""
_NEAR = 8
"""Clauses before one that wrings food out, in which it may have been salted."""
_MOVED = 0.5


def is_suspect(clause: Clause) -> bool:
    """Whether a sentence speaks of something that leaves the dish."""
    leaves = clause.act in _LEAVES or clause.base in _WASHES or not _LEFT.isdisjoint(clause.words)
    if not leaves and clause.base not in _MAY_LEAVE:
        return False
    if not (leaves or _is_wrung(clause) or _pours_water(clause)) or clause.negated:
        return False
    if not _OF_POTS.isdisjoint(clause.words) and clause.act in ("put", "mix"):
        return False  # "add more of the reserved cooking liquid"
    if clause.base in _SIEVES or not _PARTS.isdisjoint(clause.words):
        return False
    past = clause.verb is not None and clause.verb.form == "past"
    return not (past and len(clause.tokens) > 1 and clause.tokens[1].text == ")")  # "the ricotta (drained)"


def _is_wrung(clause: Clause) -> bool:
    """ "Squeeze out the water", "wring them in a cloth", "squeeze the cucumber"."""
    if clause.base not in WRUNG_OUT:
        return False
    said = not JUICE.isdisjoint(clause.words) or clause.text.endswith(" out") or clause.base == "wring"
    return said or (clause.base == "squeeze" and clause.speaks <= _SQUEEZED)


def _pours_water(clause: Clause) -> bool:
    """ "Then I throw the water"."""
    return clause.base in _THROWS and clause.has("water", "waters") and _STAYS.isdisjoint(clause.words)


def mark(state: ReadingState) -> tuple[Any, ...]:
    """What a sentence may change by what it says of liquids, coatings and left-overs."""
    happened = [(h.kind, h.eaten, h.drained, h.rinsed, h.kept_ml, len(h.liquid)) for h in state.happened]
    kept = (len(state.thrown_out), state.mixture.taken, len(state.taken_out))
    return (*happened, id(state.pending), id(state.pot), *kept)


def _reserved(state: ReadingState, clause: Clause) -> None:
    """ "Boil the reserved half": a marinade that was taken to be poured away may not all be."""
    bath = state.latest(("marinate",))
    if (
        clause.has("reserved", "saved", "kept")
        and bath is not None
        and bath.eaten == 0.0
        and not bath.on_food
    ):
        if all(share == 1.0 for share in bath.liquid.values()):
            bath.guessed = True


def suspect(state: ReadingState, clause: Clause) -> None:
    """Note a sentence that changed nothing, if much sodium lies in what it may speak of."""
    lines = set(state.lines_of(clause))
    if clause.act in ("drain", "rinse"):  # not "tip onto the pesto"
        lines &= {n for m in clause.mentions if m.prep in ("", "from", "of") for n in m.lines}
    if not lines and (clause.act in ("drain", "rinse") or _is_wrung(clause) or clause.base in _WASHES):
        lines = set(state.last_foods)
    elif not lines:
        lines = set(state.mixture.lines) or (state.company[-1] if state.company else set())
        lines = lines | set(state.last_foods) if clause.has("juice", "juices") else lines
    if clause.act == "discard" and "it" in clause.speaks:  # "pour it off", of the milk that herrings lie in
        lines |= {n for n in state.last_foods if is_salty(state.lines[n])}
    _reserved(state, clause)
    if clause.base in WRUNG_OUT and not set(map(state.kind, lines)) & _WRUNG:
        return  # "squeeze the lemon"
    away = clause.act in _LEAVES or clause.base in (*_WASHES, *_THROWS)
    if away and any(m.kind in ("bath", "water") for m in clause.mentions):  # "throw the liquor away"
        lines |= {n for n, line in state.lines.items() if line.kind in _BOUGHT and is_salty(line)}
    salty = {n for n in lines if state.kind(n) in _BOUGHT and is_salty(state.lines[n])}
    oily = clause.act == "drain" and clause.words.isdisjoint(JUICE | {"brine", "salt"})
    if salty and not oily and is_worth_asking(state, _MOVED * lines_mg(state, salty)):
        state.washed.append((clause, tuple(sorted(salty))))
    if clause.base in _WASHES:
        return
    # "throw out whatever flour is left", "squeeze the water out of them": with the salt that is in it
    if clause.act not in ("drain", "rinse") or not state.latest((*HOT, *COLD), lines):
        near = [company for company in state.company if company & lines]
        if clause.act in ("drain", "rinse"):  # not of a dressing
            near = [c for c in near if _DRESSES.isdisjoint(state.kind(n) for n in c)]
        lines = lines.union(*near) | _salted_near(state, clause, lines)
    used = {n for h in state.happened for n in h.liquid}
    lines = {n for n in lines - salty - used if state.kind(n) in _SALTED}
    if any(set(left.lines) == lines for left in state.left_over):
        return
    if len(state.left_over) < MOST_HAPPENINGS and is_worth_asking(state, _MOVED * lines_mg(state, lines)):
        state.left_over.append(LeftOver(clause, tuple(sorted(lines)), ASIDE))


def _salted_near(state: ReadingState, clause: Clause, lines: set[int]) -> set[int]:
    """Salt that was spoken of shortly before vegetables are wrung out."""
    if not _is_wrung(clause) or set(map(state.kind, lines)) & SALTING:
        return set()
    return {n for n in state.index.of_kinds("salt") if state.last_spoken.get(n, -_NEAR) > state.turn - _NEAR}
