"""How much is eaten of a marinade that is poured in, boiled down, brushed on or strained into a pan."""

from __future__ import annotations

import re
from collections.abc import Sequence

from .clause_words import goal
from .clauses import Clause
from .happenings import Happening
from .left_to_the_cook import grams_in
from .mention import Mention
from .method_words import phrasing
from .parts_said import millilitres, part_said
from .reading_state import ReadingState

_SOME = 0.3
"""Share of a marinade that is brushed or spoonfuls of it; common practice, no source."""
_MOVES = frozenset(
    {"serve", "mix", "put", "heat", "boil", "simmer", "coat", "reduce", "cook", "fry", "roast"}
)
_HEATS = frozenset({"heat", "boil", "reduce"})
_BOILS = frozenset({"boil", "simmer", "reduce"})


def marinade_used(state: ReadingState, clause: Clause) -> None:
    """Take what a clause that names a bath does with the marinade that food lay in."""
    sieved = clause.act == "drain" and clause.vessel() in ("pan", "pot")
    if clause.act in {"discard", "reserve"} or (clause.act == "drain" and not sieved):
        return
    for mention in clause.mentions:
        if mention.kind != "bath" or mention.prep in ("from", "without"):
            continue
        found = state.latest(("marinate", "brine", "dry_cure"))
        if found is None or found.clause.sentence == clause.sentence or goal(clause, mention):
            continue
        spent = found.kind == "brine" and found.drained and found.closed
        if spent or not _is_meant(clause, mention, found):
            continue
        if clause.act in ("mix", "other", "let", "") and clause.has("sauce", "glaze", "gravy", "boiled"):
            found.eaten, found.guessed = 1.0, False  # "use the marinade as a sauce"
        moves = clause.act in _MOVES and (mention.prep in ("", "with", "over") or clause.act == "coat")
        left = mention.portion == -1.0 and mention.name == "marinade"
        again = left or sieved or clause.act in _HEATS or (clause.act == "put" and found.drained)
        if (sieved or moves) and not was_held_back(found) and (found.eaten is None or again):
            found.eaten, found.guessed = _share_taken(clause, mention), False
    if not clause.words.isdisjoint(_AGAIN):
        _used_again(state, clause)


LEFT = frozenset({"left", "remains", "leftovers"})
_WHAT_IS_LEFT = re.compile(
    r"\b(?:(?:what(?:ever)?|everything|all)(?: that|[’']s)?(?: is| was)? (?:left|remains)|leftovers)\b",
    re.IGNORECASE,
)


def what_is_left(state: ReadingState, clause: Clause) -> None:
    """ "Put what is left in a saucepan and boil it down", "boil what remains of the soy": the marinade that
    food has left."""
    if clause.negated or not (clause.act in _BOILS or clause.vessel() in ("pan", "pot")):
        return
    found = state.latest(("marinate",))
    if found is None or found.clause.sentence == clause.sentence or not _WHAT_IS_LEFT.search(clause.text):
        return
    named = {n for m in clause.mentions for n in m.lines}
    if named <= found.liquid.keys() and clause.method - found.clause.method <= _NEAR:
        found.eaten, found.guessed = 1.0, False


_NEAR = 3
"""Paragraphs behind that of a marinade in which what is left is that of it."""
_AGAIN = frozenset({"again", "another", "reuse", "reused"})


def _is_meant(clause: Clause, bath: Mention, found: Happening) -> bool:
    """Whether a bath is called the marinade, its juices, or "the vinegar mixture", of which food lay in all
    the vinegar of the list."""
    if bath.name == "marinade":
        return True
    if bath.name != "other" or found.kind != "marinate":
        return False
    word = clause.tokens[bath.j - 1].text
    before = next((m for m in clause.mentions if m.j == bath.i and m.lines), None)
    if word == "mixture" and before is not None:
        return all(found.liquid.get(n) == 1.0 for n in before.lines)
    return word in ("liquid", "juices")


def was_held_back(bath: Happening) -> bool:
    """Whether a part of all that was stirred together was set aside before food lay in it."""
    return bool(bath.liquid) and all(0.0 < share < 1.0 for share in bath.liquid.values())


def share_kept(state: ReadingState, clause: Clause, bath: Happening) -> float:
    """How much of what food lay in a clause keeps: "keep half of it", "reserve 60 ml of the juice"; all where
    it does not say."""
    if (part := part_said(clause)) is not None:
        return part
    if clause.has(*_A_FEW):
        return _SOME
    ml, grams = millilitres(clause), grams_in(state, bath.liquid)
    return 1.0 if ml is None or not grams else round(min(ml / grams, 1.0), 4)


_A_FEW = ("few", "little", "some", "spoonful", "splash", "bit")


def some_juice(state: ReadingState, clause: Clause) -> None:
    """ "Moisten it with a few spoonfuls of the juice", of what fish lay in: so much of it is eaten."""
    found = state.latest(("marinate",))
    if found is None or found.clause.sentence == clause.sentence or 0.0 < (found.eaten or 0.0) < 1.0:
        return
    if _LITTLE_OF_IT.search(clause.text) and "acid" in map(state.kind, found.liquid):
        found.eaten, found.guessed, found.drained = _SOME, False, True


_LITTLE_OF_IT = phrasing("a_little_juice")


def share_left(clause: Clause) -> float:
    """How much of what food lay in is left where a clause throws some of it away: "pour off half the
    marinade"; none where it names no part."""
    if clause.act == "dry":
        return 0.0  # "wipe off most of it": what clings is asked
    said = [m.portion for m in clause.mentions if m.kind == "bath" or not m.prep]
    parts = any(part is not None and part > 0 for part in said)
    return round(1.0 - (part_said(clause) or 1.0), 4) if parts else 0.0


def _share_taken(clause: Clause, bath: Mention) -> float:
    """How much of a marinade is meant: "brush with the marinade", "spoon a little of it over"."""
    if clause.act in _BOILS:  # "boil it down by two thirds", "to a few spoonfuls", which is no share of it
        return bath.portion if bath.portion is not None and bath.portion > 0 else 1.0
    if clause.base in ("baste", "brush") or clause.has("little", "some", "spoonful", "spoonfuls", "splash"):
        return _SOME
    return part_said(clause) or 1.0


def _used_again(state: ReadingState, clause: Clause) -> None:
    """ "The marinade can be used again": none of it is eaten."""
    found = state.latest(("marinate",))
    if found is not None and found.eaten is None:
        if clause.has("batch", "use", "used", "reuse", "reused", "keep"):
            found.eaten = 0.0


_LEFT = phrasing("marinade_left")


def is_left_in_words(marinade: Happening, clauses: Sequence[Clause]) -> bool:
    """ "Grill, without the marinade", "keep the marinade for another use": nobody eats it, though no word
    says that it is thrown away."""
    later = clauses[clauses.index(marinade.clause) :] if marinade.clause in clauses else ()
    return any("marinade" in c.sentence and _LEFT.search(c.sentence) is not None for c in later)
