"""Vegetables that cook in some water in their pan and are drained: a pot, once somebody drains it."""

from __future__ import annotations

from .clauses import Clause
from .happenings import POURED_WITHOUT_WORD, Happening
from .poached import flavours_liquor
from .reading_state import ReadingState
from .strained import STRAINS
from .waters import salts_of, water_for

_ADDS = frozenset({"add", "pour"})
_COOKS = frozenset({"cook", "simmer", "boil", "steam", "cover", "hold", "let"})


def water_added(state: ReadingState, clause: Clause) -> None:
    """ "Put the beans in a pan and add a cup of water": noted, in case that they are drained."""
    noted = state.watered
    if noted is not None:
        if clause.act in _COOKS:
            noted.take_time(clause, more=clause.has("another", "more", "further"))
        elif clause.act == "put" and noted.clause.method == clause.method:
            noted.liquid |= salts_of(state, clause)
    if clause.base not in _ADDS or clause.negated or state.pot is not None:
        return
    water = state.water_of(clause)
    if water is None or water.prep or clause.has("ice", "iced"):
        return
    foods = dict.fromkeys(state.last_foods, 1.0) | state.solids(clause, direct=True)
    if not foods or not set(map(state.kind, foods)) <= POURED_WITHOUT_WORD:
        return
    if any(foods.keys() & company and not _alone(state, company) for company in state.company):
        return
    pot = Happening("boil", clause, foods=foods, liquid=state.lines_of(clause, ("water", "salt")))
    pot.water = water_for(state, clause)
    state.watered = pot


def drained_of_it(state: ReadingState, clause: Clause) -> bool:
    """ "Drain", "discard the water": of the water that was added to the vegetables."""
    pot = state.watered
    if clause.act != "drain" and not (clause.act == "discard" and state.water_of(clause) is not None):
        return False
    named = state.solids(clause, direct=True)
    if pot is None or state.pot is not None or (named and not named.keys() & pot.foods.keys()):
        return False
    if clause.base in STRAINS and flavours_liquor(state, pot):
        return False
    pot.heated = pot.drained = pot.closed = True
    state.watered = None
    state.begin(pot)
    return True


def _alone(state: ReadingState, company: set[int]) -> bool:
    """Whether vegetables stand with nothing but water and salt, and are no stew."""
    return set(map(state.kind, company)) <= POURED_WITHOUT_WORD | {"water", "salt"}
