"""Which lines a method means by "all the ingredients", "everything else" and their like."""

from __future__ import annotations

from collections.abc import Container, Mapping, Sequence

from .clauses import Clause
from .happenings import DRY, SOLIDS, WET
from .headings import bath_of_heading
from .listed import Index, ListedLine
from .mention import Mention
from .method_parts import heading_words
from .method_words import small_words

_NO_HEADING = frozenset({"the", "for", "to", "of", "and", "a", "all"})


_LEFT = frozenset({"rest", "remaining", "other", "remainder"})
_REACH = 5
"""Words before "ingredients" among which "the rest of" may stand."""


def ingredients_meant(
    index: Index, spoken: Container[int], mention: Mention, clause: Clause, topic: str = ""
) -> tuple[int, ...]:
    """The lines that "all the ingredients", "everything for the brine" or "the rest of the dry ingredients"
    speak of. topic: the heading of what the paragraph makes, if it says so."""
    lines = _all_meant(index, spoken, mention, clause, topic)
    near = clause.tokens[max(0, mention.i - _REACH) : mention.j]
    if mention.kind in ("all", "rest") and any(token.text in _LEFT for token in near):
        return tuple(n for n in lines if n not in spoken)
    return lines


def _all_meant(
    index: Index, spoken: Container[int], mention: Mention, clause: Clause, topic: str
) -> tuple[int, ...]:
    before = [token.text for token in clause.tokens[max(0, mention.i - 2) : mention.i]]
    behind = [token.text for token in clause.tokens[mention.j : mention.j + 6]]
    told = {n for m in clause.mentions if m.kind == "line" and m.j <= mention.i for n in m.lines}
    if mention.kind == "all" and len(told) > _FEW:
        return tuple(sorted(told))  # "meat, onions, salt, vinegar: everything in a bowl"
    if behind[:1] == ["from"] and (listed := _from_to(index, clause)):
        return listed
    if behind[:1] == ["for"]:
        before = before + behind  # "everything for the court bouillon"
    if under := _under_head(index, " ".join(before)):
        return under
    for head in (clause.heading, topic):
        if mention.kind == "all" and head and (here := _under_head(index, head)):
            return here  # "Dressing: whisk all the ingredients"
    baths = {m.name for m in clause.mentions if m.kind == "bath"} - {"other"}
    if made := _under_bath(index, baths):
        return made  # "make the cure with all its ingredients"
    dry = behind[:1] == ["dry"] and clause.act == "mix"  # "mix everything dry"
    if kinds := _KINDS_MEANT.get("dry" if dry else before[-1] if before else ""):
        return tuple(n.index for n in index.lines if n.kind in kinds and n.index not in spoken)
    if not _OF_A_MIX.isdisjoint(before):
        return ()
    if mention.kind == "rest" and before[-1:] == ["the"]:
        left = (n for n in index.lines if n.index not in spoken and n.heading == clause.heading)
        return tuple(n.index for n in left)
    if mention.kind == "rest":
        return tuple(n.index for n in index.lines if n.index not in spoken)
    if mention.name == "it" and spoken:
        return ()
    if mention.kind == "all" and before[-1:] and before[-1] in _MADE_FIRST:
        return tuple(n.index for n in index.lines if not n.heading)  # and none of what a heading makes
    if to_come := _bath_to_come(index, spoken):
        return to_come
    raw = clause.act == "mix" and clause.vessel() in ("", "bowl")
    later = {n for n, place in index.boiled_in.items() if place > clause.method} if raw else ()
    return tuple(n.index for n in index.lines if n.index not in later)


def boiled_apart(index: Index, clauses: Sequence[Clause]) -> dict[int, int]:
    """Pasta and grain that a clause boils, each with the last paragraph that does: "toss all the ingredients
    in a bowl", said before that, does not mean it raw."""
    dry = index.of_kinds("pasta", "grain")
    if not dry or "all" not in frozenset().union(*[clause.speaks for clause in clauses]):
        return {}
    boils = (clause for clause in clauses if clause.act in ("boil", "cook") and "line" in clause.speaks)
    return {n: c.method for c in boils for m in c.mentions if not m.prep for n in m.lines if n in dry}


def _bath_to_come(index: Index, spoken: Container[int]) -> tuple[int, ...]:
    """ "Mix all ingredients in a jar", once all but what stands under "Marinade" was spoken of."""
    unsaid = (line for line in index.lines if line.index not in spoken and line.kind != "salt")
    heads = {line.heading for line in unsaid}  # "salt them" speaks of no line
    head = heads.pop() if len(heads) == 1 else ""
    here = tuple(line.index for line in index.lines if line.heading == head)
    return here if bath_of_heading(head) and len(here) < len(index.lines) else ()


