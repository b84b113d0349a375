"""Food that goes into a pot some time after the first: "after 15 minutes add the sausages and cook 5 minutes
more". Drained with the rest it boiled as long as it lay there."""

from __future__ import annotations

from .clauses import Clause
from .happenings import SOLIDS, Happening
from .reading_state import ReadingState

_PASSED = frozenset({"after", "later"})
_SHORTER = 0.8
"""Of the time of what lay there first, below which another has a time of its own."""


def note_turn(pot: Happening, clause: Clause, foods: dict[int, float]) -> None:
    """Take food that comes into a pot where the clause tells what time passed before."""
    if _PASSED.isdisjoint(clause.words):
        return
    pot.take_time(clause, more=bool(pot.turns) or "another" in clause.words)
    for earlier in pot.turns:
        earlier.take_time(clause, more=True)
    pot.turns += (Happening(pot.kind, clause, foods=dict(foods), heated=True, same_as=pot.same_as or pot),)


def goes_on_together(state: ReadingState, pot: Happening, clause: Clause) -> bool:
    """Whether the time of a clause is that of all that lies in a pot by now, which got more food before."""
    if not pot.turns or not state.taken_out.isdisjoint(pot.foods):
        return False
    for late in pot.turns:
        late.take_time(clause, more=True)
    return True


def _drained_in_turn(state: ReadingState, pot: Happening) -> None:
    """Part what boiled in a pot for a time of its own from what was there first, once all is drained."""
    if pot.turns[-1].hours is None:
        pot.hours = None  # what passed before is not all of it
    for late in reversed(pot.turns) if any(each is pot for each in state.happened) else ():
        foods = {n: s for n, s in late.foods.items() if n in pot.extra and n not in state.thrown_out}
        late.foods = {n: s for n, s in foods.items() if state.kind(n) in SOLIDS}
        hours, whole = late.hours, pot.hours
        if late.foods and hours and whole and hours.likely < _SHORTER * whole.likely:
            pot.extra = pot.extra - late.foods.keys()
            state.happened.insert(state.happened.index(pot) + 1, late)
    pot.turns = ()


_IN_COLANDERS = frozenset({"potato", "vegetable", "legume", "pasta"})
_PEELS = frozenset({"zest", "rind", "peel", "ginger", "galangal"})


def drained_with(state: ReadingState, pot: Happening) -> None:
    """What came into a pot later was drained with the rest; garlic stays in the colander with it."""
    if pot.turns:
        _drained_in_turn(state, pot)
    for line in pot.extra:
        (pot.foods if state.kind(line) in SOLIDS else pot.liquid).setdefault(line, 1.0)
    if pot.lifted or not set(map(state.kind, pot.foods)) <= _IN_COLANDERS:
        return
    for line in [n for n in pot.liquid if state.kind(n) == "aromatic" and n not in state.thrown_out]:
        if _PEELS.isdisjoint(state.lines[line].words):
            pot.foods[line] = pot.liquid.pop(line)
