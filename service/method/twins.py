"""Which of several lines of one name a method means: by amount, by heading, by how it is cut."""

from __future__ import annotations

import re
from collections import Counter
from functools import lru_cache
from typing import TYPE_CHECKING

from .clause_words import by_number
from .clauses import Clause
from .mention import Mention
from .method_words import root

if TYPE_CHECKING:
    from .reading_state import ReadingState

SAME = 0.03
"""How far an amount may lie from that of a line, as a share of it, to be the same."""
_STIRRED = frozenset({"savoury", "acid", "oil", "sweet", "stock", "milk", "wine", "spice"})
_SMALL = frozenset({"in", "and", "or", "of", "with", "to", "the", "a", "for", "into", "on"})


def of_amount(
    state: ReadingState, lines: tuple[int, ...], mention: Mention, clause: Clause
) -> tuple[int, ...]:
    """ "90 g sugar", of a line of 90 g and one of a spoonful."""
    if mention.amount is None:
        return ()
    same = tuple(n for n in lines if abs(state.ratio(clause, mention, n) - 1) < SAME)
    return same if len(same) < len(lines) else ()


def of_more(state: ReadingState, line: int, mention: Mention, clause: Clause) -> tuple[int, ...]:
    """ "3/4 cup flour", of "1 cup bread flour" for the crust and "1/4 cup flour" for a gravy: the line that
    holds so much."""
    if mention.amount is None or state.kind(line) == "salt" or not state.says_more(clause, mention):
        return ()
    listed = state.lines[line]
    alike = [
        n.index
        for n in state.index.by_kind.get(listed.kind, ())
        if n.words[-1:] == listed.words[-1:] and n.line.unit == listed.line.unit and n.line.amount is not None
    ]
    enough = tuple(n for n in alike if state.ratio(clause, mention, n) < 1 + SAME)
    return enough if len(enough) == 1 else ()


def of_told(state: ReadingState, lines: tuple[int, ...], mention: Mention, clause: Clause) -> tuple[int, ...]:
    """Of several salts the one of an amount that is told, or the only one that holds so much: "1 tbsp salt",
    of a line of 1/2 tsp and one of 2 tbsp."""
    told = [n for n in lines if state.lines[n].line.amount is not None]
    if same := tuple(n for n in told if abs(state.ratio(clause, mention, n) - 1) < SAME):
        return same
    enough = tuple(n for n in told if state.ratio(clause, mention, n) < 1 + SAME)
    return enough if len(enough) == 1 else lines


def of_word(state: ReadingState, lines: tuple[int, ...], mention: Mention, clause: Clause) -> tuple[int, ...]:
    """ "The soaking salt", "the salt for boiling", "the other salt", of salts that say what they are for."""
    before = {root(t.text) for t in clause.tokens[max(mention.i - 1, 0) : mention.j]} - _SMALL
    if "other" in before:
        return tuple(n for n in lines if not state.spoken.get(n))
    behind = [token.text for token in clause.tokens[mention.j : mention.j + 3]]
    said = before | ({*map(root, behind)} - _SMALL if behind[:1] == ["for"] else set())
    own = tuple(n for n in lines if said & _says_for(state.lines[n].text))
    return own if len(own) < len(lines) else ()


def of_finish(
    state: ReadingState, lines: tuple[int, ...], mention: Mention, clause: Clause
) -> tuple[int, ...]:
    """Of several salts, that "to finish" where a clause finishes, and else the others, or all."""
    last = tuple(n for n in lines if state.lines[n].purpose == "finish")
    if last and clause.base in _FINISHES and mention.amount is None:
        return last
    return tuple(n for n in lines if n not in last or state.lines[n].line.amount) or lines


_FINISHES = frozenset({"finish", "sprinkle", "scatter", "serve"})


