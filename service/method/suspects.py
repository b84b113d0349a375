"""Sentences that speak of what is drained, rinsed or thrown away, and that changed nothing when read."""

from __future__ import annotations

from typing import Any

from .clauses import Clause
from .happenings import PROTEINS, SALTING, LeftOver
from .left_over import ASIDE
from .method_words import small_words
from .reading_state import COLD, HOT, MOST_HAPPENINGS, ReadingState
from .stakes import is_salty, is_worth_asking, lines_mg

_LEAVES = frozenset({"discard", "drain", "rinse"})
_LEFT = frozenset({"leftover", "left-over", "surplus", "reserved", "wiped", "scraped"})
_PARTS = small_words("partial")
"""What goes without its salt, or is no food."""
_SIEVES = frozenset({"skim", "strain", "sieve", "wash"})
"""What takes lumps, foam and earth away, and no salt."""
_WRINGS = frozenset({"squeeze", "wring", "press"})
_MOIST = frozenset({"moisture", "liquid", "water", "juice", "juices"})
_SALTED = SALTING | {"savoury", "stock", "salty"}
_MOVED = 0.5


def is_suspect(clause: Clause) -> bool:
    """Whether a sentence speaks of something that leaves the dish."""
    if clause.act in _LEAVES or not _LEFT.isdisjoint(clause.words):
        leaves = clause.base not in _SIEVES
    else:
        wrung = clause.base in _WRINGS
        leaves = wrung and (not _MOIST.isdisjoint(clause.words) or clause.text.endswith(" out"))
    if not leaves or clause.negated or not _PARTS.isdisjoint(clause.words):
        return False
    past = clause.verb is not None and clause.verb.form == "past"
    return not (past and len(clause.tokens) > 1 and clause.tokens[1].text == ")")  # "the ricotta (drained)"


def mark(state: ReadingState) -> tuple[Any, ...]:
    """What a sentence may change by what it says of liquids, coatings and left-overs."""
    happened = tuple((h.kind, h.eaten, h.drained, h.rinsed, h.kept_ml, len(h.liquid)) for h in state.happened)
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
    if not lines and clause.act in ("drain", "rinse"):
        lines = set(state.last_foods)
    elif not lines:
        lines = set(state.mixture.lines) or (state.company[-1] if state.company else set())
    _reserved(state, clause)
    if any(m.kind in ("bath", "water") for m in clause.mentions):  # "throw the liquor away"
        cured = (n for n, line in state.lines.items() if line.kind in PROTEINS and is_salty(line))
        lines |= set(cured)
    # "throw out whatever flour is left", "squeeze the water out of them": with the salt that is in it
    if clause.act not in ("drain", "rinse") or not state.latest((*HOT, *COLD), lines):
        lines = lines.union(*(company for company in state.company if company & lines))
    lines = {n for n in lines if state.kind(n) in _SALTED or is_salty(state.lines[n])}
    if (
        lines
        and len(state.left_over) < MOST_HAPPENINGS
        and is_worth_asking(state, _MOVED * lines_mg(state, lines))
    ):
        state.left_over.append(LeftOver(clause, tuple(sorted(lines)), ASIDE))
