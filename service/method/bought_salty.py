"""Food that was bought in liquid or salt: cans are drained, cured meat is rinsed."""

from __future__ import annotations

from .clauses import Clause
from .happenings import PROTEINS, Happening
from .reading_state import ReadingState

_CURED = frozenset({"corned", "salt", "salted", "cured", "brined", "gammon", "pickled"})


def of_a_can(state: ReadingState, clause: Clause) -> bool:
    """ "Drain and rinse the beans": canned ones leave their liquid."""
    if clause.act not in ("drain", "rinse"):
        return False
    named = {n: s for n, s in state.lines_of(clause).items() if state.lines[n].is_canned}
    unsaid = not state.lines_of(clause)
    lines = named or state.solids(clause) or (dict.fromkeys(state.last_foods, 1.0) if unsaid else {})
    canned = {n: s for n, s in lines.items() if state.lines[n].is_canned}
    salty = {n: s for n, s in lines.items() if state.kind(n) == "salty" or _lies_in_brine(state, n)}
    found = canned or salty
    if not found:
        return False
    known = state.latest(("drain",), found)
    if known is not None:
        known.rinsed = known.rinsed or clause.act == "rinse"
        return True
    can = Happening(
        "drain", clause, foods=found, rinsed=clause.act == "rinse" or clause.has("rinse", "rinsed")
    )
    can.drained = can.closed = True
    state.begin(can)
    return True


_SOURED = frozenset({"sauerkraut", "kraut", "kimchi", "gherkin", "pickled", "fermented"})


def _lies_in_brine(state: ReadingState, line: int) -> bool:
    """Whether cheese or vegetables are of those that are sold in brine."""
    if state.kind(line) == "vegetable":
        return not _SOURED.isdisjoint(state.lines[line].words)
    return state.kind(line) == "cheese" and "in brine" in state.lines[line].text.lower()


def of_cured_meat(state: ReadingState, clause: Clause) -> None:
    """ "Rinse the silverside": meat or fish that was bought in brine or salt loses what lies on it."""
    foods = {
        n: s
        for n, s in state.solids(clause).items()
        if state.kind(n) in PROTEINS and _CURED & set(state.lines[n].words)
    }
    if clause.act == "rinse" and foods and state.latest(("rinse",), foods) is None:
        each = Happening("rinse", clause, foods=foods, drained=True, closed=True)
        each.take_time(clause)
        state.begin(each)