def of_section(
    state: ReadingState, lines: tuple[int, ...], mention: Mention, clause: Clause
) -> tuple[int, ...]:
    """Of salts under different headings: that of what a clause stirs it into, or the one that is left."""
    headings = {state.lines[n].heading for n in lines}
    told = clause.heading.lower() in {heading.lower() for heading in headings} - {""}
    if len(headings) < 2 or mention.portion is not None or told:
        return ()
    others = {state.lines[m.lines[0]].heading for m in clause.mentions if len(m.lines) == 1}
    here = tuple(n for n in lines if state.lines[n].heading in others)
    if here:
        return here if len(here) == 1 else of_company(state, lines, clause)
    here = tuple(n for n in lines if state.section and state.lines[n].heading == state.section)
    unspoken = here or tuple(n for n in lines if not state.spoken.get(n))
    return unspoken if len(unspoken) == 1 else ()


def of_use(state: ReadingState, lines: tuple[int, ...], mention: Mention, clause: Clause) -> tuple[int, ...]:
    """ "The dusting flour", "flour for the batter", of lines that say what they are for; where no word says
    which, the one spoken of last."""
    uses = {n: _uses(state.lines[n].text) for n in lines}
    if not any(uses.values()):
        return ()
    behind = [token.text for token in clause.tokens[mention.j : mention.j + 4]]
    before = [token.text for token in clause.tokens[max(mention.i - 1, 0) : mention.i]]
    said = {root(word) for word in (*before, *(behind if behind[:1] == ["for"] else ()), clause.base)}
    if own := tuple(n for n in lines if uses[n] & said):
        return own
    if (coats := tuple(n for n in lines if uses[n] & _COATS)) and len(coats) < len(lines):
        if clause.act in ("dredge", "coat") or clause.base in _PASSES:
            return coats  # "pass through flour, egg and crumbs"
        return tuple(n for n in lines if n not in coats)
    spoken = [n for n in lines if n in state.last_spoken]
    return (max(spoken, key=state.last_spoken.__getitem__),) if spoken and all(uses.values()) else ()


def is_for_coating(text: str) -> bool:
    """ "200 g plain flour, for coating"."""
    return not _COATS.isdisjoint(_uses(text))


_COATS = frozenset(map(root, ("coating", "dredging", "dusting", "breading", "crumbing")))
_PASSES = frozenset({"pass", "roll", "turn", "dip", "toss", "dust"})


def of_food(state: ReadingState, lines: tuple[int, ...], clause: Clause) -> tuple[int, ...]:
    """Of salts those that the list means for the food that is spoken of: "1 tsp salt for the onion"; else
    those that it means for no other, and of a measured one and one "to taste" the one whose turn it is."""
    lines = _of_taste(state, lines, clause)
    others = {word for line in state.index.lines if line.index not in lines for word in line.words}
    meant = {n: _uses(state.lines[n].text) & others for n in lines}
    if not any(meant.values()) or "water" in clause.speaks:
        return lines
    spoken = {n for m in clause.mentions for n in m.lines if n not in lines} or {*state.last_foods}
    words = {word for n in spoken for word in state.lines[n].words}
    own = tuple(n for n in lines if meant[n] & words)
    return own or tuple(n for n in lines if not meant[n]) or lines


def _of_taste(state: ReadingState, lines: tuple[int, ...], clause: Clause) -> tuple[int, ...]:
    """Of a salt that the list measures and one "to taste": what is salted with, at first the measured one;
    what is seasoned with behind that, the other."""
    measured = tuple([n for n in lines if state.lines[n].line.amount is not None])
    if not 0 < len(measured) < len(lines):
        return lines
    seasons = clause.act == "season" or "taste" in clause.words
    used = all(map(state.spoken.get, measured))
    if seasons is not used:
        return lines
    return tuple(n for n in lines if n not in measured) if seasons else measured


@lru_cache(maxsize=1024)
def _uses(text: str) -> frozenset[str]:
    """What a line is for, by its own words: "60 g flour (for dusting)"."""
    behind = _FOR.search(text)
    return frozenset(map(root, behind[1].lower().split())) - _SMALL if behind else frozenset()


