"""What a clause says of flour and egg: whether food goes through them, how much, and which of the list."""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence
from functools import lru_cache

from .clauses import Clause
from .happenings import PROTEINS, Mixture
from .left_to_the_cook import grams_roughly
from .mention import Mention
from .method_words import small_words
from .prose_tokens import tokenize
from .reading_state import COLD, ReadingState
from .twins import is_for_coating

INTO = frozenset({"in", "into", "through"})
LEFT_OVER_G = 45.0
"""Flour, g, from which on some of it is left when food is tossed in it."""


def goes_through(state: ReadingState, clause: Clause) -> bool:
    """ "Batter the fish in the flour, egg and crumbs", "take each piece through egg and flour": whatever the
    verb, food that goes through both is coated."""
    if clause.act == "mix" or "line" not in clause.speaks:
        return False
    behind: set[str] = set()
    for mention in clause.mentions:
        if mention.prep in INTO:
            behind.update(map(state.kind, mention.lines))
    return {"flour", "egg"} <= behind <= {"flour", "egg", "milk", "salt", "spice", "herb", "cheese"}


def thickens(state: ReadingState, foods: Collection[int], flours: Collection[int]) -> bool:
    """Whether so little flour goes on vegetables that none is left: "coat the onions in the cornflour"."""
    grams = [grams_roughly(state.lines[n]) for n in flours if state.kind(n) == "flour"]
    little = bool(grams) and all(grams) and sum(each or 0.0 for each in grams) < LEFT_OVER_G
    return little and set(map(state.kind, foods)) == {"vegetable"}


def stirred_before(state: ReadingState, line: int) -> int:
    """The flour of a coating that was seasoned before, where "flour" may also be that of the gravy."""
    if state.spoken.get(line) or is_for_coating(state.lines[line].text):
        return line
    flours = (n for n in state.index.by_kind.get("flour", ()) if n.words[-1:] == state.lines[line].words[-1:])
    return next((n.index for n in flours if state.spoken.get(n.index)), line)


def dips(state: ReadingState) -> set[int]:
    """What food was dipped in before it was turned in flour, with the egg that was beaten into it."""
    stirred = (company for company in state.company if company & state.dipped)
    beside = {n for company in stirred for n in company if state.kind(n) in ("egg", "milk")}
    lain_in = {n for each in state.happened if each.kind in COLD for n in each.liquid}
    return state.dipped | (beside - lain_in)


EGGS = frozenset({"egg", "eggs"})


def egg_alone(state: ReadingState, clause: Clause) -> set[int]:
    """ "Add the egg" to meat or fish: the egg, where a clause speaks of nothing else."""
    eggs = {n for n in state.lines_of(clause, ("egg",)) if set(state.lines_of(clause)) == {n}}
    return eggs if any(state.kind(n) in PROTEINS for n in state.last_foods) else set()


def lies_in_egg(state: ReadingState, clause: Clause) -> set[int]:
    """ "Put the veal in the egg", "leave the chicken in the eggs": the egg that meat or fish lies in."""
    if clause.act not in ("put", "hold"):
        return set()
    if PROTEINS.isdisjoint(map(state.kind, state.solids(clause, direct=True))):
        return set()
    return {n for m in clause.mentions if m.prep in INTO for n in m.lines if state.kind(n) == "egg"}


def milk_between(state: ReadingState, clause: Clause, behind: Collection[int]) -> dict[int, float]:
    """ "Dip it in the flour, then the milk, then the crumbs": the milk, unless the food lay in it before."""
    if clause.act in ("put", "mix"):
        return {}
    lain_in = {n for each in state.happened if each.kind in COLD for n in each.liquid}
    milk = state.lines_of(clause, ("milk",))
    return {n: 1.0 for n in milk if n not in lain_in and (n in behind or clause.has(*_NEXT))}


_NEXT = frozenset({"then", "followed", "next", "finally", "lastly", "again"})


def part_of_list(state: ReadingState, clause: Clause) -> dict[int, float]:
    """ "Dunk it in the batter", "coat it in the flour mix, then the egg mix", of a list with parts that are
    called so."""
    if _COATS.isdisjoint(clause.words):
        return {}
    said = [token.stem for token in clause.tokens]
    heads = {line.heading for line in state.index.lines if line.heading}
    meant = {head for head in heads if _goes_into_part(said, heading_stems(head))}
    apart = PROTEINS | {"oil", "vegetable", "potato"}  # "Ingredients for the battered cauliflower"
    return {n.index: 1.0 for n in state.index.lines if n.heading in meant and n.kind not in apart}


@lru_cache(maxsize=1024)
def heading_stems(heading: str) -> tuple[str, ...]:
    """The words of a heading that name it; "batter" alone where it is of one."""
    stems = [token.stem for token in tokenize(heading) if token.text[0].isalpha()]
    own = tuple(stem for stem in stems if stem not in _SMALL)
    return ("batter",) if any(stem.startswith("batter") for stem in own) else own


def _goes_into_part(said: Sequence[str], name: tuple[str, ...]) -> bool:
    """Whether words say that something goes into what is called so."""
    if not name or name[0] not in said or _COATS.isdisjoint(name):
        return False
    places = (i for i in range(1, len(said)) if tuple(said[i : i + len(name)]) == name)
    return any(not _WHERE.isdisjoint(said[max(0, i - 2) : i]) for i in places)


