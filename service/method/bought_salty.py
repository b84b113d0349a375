"""Food that was bought in liquid or salt: cans are drained, cured meat is rinsed."""

from __future__ import annotations

import re
from itertools import dropwhile

from .clauses import Clause
from .hand_steps import WRINGS
from .happenings import PROTEINS, Happening
from .listed import ListedLine
from .mention import Mention
from .method_words import phrasing, small_words
from .numbers_said import number_at
from .prose_tokens import tokenize
from .reading_state import HOT, ReadingState
from .stakes import lies_in_salt

_CURED = frozenset({"corned", "salt", "salted", "cured", "brined", "gammon", "pickled"})


_OUT_OF_JAR = phrasing("out_of_jar")
_ITS_LIQUID = re.compile(r"\b(?:brine|liquid|liquor|vinegar|juices?)\b", re.IGNORECASE)


_WRUNG = re.compile(r"\b(?:dry|out|well|hard|firmly|liquid|brine|moisture|water)\b", re.IGNORECASE)


def leaves_jar(clause: Clause) -> bool:
    """ "Lift the herring out of its pickle", "pour the pickling liquid away", "squeeze the tuna dry"."""
    if clause.base in WRINGS:
        return bool(_WRUNG.search(clause.text))
    if clause.act == "remove":
        return bool(_OUT_OF_JAR.search(clause.text))
    return clause.act == "discard" and bool(_ITS_LIQUID.search(clause.text))


_DRAINED_FIRST = phrasing("drained_first")


def drained_first(clause: Clause) -> bool:
    """ "Add the beans after you drain them", "stir in the corn without its liquid"."""
    return clause.act in ("put", "mix") and _DRAINED_FIRST.search(clause.text) is not None


def of_a_can(state: ReadingState, clause: Clause, *, rinsed: bool = False, emptied: bool = False) -> bool:
    """ "Drain and rinse the beans": canned ones leave their liquid. rinsed: with water; emptied: into a
    sieve."""
    if clause.act not in ("drain", "rinse") and not emptied:
        return False
    if clause.act == "rinse" and clause.has("tin", "tins", "jar", "can", "cans"):
        if clause.base == "swish" or clause.has("add", "little", "swirl"):
            return False  # "rinse the tins with a little water and add that too"
    named = {n: s for n, s in state.lines_of(clause).items() if _is_canned(state, clause, n)}
    named |= _of_all_cans(state, clause)
    if not _TINS.isdisjoint(clause.words):  # "empty both cans": the peppers "from a jar" are no can
        named = {n: s for n, s in named.items() if "jar" not in state.lines[n].text.lower()} or named
    unsaid = not any(m.lines and m.prep != "with" for m in clause.mentions)  # "drain, mix with the butter"
    lines = named or state.solids(clause) or (dict.fromkeys(state.last_foods, 1.0) if unsaid else {})
    canned = {n: s for n, s in lines.items() if _is_canned(state, clause, n)}
    lines |= state.solids(clause)
    salty = {n: s for n, s in lines.items() if state.kind(n) == "salty" or lies_in_brine(state, n)}
    found = salty | _as_many_as_said(state, clause, canned)
    if not found:
        return False
    rinsed = rinsed or clause.act == "rinse" or clause.has("rinse", "rinsed", "rinsing")
    for known in state.happened:
        if known.kind == "drain" and not known.foods.keys().isdisjoint(found):
            known.rinsed = known.rinsed or rinsed
            found = {n: s for n, s in found.items() if n not in known.foods}
    if found:
        _leave_liquid(state, clause, found, rinsed=rinsed)
    return True


_CAN = frozenset({"can", "tin", "jar"})
_TINS = frozenset({"cans", "tins"})
_BEFORE_CAN = frozenset({"of", "the", "your", "them", "whole"})
_LEFT_FULL = phrasing("left_full")


def _as_many_as_said(state: ReadingState, clause: Clause, cans: dict[int, float]) -> dict[int, float]:
    """ "Drain seven of the cans", "drain the beans but leave one can undrained": that part of the line."""
    if len(cans) != 1:
        return cans
    line = next(iter(cans))
    amount = state.lines[line].line.amount
    many = amount.likely if amount else 0.0
    left = _LEFT_FULL.search(clause.sentence)
    full = number_at(tokenize(left[1]), 0) if left is not None else None
    said = many - full[0] if full else _cans_said(clause)
    return {line: round(said / many, 4)} if said and 0 < said < many else cans