@lru_cache(maxsize=1024)
def _says_for(text: str) -> frozenset[str]:
    """What a line is for, "for" or in brackets: "2 tbsp salt (boiling)"."""
    aside = _ASIDE.search(text)
    return _uses(text) | (frozenset(map(root, aside[1].lower().split())) if aside else frozenset())


_ASIDE = re.compile(r"\(([a-z ]+)\)", re.IGNORECASE)
_FOR = re.compile(r"\bfor (?:the |your )?([a-z-]+(?: [a-z-]+)?)", re.IGNORECASE)


def of_twins(state: ReadingState, lines: tuple[int, ...], clause: Clause) -> tuple[int, ...]:
    """Of lines alike under different headings: those whose heading is named, else the next."""
    headings = {state.lines[n].heading.lower() for n in lines}
    same = len({state.lines[n].words for n in lines}) == 1
    if meant := (by_number(lines, clause) if same else ()) or _by_preparation(state, lines, clause):
        return meant
    if len(headings) < 2:
        return lines
    if (here := tuple(n for n in lines if any(m.lines == (n,) for m in clause.mentions))) and len(here) == 1:
        return here  # "the onion, bay leaf and peppercorns", of a line "1 onion, 1 bay leaf, 6 peppercorns"
    if len({state.lines[n].words for n in lines}) > 1:
        return _beside(state, lines, clause) or of_company(state, lines, clause) or lines
    said = clause.words - _SMALL - {t.text for m in clause.mentions for t in clause.tokens[m.i : m.j]}
    named = tuple(n for n in lines if said & set(state.lines[n].heading.lower().split()))
    if beside := _beside(state, lines, clause) or of_company(state, lines, clause):
        return beside
    here = tuple(n for n in lines if state.lines[n].heading == state.section)
    if len(here) == 1 and not named:
        return here
    unspoken = [n for n in lines if not state.spoken.get(n)]
    return named or tuple(unspoken[:1]) or lines


def of_company(state: ReadingState, lines: tuple[int, ...], clause: Clause) -> tuple[int, ...]:
    """ "Bring the water to the boil with the onion, bay leaf and cloves": of two onions that of the part
    from which most of the others are."""
    parts = Counter(state.lines[m.lines[0]].heading for m in clause.mentions if len(m.lines) == 1)
    if not parts or sum(parts.values()) < _SEVERAL:
        return ()
    (most, times), *less = parts.most_common()
    if less and less[0][1] >= times:
        return ()
    here = tuple(n for n in lines if state.lines[n].heading == most)
    return here if len(here) < len(lines) else ()


_SEVERAL = 2


def _beside(state: ReadingState, lines: tuple[int, ...], clause: Clause) -> tuple[int, ...]:
    """ "The soy, sugar and fish sauce": of two soy sauces that of the others' part."""
    if not set(map(state.kind, lines)) <= _STIRRED or len(set(map(state.kind, lines))) > 1:
        return ()
    others = {state.lines[m.lines[0]].heading for m in clause.mentions if len(m.lines) == 1}
    here = tuple(n for n in lines if state.lines[n].heading in others)
    return here if len(here) < len(lines) else ()


def _by_preparation(state: ReadingState, lines: tuple[int, ...], clause: Clause) -> tuple[int, ...]:
    """ "The sliced lemon", of one that is sliced and one that is halved."""
    if clause.has("as"):
        return ()  # "as on Monday" speaks of another
    if not set(state.lines[lines[0]].words).intersection(*(state.lines[n].words for n in lines)):
        return ()  # "the vegetables"
    own = {n: set(" ".join(state.lines[n].line.preparation).split()) - _SMALL for n in lines}
    said = [(len(clause.words & own[n]), n) for n in lines]
    most = max(said)[0]
    best = tuple(n for score, n in said if score == most)
    return best if most and len(best) < len(lines) else ()
