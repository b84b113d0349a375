"""The food that a liquid or a paste is put over, where no word names it: "pour over", "spread it on"."""

from __future__ import annotations

import re

from .clauses import Clause
from .happenings import PROTEINS, SALTABLE, SALTING, WET
from .method_words import small_words
from .reading_state import ReadingState


def covered_with(state: ReadingState, clause: Clause) -> dict[int, float]:
    """The meat or fish that "cover with the lime juice" does not name."""
    if clause.base == "pour" and state.mixture.heated and _JARS.search(clause.text):
        kinds = set(map(state.kind, state.mixture.lines))
        if "water" in kinds and kinds & SALTING:  # "boil the water with the salt, pour it into the jar"
            return {n: 1.0 for n in _in_jars(state) if n not in state.mixture.lines}
    spread = clause.base in _SPREADS and clause.speaks <= _OF_IT and clause.has("over", "on", "in", "into")
    if spread and not state.mixture.closed and state.lines_of(clause).keys() <= state.mixture.lines.keys():
        foods = [n for n in state.last_foods if n not in state.mixture.lines and state.kind(n) in PROTEINS]
        if foods:
            return dict.fromkeys(foods, 1.0)
    comes_over = clause.base in FLOODS and (clause.has("over", "on") or not clause.has("in", "into"))
    bowled = clause.act == "put" and state.bowled == state.last_foods
    if not comes_over and not bowled:
        return {}
    over = clause.has("over", "on") or (bowled and clause.vessel() == "bowl")
    if over and (clause.speaks <= _ALONE or _is_the_liquid(state, clause)) and not state.mixture.closed:
        kinds = set(map(state.kind, state.mixture.lines))  # "dissolve the salt in the water, pour over"
        if not (kinds & WET or state.mixture.water):
            return {}
        return {
            n: 1.0 for n in state.last_foods if n not in state.mixture.lines and state.kind(n) in SALTABLE
        }
    acid = state.lines_of(clause, ("acid",))
    if acid and _JARS.search(clause.sentence):
        return {n: 1.0 for n in state.last_foods if n not in acid and state.kind(n) in SALTABLE}
    wet = state.lines_of(clause, ("acid", "savoury", "milk", "wine"))
    return {n: 1.0 for n in state.last_foods if wet and n not in wet and state.kind(n) in PROTEINS}


def flavours_over_it(state: ReadingState, clause: Clause) -> bool:
    """ "Pour the broth, vinegar and the diced onion over them": the onion is of what is poured."""
    if clause.base not in FLOODS or not {"it", "line"} <= clause.speaks:
        return False
    over = any(m.kind == "it" and m.prep in ("over", "on") for m in clause.mentions)
    return over and set(map(state.kind, state.solids(clause, direct=True))) == {"vegetable"}


FLOODS = frozenset({"cover", "douse", "pour", "drown", "flood", "ladle", "tip"})
_SPREADS = small_words("spreads")


_OF_IT = frozenset({"it", "line", "bath"})
_ALONE = frozenset({"it", "vessel"})


def _is_the_liquid(state: ReadingState, clause: Clause) -> bool:
    """ "Pour over the liquid", "pour the pickle over": what was stirred or boiled last, called by a name that
    nothing else has."""
    sour = state.mixture.heated and not state.mixture.name
    return clause.speaks <= _ALONE | {"bath"} and all(
        (m.name == "other" or (sour and m.name == "brine" and m.name not in state.named))
        and m.portion is None
        for m in clause.mentions
        if m.kind == "bath"
    )


def _in_jars(state: ReadingState) -> list[int]:
    """The vegetables and fruit that were put into jars: those spoken of, herbs apart."""
    found = [n for n in state.last_foods if state.kind(n) in ("vegetable", "fruit")]
    return found or [
        n.index for n in state.index.lines if n.kind in ("vegetable", "fruit") and state.spoken.get(n.index)
    ]


_JARS = re.compile(r"\b(?:jar|jars|bottle|bottles|crock|kilner)\b", re.IGNORECASE)