def _cans_said(clause: Clause) -> float | None:
    """How many cans a clause speaks of: "two cans", "one of the two tins"; None where it does not say."""
    tokens = clause.tokens
    for i in range(len(tokens)):
        number = number_at(tokens, i)
        if number is None:
            continue
        rest = list(dropwhile(lambda t: t.text in _BEFORE_CAN or number_at((t,), 0), tokens[number[1] :]))
        if rest and (rest[0].stem in _CAN or rest[0].text == "undrained"):
            return number[0] if rest[0].stem in _CAN else None
    return None


_SOLD_DRY = frozenset({"lentil", "lentils", "dal", "dhal", "split"})
_PREPARED = small_words("prepared")
_IN_CANS = small_words("in_cans")


def must_be_canned(state: ReadingState, line: ListedLine) -> bool:
    """ "400 g chickpeas, drained": what is drained and lay in nothing comes out of a can."""
    said = {token.text for token in tokenize(line.text)}
    if not said.isdisjoint(_PREPARED | _SOLD_DRY):
        return False
    if line.kind != "legume" and said.isdisjoint(_IN_CANS):
        return False
    return state.latest(("soak", "brine", *HOT), (line.index,)) is None


def _is_canned(state: ReadingState, clause: Clause, line: int) -> bool:
    """Whether a line is of cans, or its food is drained before anybody spoke of it: "drain the beans"."""
    if state.lines[line].is_canned:
        return True
    drains = clause.act == "drain" or clause.has("drain", "drained")
    return drains and not state.spoken.get(line) and must_be_canned(state, state.lines[line])


_LIES_IN = frozenset({"oil", "water"})


def leaves_its_oil(state: ReadingState, clause: Clause) -> bool:
    """ "Open the sardines, pour away the oil", "lift them out of their oil", "throw away the water": what a
    can's own line or nobody says that it lies in, and no pot's."""
    said = _LIES_IN & clause.words
    if not said or state.pot is not None:
        return False
    if clause.act not in ("drain", "discard") and not leaves_jar(clause):
        return False
    named = state.solids(clause) or dict.fromkeys(state.last_foods, 1.0)
    cans = {n: s for n, s in named.items() if state.lines[n].is_canned}
    own = any("oil" in state.lines[n].text.lower() for n in cans)
    own = own or (not state.last_heat and set(map(state.kind, cans)) <= {"fish", "seafood"})
    if not cans or ("oil" in said and not own):
        return False
    if state.latest(("drain",), cans) is None:
        _leave_liquid(state, clause, cans, rinsed=False)
    return True


_CANS = frozenset({"cans", "tins", "jars"})
_IN_THEIR_JUICE = frozenset({"tomato", "passata", "soup", "sauce", "milk"})
"""Words of what is eaten with all that its can holds."""
_OF_CANS = frozenset({"legume", "fish", "seafood", "salty", "vegetable"})


def _of_all_cans(state: ReadingState, clause: Clause) -> dict[int, float]:
    """ "Empty both cans into a colander", "the cans of beans": those of the food that is named, or all."""
    one = _CANS.isdisjoint(clause.words)
    if one and (not _speaks_of_can(clause) or state.solids(clause)):
        return {}
    said = {token.stem for token in clause.tokens}
    cans = [
        n for n in state.index.lines if n.is_canned and n.kind in _OF_CANS and not state.spoken.get(n.index)
    ]
    of_food = [n for n in cans if said & set(n.words)]
    drained = [n for n in cans if _IN_THEIR_JUICE.isdisjoint(n.words)]
    meant = of_food or drained or cans
    return {n.index: 1.0 for n in meant} if not one or len(meant) == 1 else {}


def _speaks_of_can(clause: Clause) -> bool:
    """ "Drain the tin", "open the can and drain"; not "if you can"."""
    if clause.mentions and _CAN.isdisjoint(clause.words):
        return False
    return _ONE_CAN.search(clause.text if clause.mentions else clause.sentence) is not None


_ONE_CAN = re.compile(r"\b(?:the|a|your|this) (?:can|tin|jar)\b", re.IGNORECASE)


def were_of_cans(state: ReadingState) -> bool:
    """ "Heat the carrots in their liquor. Strain": whether all that is spoken of is out of cans in water."""
    cans = [state.lines[n] for n in state.last_foods]
    of = _OF_CANS | {"potato"}
    whole = all(n.is_canned and n.kind in of and _IN_THEIR_JUICE.isdisjoint(n.words) for n in cans)
    return bool(cans) and whole and not state.blended


def _leave_liquid(state: ReadingState, clause: Clause, foods: dict[int, float], *, rinsed: bool) -> None:
    state.begin(Happening("drain", clause, foods=foods, rinsed=rinsed, drained=True, closed=True))