def _from_to(index: Index, clause: Clause) -> tuple[int, ...]:
    """ "Everything from the oil to the thyme": the lines of the list between two that are named."""
    ends = [m for m in clause.mentions if m.kind == "line" and m.prep in ("from", *_UP_TO)]
    if len(ends) < 2 or ends[0].prep != "from":
        return ()
    first, last = min(ends[0].lines), max(ends[1].lines)
    return tuple(n.index for n in index.lines if first <= n.index <= last)


_FEW = 2
_UP_TO = frozenset({"to", "through", "until", "till", "down"})


_MADE_FIRST, _OF_A_MIX = small_words("made_first"), small_words("of_a_mix")
_KINDS_MEANT = {"dry": DRY, "wet": WET, "liquid": WET}
"""Kinds of lines that are meant by "the dry ingredients"."""


def _under_head(index: Index, heading: str) -> tuple[int, ...]:
    """The lines of the part that a paragraph or a few words are about: "the breading ingredients", of a part
    "To bread"."""
    said = heading_words(heading)
    return tuple(n.index for n in index.lines if n.heading and said & heading_words(n.heading))


def topic_of(index: Index, clause: Clause) -> str:
    """The heading of the list that a clause sets out to make: "start by preparing the brine"."""
    if clause.base not in MAKES or clause.negated:
        return ""
    heads = dict.fromkeys(line.heading for line in index.lines if line.heading)
    return next((h for h in heads if (set(h.lower().split()) - _NO_HEADING) & clause.words), "")


MAKES = frozenset({"make", "prepare", "start", "begin"})


def _under_bath(index: Index, baths: set[str]) -> tuple[int, ...]:
    """The lines under a heading that makes one of these baths."""
    return tuple(n.index for n in index.lines if bath_of_heading(n.heading) in baths)


def leading_food(index: Index) -> dict[int, float]:
    """What a method begins with that names nothing: the food that leads the list."""
    first = next((line for line in index.lines if line.kind in SOLIDS), None)
    return {} if first is None or bath_of_heading(first.heading) else {first.index: 1.0}


def sole_food(index: Index, spoken: Container[int]) -> tuple[int, ...]:
    """What a clause that names nothing works on where nothing was named before: the one food of the list."""
    solids = [line.index for line in index.lines if line.kind in SOLIDS]
    return tuple(solids) if len(solids) == 1 and solids[0] not in spoken else ()


def first_meant(index: Index, clauses: Sequence[Clause]) -> tuple[int, ...]:
    """What "it" is where a method begins with it: "she peels them", "put (it) on in cold water", of the
    list."""
    first = clauses[0] if clauses else None
    if first is None or not first.mentions or first.act not in ("cut", "put"):
        return ()
    said, solids = first.mentions[0], index.of_kinds(*SOLIDS)
    if said.kind == "it" and (first.act == "cut" or (not said.prep and "vessel" in first.speaks)):
        return tuple(leading_food(index))  # "put it in a stockpot, add the onion"
    laid = said.kind == "water" and said.prep == "in" and first.base in _LAYS and first.speaks <= _IN_SALTED
    return tuple(solids) if laid and len(solids) == 1 else ()


_LAYS, _IN_SALTED = frozenset({"put", "set", "place", "lay"}), frozenset({"water", "line"})


def unknown(lines: Mapping[int, ListedLine], clause: Clause) -> dict[int, float]:
    """Lines of which nobody knows what they are, where a clause does something to them."""
    said = (m for m in clause.mentions if m.kind == "line" and not m.prep and m.i <= clause.aim)
    return {n: 1.0 for m in said for n in m.lines if lines[n].kind == "other"}


def main_foods(index: Index, lines: Mapping[int, ListedLine]) -> dict[int, float]:
    """The meat or fish of a list that has one kind of it."""
    for kinds in (("meat", "poultry"), ("fish", "seafood"), ("tofu",)):
        found = index.of_kinds(*kinds)
        whole = [n for n in found if bath_of_heading(lines[n].heading) is None]
        if whole := whole or list(found):
            return dict.fromkeys(whole[:3], 1.0)
    return {}


_UNDER = frozenset({"over"})
_UNDER_SALT = _UNDER | {"into", "on", "onto"}
"""Before a food these say that something comes on it: "pour it over the cucumber", "rub it into them"."""


def is_about_last(clause: Clause) -> bool:
    """Whether a clause that names no food works on what was spoken of last."""
    if clause.act in ("put", "mix", "coat", "season", "dredge", "hold"):
        under = _UNDER_SALT if clause.act in ("coat", "season") else _UNDER
        return not ["over" for m in clause.mentions if m.kind == "line" and m.prep in under]
    return "it" in clause.speaks and any(m.kind == "it" and not m.prep for m in clause.mentions)
