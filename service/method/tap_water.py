"""Which water a method speaks of: that of the list, or as much of the tap's as is needed."""

from __future__ import annotations

from collections.abc import Container
from dataclasses import replace

from .clauses import Clause
from .left_to_the_cook import grams_roughly
from .mention import Mention, kinds_of
from .method_words import Verb, small_words
from .reading_state import ReadingState

_PREPS = small_words("preposition")


def with_waters(clauses: list[Clause], state: ReadingState) -> list[Clause]:
    """Clauses in which "water" of the tap is told from the list's: where the method also speaks of
    "the water" or of its amount, or where the list's belongs to a brine, bare "water" comes from the tap."""
    waters = set(state.index.of_kinds("water"))
    if not waters:
        return clauses
    of_baths = {line for mixture in state.named.values() for line in mixture.lines} & waters
    of_baths |= {n for n in waters if state.lines[n].heading}
    of_list = [(c, m) for c in clauses for m in c.mentions if not waters.isdisjoint(m.lines)]
    goes_in = ((c, m) for c, m in of_list if c.act not in ("discard", "drain"))  # not "pour off the water"
    little = sum(grams_roughly(state.lines[n]) or _A_POT_ML for n in waters) < _A_POT_ML
    stirs = ("mix", "put") if little else ("mix",)
    definite = any(_is_definite(c, m) or _is_stirred(c, waters, stirs) for c, m in goes_in)
    told_apart = definite or of_baths == waters
    if not told_apart and not little:
        return clauses
    wet = {id(clause) for clause, _ in of_list}
    return [_told(state, c, waters, little, told_apart) if id(c) in wet else c for c in clauses]


def _told(state: ReadingState, clause: Clause, waters: set[int], little: bool, told_apart: bool) -> Clause:
    told = tuple(
        [
            _tapped(state, clause, m, waters, little=little, told_apart=told_apart)
            if m.lines and waters.issuperset(m.lines)
            else m
            for m in clause.mentions
        ]
    )
    return _speaking_of(clause, told)


def _speaking_of(clause: Clause, told: tuple[Mention, ...]) -> Clause:
    """The clause with these mentions; itself, where they are its own."""
    return clause if told == clause.mentions else replace(clause, mentions=told, speaks=kinds_of(told))


def _of_the_tap(mention: Mention) -> Mention:
    return replace(mention, kind="water", lines=())


_STIRRED = frozenset({"acid", "sweet", "salt", "wine", "stock", "savoury", "curing"})
_A_POT_ML = 500.0
"""Water of a list, ml, below which food does not boil in it."""
_OF_A_POT = frozenset({"boiling", "ice", "iced", "salted", "simmering", "running", "tap", "soapy"})


def _tapped(
    state: ReadingState, clause: Clause, mention: Mention, waters: set[int], *, little: bool, told_apart: bool
) -> Mention:
    if mention.amount is not None and state.says_more(clause, mention):
        return _of_the_tap(mention)  # "2 litres of water", of a list that has 300 ml
    if little and clause.act in ("boil", "heat") and clause.vessel() in ("pot", "pan") and clause.has("of"):
        return _of_the_tap(mention)  # "boil a wide pan of water"
    if little and mention.amount is None and mention.prep in ("", "in", "into", "under", "of", "with"):
        how = _OF_A_POT & {token.text for token in clause.tokens[max(0, mention.i - 2) : mention.i]}
        if how and not any(how & set(state.lines[n].text.lower().split()) for n in mention.lines):
            return _of_the_tap(mention)
    if _is_definite(clause, mention) or not told_apart:
        return mention
    if _is_stirred(clause, waters, ("put",)) and (little or _is_enumerated(clause, mention)):
        return mention
    if clause.act == "mix" or (clause.base == "bring" and clause.has("dissolve", "dissolved")):
        return mention
    beside = (n for m in clause.mentions if m.prep and m.prep == mention.prep for n in m.lines)
    if any(state.lines[n].heading == state.lines[mention.lines[0]].heading for n in {*beside} - waters):
        return mention  # "in the salt, sugar and water"
    of_pot = clause.act == "boil" and clause.vessel() == "pot" and clause.has("of")
    if (
        not of_pot
        and clause.act in ("heat", "boil", "simmer")
        and {n for m in clause.mentions for n in m.lines if state.kind(n) in _STIRRED}
    ):
        return mention  # "warm the vinegar, water and sugar"
    return _of_the_tap(mention)


def _is_stirred(clause: Clause, waters: set[int], acts: Container[str]) -> bool:
    """Whether a clause stirs water of the list, or a little of it puts in, with other things of the list."""
    named = {line for mention in clause.mentions for line in mention.lines}
    return clause.act in acts and bool(named & waters) and bool(named - waters)


_A_LIST = 2
"""Things beside it, from which on water is one of a list: "put the pasta, water, oil and salt in a pot"."""


def _is_enumerated(clause: Clause, water: Mention) -> bool:
    beside = [m for m in clause.mentions if m.kind == "line" and not m.prep and m is not water]
    return not water.prep and len(beside) >= _A_LIST


def _is_definite(clause: Clause, mention: Mention) -> bool:
    if mention.amount is not None or mention.portion is not None:
        return True
    for token in reversed(clause.tokens[max(0, mention.i - 4) : mention.i]):
        if token.text in ("the", "this"):
            return True
        if token.text in _PREPS:
            break
    return False


def from_the_tap(state: ReadingState, clause: Clause) -> Clause:
    """ "Cover with water", once all of the list's has gone into a brine that food has left: the tap's. What
    is cut into salted water is put there."""
    if clause.act == "cut" and not _SALTED.isdisjoint(clause.words):
        clause = _put_into(state, clause)
    if "line" not in clause.speaks or not state.waters or not state.happened:
        return clause
    waters = state.waters
    for mention in clause.mentions:
        if mention.lines and mention.lines[0] in waters:
            break
    else:
        return clause
    gone = {n for h in state.happened if h.drained or h.closed for n in h.liquid} & waters
    if not gone:
        return clause
    told = tuple(
        _of_the_tap(m) if m.lines and gone.issuperset(m.lines) and _is_bare(clause, m) else m
        for m in clause.mentions
    )
    return _speaking_of(clause, told)


_SALTED = frozenset({"salted", "salty", "salt"})


def _put_into(state: ReadingState, clause: Clause) -> Clause:
    """ "Grate the potatoes into a bowl of salted water", "dice them into water with the salt"."""
    into = any(m.prep == "into" and clause.tokens[m.j - 1].text == "water" for m in clause.mentions)
    foods = state.solids(clause, direct=True) or state.last_foods
    if not into or not foods or not {*map(state.kind, foods)} <= {"vegetable", "potato"}:
        return clause
    return replace(clause, act="put", verb=Verb(clause.base, "put", "base", False))


def _is_bare(clause: Clause, mention: Mention) -> bool:
    return not _is_definite(clause, mention) and mention.prep not in ("from", "of", "to")