def said_to_be(state: ReadingState, clause: Clause, first: Mention, *, rinsed: bool) -> None:
    """ "Add the drained olives", "the rinsed capers and beans": what lay in liquid or salt has left it."""
    bought = {n: 1.0 for n in (*first.lines, *_joined_to(state, clause, first)) if is_of_liquid(state, n)}
    left = {n: s for n, s in bought.items() if state.latest(("drain", "soak", "rinse"), (n,)) is None}
    if left:
        _leave_liquid(state, clause, left, rinsed=rinsed)
    if rinsed and not bought:
        _wash(state, clause, {n: 1.0 for n in first.lines if is_cured(state, n)})


def told_of(state: ReadingState, clause: Clause, i: int) -> Mention | None:
    """The food that "drained" or "rinsed" at word i tells of; none where it is of all but that food."""
    behind = next((m for m in clause.mentions if m.kind == "line" and i < m.i <= i + 4), None)
    if behind is not None and behind.prep == "except":
        _drained_but(state, clause, rinsed=clause.has("rinsed"))
        return None
    return _told_behind(clause, i) or behind


def _drained_but(state: ReadingState, clause: Clause, *, rinsed: bool) -> None:
    """ "Add the tins, all drained except the tomatoes": what else the clause names."""
    cans = {n: 1.0 for n in state.solids(clause) if is_of_liquid(state, n)}
    if cans and state.latest(("drain",), cans) is None:
        _leave_liquid(state, clause, cans, rinsed=rinsed)


def _told_behind(clause: Clause, i: int) -> Mention | None:
    """The food of "the beans undrained and the corn drained": it stands before the word i, and no other
    behind."""
    after = clause.tokens[i + 1].text if i + 1 < len(clause.tokens) else "."
    if after not in _ENDS_ADJECTIVE:
        return None
    return next((m for m in clause.mentions if m.kind == "line" and m.j == i and m.prep != "except"), None)


_ENDS_ADJECTIVE = frozenset({".", ",", ";", "and", ")", "!"})
_JOINS = frozenset({",", "and", "&"})


def _joined_to(state: ReadingState, clause: Clause, first: Mention) -> list[int]:
    """The lines behind "the drained tuna", up to another article: "olives and capers", and no tomatoes."""
    lines: list[int] = []
    end = first.j
    for mention in clause.mentions:
        if mention.i >= end:
            if mention.kind != "line" or not {t.text for t in clause.tokens[end : mention.i]} <= _JOINS:
                break
            lines += [n for n in mention.lines if _IN_THEIR_JUICE.isdisjoint(state.lines[n].words)]
            end = mention.j
    return lines


def is_of_liquid(state: ReadingState, line: int) -> bool:
    return state.lines[line].is_canned or state.kind(line) == "salty" or lies_in_brine(state, line)


_SOURED = frozenset({"sauerkraut", "kraut", "kimchi", "gherkin", "pickled", "fermented"})


def holds_its_salt(state: ReadingState, line: int) -> bool:
    """Whether salt is in the food itself and not in a can's liquid: capers, seaweed, sauerkraut. Draining
    takes none of it, and the tap does."""
    return state.kind(line) == "salty" or not _SOURED.isdisjoint(state.lines[line].words)


def lies_in_brine(state: ReadingState, line: int) -> bool:
    """Whether cheese or vegetables are of those that are sold in brine."""
    if state.kind(line) == "vegetable":
        return not _SOURED.isdisjoint(state.lines[line].words)
    if state.kind(line) != "cheese":
        return False
    return not _OF_BRINE.isdisjoint(state.lines[line].words) or "in brine" in state.lines[line].text.lower()


_OF_BRINE = frozenset({"feta", "halloumi", "haloumi", "brined"})


def of_cured_meat(state: ReadingState, clause: Clause, *, washed: bool = False) -> None:
    """ "Rinse the silverside": meat or fish that was bought in brine or salt loses what lies on it. washed:
    no verb says so."""
    if washed or clause.act == "rinse":
        _wash(state, clause, {n: s for n, s in state.solids(clause).items() if is_cured(state, n)})


def is_cured(state: ReadingState, line: int) -> bool:
    """Whether meat or fish was bought in salt: "corned beef", "anchovies" of which no word says "fresh"."""
    if state.kind(line) not in PROTEINS:
        return False
    if "anchovy" in state.lines[line].words:
        return "fresh" not in state.lines[line].text.lower()
    return not _CURED.isdisjoint(state.lines[line].words) or lies_in_salt(state.lines[line])


def _wash(state: ReadingState, clause: Clause, foods: dict[int, float]) -> None:
    if foods and state.latest(("rinse",), foods) is None:
        state.begin(Happening("rinse", clause, foods=foods, drained=True, closed=True), clause)