_SMALL = frozenset({"for", "the", "to", "a", "make", "ingredient"})
_WHERE = INTO | {"then", "with"}
_COATS = small_words("coat_part")


def seasoned_with(state: ReadingState, clause: Clause, flours: Collection[int]) -> dict[int, float]:
    """ "Dredge the liver in flour seasoned with salt", "roll it in the salt and flour": what a clause says is
    in its flour."""
    at = next((m for m in clause.mentions if not set(flours).isdisjoint(m.lines)), None)
    if at is None:
        return {}
    beside = [m for m in clause.mentions if m.prep == at.prep in INTO | {"with"}]
    if not _SEASONED.isdisjoint(token.text for token in clause.tokens[at.i :]):
        beside += [m for m in clause.mentions if m.i > at.i]
    dry = {n for m in beside for n in m.lines if state.kind(n) in ("salt", "spice", "herb")}
    return {n: s for n, s in state.lines_of(clause).items() if n in dry}


_SEASONED = frozenset({"seasoned", "mixed", "with", "combined", "plus"})


DRY_MIX = frozenset({"flour", "salt", "spice", "herb", "sweet", "cheese", "oil"})


def may_coat(state: ReadingState, mixture: Mixture) -> bool:
    """Whether a bowl holds what dry food is turned in, or a batter."""
    kinds = set(map(state.kind, mixture.lines))
    return kinds <= DRY_MIX - {"oil"} or ("flour" in kinds and kinds <= BATTER)


def coats_bare(state: ReadingState, clause: Clause, mixture: Mixture) -> bool:
    """ "Mix the flour and salt. Coat the fish", "batter the cod": in what was just stirred."""
    if clause.base not in _COATS_BARE or mixture.closed or not state.solids(clause, direct=True):
        return False
    if clause.base == "toss" and not _is_dry_and_much(state, mixture):
        return False
    alone = all(not m.prep and state.kind(n) not in BATTER for m in clause.mentions for n in m.lines)
    return alone and "flour" in map(state.kind, mixture.lines) and may_coat(state, mixture)


_COATS_BARE = frozenset({"coat", "dust", "batter", "toss"})


def _is_dry_and_much(state: ReadingState, mixture: Mixture) -> bool:
    """Whether a bowl holds flour with what seasons it, and so much that some is left of it."""
    flours = [n for n in mixture.lines if state.kind(n) == "flour"]
    dry = mixture.water is None and _DRY.issuperset(map(state.kind, mixture.lines))
    return dry and any((grams_roughly(state.lines[n]) or 0.0) >= LEFT_OVER_G for n in flours)


BATTER = frozenset({"flour", "milk", "wine", "water", "egg", "salt", "spice", "herb", "sweet", "acid"})


_DRY = frozenset({"flour", "salt", "spice", "herb"})


def of_bowl(state: ReadingState, mixture: Mixture, *, whole: bool) -> dict[int, float]:
    """What of a bowl food is turned in: the dry of it; whole: with what makes a batter of that, if no food
    has lain in it before."""
    lain = {n for h in state.happened if h.kind in COLD for n in h.liquid} if whole else set()
    kinds = BATTER if whole else _DRY
    stirred = {n: s for n, s in mixture.lines.items() if state.kind(n) in kinds}
    return {n: s for n, s in stirred.items() if n not in lain or state.kind(n) in _DRY}


def egg_washes(state: ReadingState) -> set[int]:
    """The egg and the milk that were beaten together, or the only egg of the list."""
    eggs = set(state.index.of_kinds("egg"))
    beaten = {n for company in state.company if company & eggs for n in company if state.kind(n) == "milk"}
    return eggs | beaten


def is_in(clause: Clause, mention: Mention) -> bool:
    """ "Toss in the starch": where food is turned, and not what is tossed in; "give it a coat of flour"."""
    before = [token.text for token in clause.tokens[max(0, mention.i - 3) : mention.i]]
    if clause.base == "coat":
        return before[-2:] == ["coat", "of"]
    return clause.base in ("toss", "roll", "shake") and "in" in before


_THROUGH = re.compile(r"through(?=[.,;]|$)")


def goes_in(clause: Clause) -> bool:
    """ "Dip the chicken in", "dip the fish", "pass it through": what was stirred."""
    if "through" in clause.words and _THROUGH.search(clause.text):
        return clause.base in ("pass", "put", "run", "take", "draw", "drag")
    if clause.base in ("dip", "dunk") and not any(m.prep for m in clause.mentions):
        return True
    last = clause.tokens[-1].text
    words = [token.text for token in clause.tokens if token.text not in (",", ".", "and", ";")]
    return clause.base in ("dip", "dunk") and (last == "in" or words[-1:] == ["in"])


def meant_for(state: ReadingState, flours: dict[int, float], foods: Collection[int]) -> dict[int, float]:
    """Of several lines of flour that which the list means for a food: "1 tbsp flour for the onions", where a
    dough has the others."""
    listed = state.index.of_kinds("flour")
    if len(listed) == 1 or not flours:
        return {}
    names = {state.lines[n].words[-1:] for n in flours}
    words = {word for n in foods for word in state.lines[n].words}
    own = [n for n in listed if state.lines[n].words[-1:] in names]
    return {n: 1.0 for n in own if not words.isdisjoint(_behind_for(state.lines[n].text))}


@lru_cache(maxsize=1024)
def _behind_for(text: str) -> frozenset[str]:
    return frozenset(token.stem for token in tokenize(text.partition(" for ")[2]))
