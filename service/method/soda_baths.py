"""Soda that is no leaven: the bath that pretzels are dipped in, and what is rubbed into meat."""

from __future__ import annotations

from .clauses import Clause
from .happenings import PROTEINS, Happening, Water
from .leavens import is_soda
from .reading_state import COLD, HOT, ReadingState

_DIPS = frozenset({"dip", "dunk", "immerse", "lower", "submerge", "drop", "slide", "bathe"})
_LAYS = frozenset({"place", "lay", "put", "set", "soak", "boil", "poach", "simmer"})
_BATH = frozenset({"bath", "solution", "soda", "water"})
_DOUGHS = frozenset({"dough", "piece", "pieces", "rope", "ropes", "ring", "rings"})


def dipped_in_soda(state: ReadingState, clause: Clause) -> bool:
    """ "Dip each pretzel into the baking soda solution", "boil the pretzels" once a pot of it is hot: dough
    that lies in what was stirred of soda."""
    told = "made" in clause.speaks or (clause.base in _DIPS and bool(clause.hours))
    waits = told and state.pot is not None and _is_of_soda(state, state.pot)
    if clause.base not in _DIPS and clause.base not in _LAYS and not waits:
        return False
    if clause.negated or (_BATH.isdisjoint(clause.words) and not waits):
        return False
    sodas = {n for n in state.spoken if state.kind(n) == "flour" and is_soda(state.lines[n])}
    sodas = {n for n in sodas if not _is_in_dough(state, n)}
    named = bool(state.lines_of(clause).keys() & sodas)
    dough = "made" in clause.speaks or not _DOUGHS.isdisjoint(clause.words) or "it" in clause.speaks
    if not sodas or not (dough or waits) or not (named or waits or clause.base in _DIPS):
        return False
    if any(h.kind in (*HOT, *COLD) and h.liquid.keys() & sodas for h in state.happened):
        return False
    headings = {state.lines[n].heading for n in sodas} - {""}
    beside = {n for n in state.waters if state.lines[n].heading in headings}
    beside = beside or {n for company in state.company if company & sodas for n in company & state.waters}
    foods = {n: 1.0 for n in state.spoken if n not in sodas and state.kind(n) != "water"}
    hot = state.pot is not None or clause.has("simmering", "boiling", "hot")
    bath = Happening("boil" if hot else "soak", clause, foods=foods)
    bath.liquid = dict.fromkeys(sodas | beside, 1.0)
    its_water = state.pot.water if waits and state.pot is not None else None
    bath.water = None if beside else its_water or Water()
    bath.heated, bath.drained, bath.closed, bath.named = hot, True, True, True
    state.begin(bath, clause)
    state.pot = None
    return True


def soda_on_meat(state: ReadingState, clause: Clause) -> dict[int, float]:
    """ "Rub the bicarbonate into the sliced beef", "toss the chicken with the soda": it lies there as salt
    does, where no flour is by."""
    if clause.act not in _STREWS or "line" not in clause.speaks or state.water_of(clause) is not None:
        return {}
    sodas = {n: s for n, s in state.lines_of(clause, ("flour",)).items() if is_soda(state.lines[n])}
    if not sodas or len(sodas) < len(state.lines_of(clause, ("flour",))):
        return {}
    foods = state.solids(clause, direct=True) or state.solids(clause) or state.last_foods
    return sodas if set(map(state.kind, foods)) & PROTEINS else {}


_STREWS = frozenset({"coat", "mix", "put", "season"})


def _is_of_soda(state: ReadingState, pot: Happening) -> bool:
    """Whether a pot of water with soda waits for its first food."""
    return not (pot.foods or pot.closed) and any(is_soda(state.lines[n]) for n in pot.liquid)


def _is_in_dough(state: ReadingState, soda: int) -> bool:
    """Whether soda was stirred in with the flour."""
    doughs = {n for n in state.index.of_kinds("flour") if not is_soda(state.lines[n])}
    return any(soda in company and company & doughs for company in state.company)
