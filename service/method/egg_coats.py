"""Food that is fried in a coat of beaten egg and nothing else: what does not cling stays in the plate."""

from __future__ import annotations

from collections.abc import Sequence

from .clauses import Clause
from .coatings import COATED, TURNS
from .happenings import Happening
from .reading_state import ReadingState

_COATED = COATED | {"bread"}
_TURNS = TURNS | {"soak", "bathe", "lay"}
_BEHIND = frozenset({"in", "into", "through", "with"})


def coat_in_egg(state: ReadingState, clauses: Sequence[Clause]) -> list[Happening]:
    """ "Soak the bread in milk, dip it in the eggs and deep-fry it": the eggs are a coat, as crumbs are."""
    eggs = frozenset(state.index.of_kinds("egg"))
    if not eggs:
        return []
    for i, fry in enumerate(state.happened):
        foods = {n: s for n, s in fry.foods.items() if state.kind(n) in _COATED}
        if fry.kind != "fry" or not foods or (dips := _dips(clauses, fry.clause, eggs)) is None:
            continue
        dipped = {n: 1.0 for m in dips.mentions for n in m.lines if n in eggs}
        fry.foods = {n: s for n, s in fry.foods.items() if n not in dipped}
        coat = Happening("dredge", dips, foods=foods, liquid=dipped, closed=True, confidence=0.8)
        state.happened.insert(i, coat)
        return [coat]
    return []


def _dips(clauses: Sequence[Clause], fried: Clause, eggs: frozenset[int]) -> Clause | None:
    """The last clause before the frying in which food goes into the egg."""
    at = fried.place
    found = (
        c
        for c in reversed(clauses)
        if c.base in _TURNS
        and c.place <= at
        and any(not eggs.isdisjoint(m.lines) for i, m in enumerate(c.mentions) if i or m.prep in _BEHIND)
    )
    return next(found, None)
