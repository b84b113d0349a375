"""Batters: what is stirred of flour and a liquid, and the food that is turned in it."""

from __future__ import annotations

from .clauses import Clause
from .coatings import COATED, FOR_COATING, coated
from .happenings import PROTEINS, Happening
from .leavens import is_leaven
from .reading_state import ReadingState

_STIRRED = frozenset(
    {"flour", "salt", "spice", "herb", "milk", "wine", "water", "egg", "stock", "sweet", "acid", "savoury"}
)
"""Kinds of lines that a batter is made of."""
_LIQUID = frozenset({"milk", "wine", "water", "egg", "stock"})
_GOES_IN = frozenset(
    {
        "put",
        "place",
        "transfer",
        "lower",
        "lay",
        "submerge",
        "immerse",
        "pass",
        "draw",
        "pull",
        "drag",
        "turn",
    }
    | {"dip", "dunk", "swirl", "coat", "cover", "dredge", "roll", "drop", "run", "slide", "bathe", "tip"}
)
"""What is done with pieces that a batter coats; what is stirred or poured into one becomes part of it."""
_WHERE = frozenset({"in", "into", "through", "to", "with", "inside"})
_NEAR = 4


def read_batter(state: ReadingState, clause: Clause) -> None:
    """Take a clause that turns food in a batter: what does not cling to it is left."""
    if "batter" not in clause.words or clause.negated or not _goes_in(clause):
        return
    foods = {n: s for n, s in coated(state, clause).items() if state.kind(n) in COATED}
    liquid = {n: 1.0 for n in _stirred(state) if n not in foods}
    if not foods or not any(state.kind(n) == "flour" for n in liquid):
        return
    known = state.latest(("dredge",), foods)
    if known is not None:
        known.liquid.update(liquid)
        return
    state.begin(Happening("dredge", clause, foods=foods, liquid=liquid, closed=True, confidence=0.85))


def _goes_in(clause: Clause) -> bool:
    """Whether what is moved goes into the batter, or is covered with it."""
    if clause.base not in _GOES_IN and clause.act not in ("dredge", "coat", ""):
        return False
    words = [token.text for token in clause.tokens]
    at = words.index("batter")
    return not _WHERE.isdisjoint(words[max(at - _NEAR, 0) : at])


def _stirred(state: ReadingState) -> set[int]:
    """The lines of a batter: what was stirred together with flour and a liquid."""
    own = {n.index for n in state.index.lines if n.kind in _STIRRED and not FOR_COATING.search(n.text)}
    sets = [company & own for company in state.company if not _has_pieces(state, company)]
    last = [] if state.mixture.closed else [state.mixture.lines.keys() & own]
    found: set[int] = set()
    for flour in (n for n in state.index.by_kind.get("flour", ()) if not is_leaven(n)):
        first = {flour.index} & own
        hangs = _together(state, first, sets)
        if not _is_wet(state, hangs):
            hangs = _together(state, first, [*sets, *last])
        found |= hangs if state.mixture.water is not None or _is_wet(state, hangs) else set()
    return found


def _is_wet(state: ReadingState, lines: set[int]) -> bool:
    return any(state.kind(n) in _LIQUID for n in lines)


def _has_pieces(state: ReadingState, lines: set[int]) -> bool:
    return any(state.kind(n) in PROTEINS for n in lines)


def _together(state: ReadingState, first: set[int], sets: list[set[int]]) -> set[int]:
    """All that was stirred into the same thing, in any number of turns; a pinch of one salt ties nothing."""
    found, more = set(first), bool(first)
    while more:
        ties = {n for n in found if state.kind(n) == "flour" or state.kind(n) in _LIQUID}
        near = set().union(*(each for each in sets if each & ties))
        more, found = not near <= found, found | near
    return found
