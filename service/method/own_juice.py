"""Vegetables that sour in the juice which their salt draws: kraut, eaten with all of that salt."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import takewhile

from .clauses import Clause
from .happenings import SALTING, WET, Happening
from .left_to_the_cook import food_grams, grams_roughly
from .method_words import BOILS
from .reading_state import ReadingState
from .times_and_sizes import Span

_CROCKS = frozenset({"jar", "jars", "crock", "kilner", "mason"})
_SOURS_H = 48.0
"""Hours in a jar from which on salted vegetables sour."""
_MOST_SALT = 0.06
"""Salt in weights of the vegetables, above which it is washed off again or only draws their juice."""
_NO_SALTING = frozenset({"boil", "simmer", "cook", "discard", "rinse", "drain", "serve", "fry", "roast"})
_UNDER_SALT = ("dry_cure", "ferment")
_TAKES_OFF = frozenset({"rinse", "drain"})
_WRINGS = frozenset({"pressing", "squeezing", "squeezed", "pressed", "lifted"})
_WRUNG = frozenset({"squeeze", "press"})


def sour_in_own_juice(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """ "Massage with the salt, press into a jar until the juice covers it, leave for two weeks"."""
    sours = [c for c in clauses if c.act == "ferment" and not c.negated]
    if not (sours or [c for c in clauses if not _CROCKS.isdisjoint(c.words)]):
        return
    salted = _salted(state, clauses)
    if salted is None or not 0 < _salt_share(state, salted) <= _MOST_SALT:
        return
    at = salted.clause.place
    later = [c for c in clauses if c.place > at]
    wait = _wait(later)
    fresh = takewhile(lambda c: all(span.likely < _SOURS_H for span in c.hours), later)
    cooks = (c for c in fresh if c.act in BOILS and "vessel" not in c.speaks)
    if any(c.hours or c.has("thick", "thickens", "thickened") for c in cooks):
        return  # a chutney is kept in jars, too
    if _is_taken_off(later, salted) or not (sours or wait):
        return
    state.happened = [
        each
        for each in state.happened
        if each is not salted and not (each.kind in _WRUNG and each.foods.keys() <= salted.foods.keys())
    ]
    salted.kind, salted.hours, salted.eaten = "ferment", wait or salted.hours, 1.0
    salted.drained = salted.closed = salted.guessed = salted.maybe = False
    state.happened.append(salted)
    if state.pending is salted:
        state.pending = None


def _salted(state: ReadingState, clauses: Sequence[Clause]) -> Happening | None:
    """The vegetables that lie under salt with no water; they may only have been stirred with it."""
    known = (*state.happened, state.waited, state.pending)
    found = [h for h in known if h is not None and "vegetable" in map(state.kind, h.foods)]
    cures = [h for h in found if h.kind in _UNDER_SALT and not _is_wet(state, h)]
    if found:
        only = len(cures) == 1 and all(h.kind in (*_UNDER_SALT, *_WRUNG) for h in found)
        return cures[0] if only else None
    salts = state.index.of_kinds("salt")
    for clause in clauses:
        if clause.act in _NO_SALTING or clause.negated:
            continue
        said = {n for m in clause.mentions for n in m.lines}
        if len(salts) == 1 and salts[0] in said and not any(salts[0] in h.liquid for h in state.happened):
            foods = {n: 1.0 for n in state.index.of_kinds("vegetable") if n in {*said, *state.spoken}}
            return Happening("dry_cure", clause, foods=foods, liquid={salts[0]: 1.0}) if foods else None
    return None


def _is_wet(state: ReadingState, each: Happening) -> bool:
    return each.water is not None or any(state.kind(n) in WET for n in each.liquid)


def _salt_share(state: ReadingState, salted: Happening) -> float:
    lines = (state.lines[n] for n in salted.liquid if state.kind(n) in SALTING)
    weighed = [grams_roughly(line) or 0.0 for line in lines]
    return sum(weighed) / food_grams(salted, state)


def _wait(later: Sequence[Clause]) -> Span | None:
    """The first wait of two days and more."""
    spans = (span for c in later if not c.negated and c.act != "serve" for span in c.hours)
    return next((span for span in spans if span.likely >= _SOURS_H), None)


def _is_taken_off(later: Sequence[Clause], salted: Happening) -> bool:
    """Whether the salt is rinsed off, the juice poured away or pressed out of what is taken from the jar."""
    waited = False
    for clause in later:
        named = {n for m in clause.mentions if m.kind == "line" for n in m.lines}
        about = not named or bool(named & salted.foods.keys())
        if clause.act in _TAKES_OFF and about and not clause.negated:
            return True
        if waited and (clause.base in _WRUNG or not _WRINGS.isdisjoint(clause.words)):
            return True
        waited = waited or any(span.likely >= _SOURS_H for span in clause.hours)
    return False
