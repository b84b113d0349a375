"""Coatings that a method calls by what was stirred: "the batter", "the dry mix", "the egg mixture"."""

from __future__ import annotations

from collections.abc import Callable

from .clauses import Clause
from .coatings import COATED, coated
from .coats_said import dips
from .happenings import PROTEINS, Happening
from .leavens import is_leaven
from .method_words import small_words
from .reading_state import ReadingState
from .salt_on_food import PLANTS
from .twins import is_for_coating

_STIRRED = frozenset(
    {"flour", "salt", "spice", "herb", "milk", "wine", "water", "egg", "stock", "sweet", "acid", "savoury"}
)
"""Kinds of lines that a batter is made of."""
_LIQUID = frozenset({"milk", "wine", "water", "egg", "stock"})
_GOES_IN = small_words("coats")
_WHERE = frozenset({"in", "into", "through", "to", "with", "inside"})
_NEAR = 4
_MIXES = frozenset({"mix", "mixture", "mixtures", "ingredients", "wash", "bath", "liquid", "coating"})
_DRY = small_words("dry_mix")
_WET = frozenset({"wet", "liquid", "egg", "milk", "buttermilk", "yoghurt", "yogurt"})


def read_stirred_coat(state: ReadingState, clause: Clause) -> None:
    """Take a clause that turns food in what was stirred for it: what does not cling to it is left."""
    if clause.negated or (clause.base not in _GOES_IN and clause.act not in ("dredge", "coat", "")):
        return
    if clause.act == "soak":
        _soaks(state, clause)
        return
    named = _named(clause)
    foods = {n: s for n, s in coated(state, clause).items() if state.kind(n) in COATED} if named else {}
    lines = _KNOWN[named](state) - foods.keys() if foods else set()
    if not lines:
        return
    known = state.latest(("dredge",), foods)
    if known is not None:
        known.liquid.update(dict.fromkeys(lines, 1.0))
    elif named == "wet":
        state.dipped |= lines
    else:
        liquid = dict.fromkeys([*sorted(lines), *sorted(dips(state) - lines)], 1.0)
        state.begin(Happening("dredge", clause, foods=foods, liquid=liquid, closed=True, confidence=0.85))


def _soaks(state: ReadingState, clause: Clause) -> None:
    """ "Soak the onions in the buttermilk": what clings to them goes with the flour they are turned in."""
    milk = state.lines_of(clause, ("milk",))
    if milk and set(map(state.kind, coated(state, clause))) <= PLANTS:
        state.dipped |= milk.keys()


def _named(clause: Clause) -> str:
    """What food goes into: "batter", or a mix that is "dry" or "wet"; "" where a clause names none."""
    if clause.base in ("dip", "dunk") and not clause.mentions:
        return "batter"
    if "batter" not in clause.words and _MIXES.isdisjoint(clause.words):
        return ""
    words = [token.text for token in clause.tokens]
    for at, word in enumerate(words):
        if _WHERE.isdisjoint(words[max(at - _NEAR, 0) : at]):
            continue
        if word == "batter":
            return "batter"
        if word in _MIXES and words[at - 1] in _DRY:
            return "dry"
        if word in _MIXES and words[at - 1] in _WET:
            return "wet"
    return ""


def _batter(state: ReadingState) -> set[int]:
    """The lines of a batter: what was stirred together with flour and a liquid."""
    own = {n.index for n in state.index.lines if n.kind in _STIRRED and not is_for_coating(n.text)}
    sets = [company & own for company in _without_pieces(state)]
    last = [] if state.mixture.closed else [state.mixture.lines.keys() & own]
    found: set[int] = set()
    for flour in (n for n in state.index.by_kind.get("flour", ()) if not is_leaven(n)):
        first = {flour.index} & own
        hangs = _together(state, first, sets)
        if not _is_wet(state, hangs):
            hangs = _together(state, first, [*sets, *last])
        found |= hangs if state.mixture.water is not None or _is_wet(state, hangs) else set()
    return found or _under_heading(state, own)


def _under_heading(state: ReadingState, own: set[int]) -> set[int]:
    """What the list puts under "Batter", where the method only says to whisk it."""
    lines = {n for n in own if "batter" in state.lines[n].heading.lower()}
    return lines if _holds_flour(state, lines) and _is_wet(state, lines) else set()


def _dry_mix(state: ReadingState) -> set[int]:
    """The flour that was stirred last with what is dry."""
    dry = (c for c in reversed(_without_pieces(state)) if _holds_flour(state, c) and not _is_wet(state, c))
    return next((c for c in dry if _PIECES.isdisjoint(map(state.kind, c))), set())


_PIECES = frozenset({"vegetable", "potato", "pasta", "legume", "grain", "fruit"})
"""Kinds of food that flour is stirred into to thicken what they cook in."""


def _wet_mix(state: ReadingState) -> set[int]:
    """The egg or milk that was stirred last, with no flour."""
    wet = (c for c in reversed(_without_pieces(state)) if _is_wet(state, c) and not _holds_flour(state, c))
    found = {n for n in next(wet, set()) if state.kind(n) in _STIRRED - {"wine"}}
    return found if any(state.kind(n) in ("egg", "milk") for n in found) else set()


_KNOWN: dict[str, Callable[[ReadingState], set[int]]] = {"batter": _batter, "dry": _dry_mix, "wet": _wet_mix}


def _holds_flour(state: ReadingState, lines: set[int]) -> bool:
    return any(state.kind(n) == "flour" and not is_leaven(state.lines[n]) for n in lines)


def _is_wet(state: ReadingState, lines: set[int]) -> bool:
    return any(state.kind(n) in _LIQUID for n in lines)


def _without_pieces(state: ReadingState) -> list[set[int]]:
    """What was stirred together, in turn, without meat or fish."""
    return [set(c) for c in state.company if not any(state.kind(n) in PROTEINS for n in c)]


def _together(state: ReadingState, first: set[int], sets: list[set[int]]) -> set[int]:
    """All that was stirred into the same thing, in any number of turns; a pinch of one salt ties nothing."""
    found, more = set(first), bool(first)
    while more:
        ties = {n for n in found if state.kind(n) == "flour" or state.kind(n) in _LIQUID}
        near = set().union(*(each for each in sets if each & ties))
        more, found = not near <= found, found | near
    return found
