"""Beer, wine or milk that food simmered in and that is poured away, where no clause opened a pot of it."""

from __future__ import annotations

from collections.abc import Sequence

from .clauses import Clause
from .happenings import SOLIDS, Happening
from .reading_state import ReadingState

_DRINKS = ("wine", "milk", "stock")
_HEATS = frozenset({"boil", "simmer", "cook", "heat"})
_AROMATIC = "aromatic"  # garlic that is simmered in milk is all there is


def thrown_drinks(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """ "Put the sausages in a pan with the beer. Simmer 15 minutes … pour the beer away": a pot of beer."""
    for clause in clauses:
        thrown = clause.act == "discard" and not clause.negated
        thrown = thrown or (clause.base == "use" and clause.negated)  # "the cider is not used"
        if not thrown or "line" not in clause.speaks:
            continue
        held = {n for each in state.happened for n in each.liquid}
        drinks = {n: s for n, s in state.lines_of(clause, _DRINKS).items() if n not in held}
        if drinks and (pot := _simmered_in(state, drinks, clauses, clause)) is not None:
            state.happened.append(pot)


def _simmered_in(
    state: ReadingState, drinks: dict[int, float], clauses: Sequence[Clause], thrown: Clause
) -> Happening | None:
    """The pot of what was put together with a drink or cooked in it; None where nothing was heated since."""
    before = [c for c in clauses if c.place < thrown.place]
    said = next((i for i, c in enumerate(before) if not drinks.keys().isdisjoint(state.lines_of(c))), None)
    since = before[said:] if said is not None else []
    heats = [c for c in since if c.act in _HEATS]
    if not heats:
        return None
    together = set(state.lines_of(since[0])).union(*(c for c in state.company if c & drinks.keys()))
    foods = {n: 1.0 for n in sorted(together) if state.kind(n) in SOLIDS}
    foods = foods or {n: 1.0 for n in sorted(together) if state.kind(n) == _AROMATIC}
    if not foods:
        return None
    pot = Happening("simmer", heats[0], foods=foods, liquid=drinks, heated=True, eaten=0.0)
    if timed := next((c for c in since if c.hours), None):
        pot.take_time(timed)
    pot.drained = pot.closed = True
    return pot
