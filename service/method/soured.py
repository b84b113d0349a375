"""Vegetables that one clause lays in salt or brine and leaves to sour: "ferment the carrots in the brine"."""

from __future__ import annotations

from .bath_kinds import kind_of_bath
from .clauses import Clause
from .happenings import DRY, SALTING, Happening, with_salt
from .reading_state import COLD, ReadingState
from .unnamed_baths import bath_meant, unspoken_salt
from .waters import water_alone

SOURED = frozenset({"vegetable", "potato", "fruit", "salty"})
_INSIDE = frozenset({"in", "with", "under", "into"})
_IN_JARS = DRY - {"flour"} | {"water", "acid", "vegetable", "fruit"}


def laid_to_sour(state: ReadingState, clause: Clause) -> Happening | None:
    """ "Ferment the carrots in the brine for 10 days", "the cabbage with the salt": food and what it lies in,
    where a clause names both and it lay in nothing before."""
    foods = {n: s for n, s in state.solids(clause, direct=True).items() if state.kind(n) in SOURED}
    if not foods or state.latest((*COLD, "ferment"), foods) is not None:
        return None
    bath = next((m for m in clause.mentions if m.prep in _INSIDE and m.kind in ("bath", "it")), None)
    if bath is not None:
        mixture = bath_meant(state, bath.name) if bath.kind == "bath" else state.mixture
        liquid = {n: s for n, s in mixture.shares().items() if n not in foods}
        each = Happening("brine", clause, foods=foods, liquid=liquid, water=mixture.water, named=True)
        with_salt(each, mixture)
        mixture.closed = True
    else:
        behind = {n for m in clause.mentions if m.prep in _INSIDE for n in m.lines}
        said = state.lines_of(clause, _IN_JARS)
        liquid = {n: s for n, s in said.items() if n in behind and n not in foods}
        each = Happening("brine", clause, foods=foods, liquid=liquid)
        each.water = water_alone(state, clause)
        if each.water is not None and each.water.strength and not (liquid or each.water.salt):
            each.liquid = unspoken_salt(state)
    kinds = set(map(state.kind, each.liquid))
    if kinds.isdisjoint(SALTING) and not (each.water is not None and each.water.is_salted):
        return None
    each.kind = kind_of_bath("brine" if each.water is not None else "", kinds, watery=each.water is not None)
    state.begin(each)
    return each
