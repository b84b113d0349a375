"""Whether a clause says that food lies in a brine, marinade or cure, or goes into what was stirred last."""

from __future__ import annotations

import re
from collections.abc import Iterable

from .bath_kinds import kind_of_bath
from .clauses import Clause
from .happenings import PROTEINS, SALTING, SHORT_H, SOLIDS, Happening
from .mention import Mention
from .reading_state import ReadingState

LIES_IN = frozenset({"hold", "let", "dredge", "season", "remove", "mix", "cut", ""})
INSIDE = frozenset({"in", "into", "under", "inside", "within", "beneath"})


def lies_in_bath(clause: Clause) -> bool:
    """ "Leave the pork in the brine for 12 hours", "pork, brine, 12 hours"."""
    bath = bath_of(clause)
    if bath is None:
        return False
    long = bool(clause.hours) and clause.hours[0].likely >= SHORT_H
    inside = bath.prep in INSIDE
    if inside and (clause.act in ("hold", "let") or long):
        return True
    beside = clause.act in ("mix", "", "cut") and long
    return beside and any(m.kind == "line" and m.i < bath.i for m in clause.mentions)


def lies_among(state: ReadingState, lines: Iterable[int]) -> bool:
    """ "Bury the bacon in the beans": what it lies among is food, and no cure."""
    kinds = set(map(state.kind, lines))
    return bool(kinds) and kinds <= SOLIDS


def lies_in_a_stew(state: ReadingState, lines: Iterable[int]) -> bool:
    """ "Stir in the cabbage and the stock and bury the sausages in it": nor is what boils with vegetables."""
    kinds = set(map(state.kind, lines))
    wet = not kinds.isdisjoint(("stock", "wine", "water"))
    return wet and not kinds.isdisjoint(_STEWED) and kinds.isdisjoint(SALTING)


_STEWED = frozenset({"vegetable", "legume", "potato", "fruit"})


def bath_of(clause: Clause) -> Mention | None:
    """The brine, marinade or cure that a clause names."""
    if "bath" not in clause.speaks:
        return None
    verb = 0 if clause.act in _BATHE else -1  # "cure 4 days"
    baths = (m for m in clause.mentions if m.kind == "bath" and m.name != "other" and m.i != verb)
    return next((m for m in baths if m.i <= clause.aim), None)


_BATHE = frozenset({"brine", "cure", "pickle"})


def in_it(clause: Clause) -> bool:
    """ "Sit the crown in it", "in this liquid", "wrap in the paste": in what was stirred together last."""
    if clause.act == "hold" and "there" in clause.words:
        return True  # "leave the slices there for half an hour"
    return any(
        (m.kind == "it" or m.name == "other") and m.prep in ("in", "into", "under") for m in clause.mentions
    )


_IN_BATHS = PROTEINS | {"vegetable", "egg", "cheese", "legume"}
_IN_SALT_WATER = _IN_BATHS | {"fruit", "nut", "salty"}


def lie_in_baths(state: ReadingState) -> frozenset[str]:
    """Kinds of food that lie in what was stirred last; apples, olives and nuts only in water and salt."""
    lines = state.mixture.lines
    of_salt = is_of_salt_water(state, lines) and set(map(state.kind, lines)) <= {"water", "salt"}
    return _IN_SALT_WATER if of_salt and not state.mixture.closed else _IN_BATHS


def is_of_salt_water(state: ReadingState, lines: Iterable[int]) -> bool:
    """Whether these lines of what was stirred last are salt and water, listed or not."""
    kinds = set(map(state.kind, lines))
    return "salt" in kinds and ("water" in kinds or state.mixture.water is not None)


def is_laid(state: ReadingState, clause: Clause) -> bool:
    """Whether food that a clause names lies in what it names or was stirred last, though no verb puts it."""
    if clause.act not in {"hold", "other", "", "let", "dredge"}:
        return False
    if clause.act == "dredge" and is_coated(state, clause):
        return False
    if not state.solids(clause, direct=True):
        waits = clause.act == "hold" and bool(clause.hours)
        return waits and (lies_in_liquid(state, clause) or _in_new_brine(state, clause))
    return in_it(clause) or lies_in_liquid(state, clause) or _in_the_rest(clause)


def _in_new_brine(state: ReadingState, clause: Clause) -> bool:
    """ "Drain, make a fresh brine with the rest of the salt and leave for a week": what was brined before."""
    made, before = state.mixture, state.happened[-1] if state.happened else None
    if before is None or before.kind != "brine" or not before.drained or made.closed:
        return False
    return made.sentence == clause.sentence and is_of_salt_water(state, made.lines)


_REST = re.compile(r"\bin(?:to)? the (?:rest\b(?! of)|(?:other|remaining|second) half\b)", re.IGNORECASE)


def _in_the_rest(clause: Clause) -> bool:
    """ "The pork lies in the other half": of what was stirred last."""
    return clause.has("rest", "half") and _REST.search(clause.text) is not None


_COATS = frozenset({"flour", "egg", "bread"})


def is_coated(state: ReadingState, clause: Clause) -> bool:
    """Whether what food is rolled or dipped in is a coating: flour, egg or crumbs, named or stirred last."""
    around = {*state.lines_of(clause), *(() if state.mixture.closed else state.mixture.lines)}
    return not _COATS.isdisjoint(map(state.kind, around))


def lies_in_liquid(state: ReadingState, clause: Clause) -> bool:
    """ "Let the tofu sit in the soy sauce", "turn the chicken in the yoghurt"."""
    behind = (m for m in clause.mentions if m.kind == "line" and m.prep in INSIDE and m.i <= clause.aim)
    return any(state.kind(n) in _LIQUIDS for m in behind for n in m.lines)


_LIQUIDS = frozenset({"savoury", "acid", "milk", "wine"})


def lies_under_salt(state: ReadingState, clause: Clause) -> bool:
    """ "Leave the aubergines under the salt for half an hour", "fish under the salt, one night", "let them
    sweat with salt"."""
    if clause.act not in ("hold", "let", "") or "line" not in clause.speaks or not clause.hours:
        return False
    behind = [m for m in clause.mentions if m.lines and m.prep in _UNDER]
    salts = (all(state.kind(n) == "salt" for n in m.lines) for m in behind if m.prep in INSIDE)
    return any(salts) or (bool(behind) and all(state.kind(n) == "salt" for m in behind for n in m.lines))


_UNDER = INSIDE | {"with"}


_ONCE_MORE = re.compile(r"\b(?:(?<!now and )again|last time|once more|another)\b", re.IGNORECASE)
"""Food that lies there is turned and lies as long once more: "turn it again and leave it half an hour"."""


def lies_once_more(clause: Clause) -> bool:
    """ "Then refrigerate for a day": its time comes to that of before."""
    then = clause.tokens[0].text == "then" and clause.act == "hold"
    return then or _ONCE_MORE.search(clause.sentence) is not None


_FREEZES = frozenset({"freeze", "freezes", "freezer", "frozen"})
_A_DAY_H = 24.0


def is_stored(clause: Clause) -> bool:
    """ "Store it chilled for as long as a week", "freezes for 3 months": how long a dish keeps."""
    if not _FREEZES.isdisjoint(clause.words) and clause.hours and clause.hours[0].likely > _A_DAY_H:
        return True
    limits = {"up", "to"} <= clause.words or {"as", "long"} <= clause.words
    return clause.base in ("store", "keep", "freeze") and limits


def is_of_another_food(state: ReadingState, clause: Clause) -> bool:
    """ "Two minutes is right for kale", while meat waits under its salt: that time is none of its."""
    named = state.solids(clause).keys()
    return state.pending is not None and bool(named) and named.isdisjoint(state.pending.foods)


def is_waiting(clause: Clause) -> bool:
    """ "Leave it to stand", "into the fridge": what was put in stays there."""
    return clause.act == "hold" or clause.has(
        "refrigerate", "marinate", "overnight", "fridge", "stand", "sit", "chill", "leave"
    )


def into_marinade(state: ReadingState, clause: Clause) -> bool:
    """ "Add the radishes to the jar", where what the list calls a marinade was stirred: they wait in it."""
    named = state.solids(clause, direct=True) or state.last_foods
    foods = {n: 1.0 for n in named if state.kind(n) == "vegetable"}
    stirred = {n: s for n, s in state.mixture.shares().items() if n not in foods}
    of_list = stirred.keys() <= state.named["marinade"].lines.keys()
    if state.mixture.closed or not (foods and stirred and of_list):
        return False
    kind = kind_of_bath("marinade", set(map(state.kind, stirred)), watery=state.mixture.water is not None)
    state.pending = Happening(kind, clause, foods=foods, liquid=stirred, water=state.mixture.water)
    state.pending.take_time(clause)
    return True


def is_with(clause: Clause) -> bool:
    """ "Mix with the yoghurt and salt": what is mixed is what was spoken of before."""
    lines = [m for m in clause.mentions if m.kind == "line"]
    return bool(lines) and all(m.prep in ("with", "in") for m in lines)


def lays_in(state: ReadingState, clause: Clause) -> bool:
    """ "Lay them in the vinegar for 30 minutes": what was spoken of last goes into what is named."""
    puts = clause.act == "put" and ("it" in clause.speaks or (bool(clause.hours) and lays_unsaid(clause)))
    if not (clause.act == "hold" or puts):
        return False
    behind = {n for m in clause.mentions if m.prep in ("in", "into", "under") for n in m.lines}
    wet = any(state.kind(n) in _LIQUIDS for n in behind)
    return wet and bool(set(map(state.kind, state.last_foods or state.main_foods())) & PROTEINS)


def lays_unsaid(clause: Clause) -> bool:
    """ "Cut up the chicken and lay in the buttermilk for 2 hours": what is laid is left out."""
    return bool(clause.hours and clause.mentions) and clause.mentions[0].prep in INSIDE


def is_spoken_of(clause: Clause) -> bool:
    """ "Put it in", "stir in the cubes": they go into what was stirred."""
    return clause.act == "put" or (clause.act == "mix" and clause.has("in"))


def goes_in_bare(clause: Clause) -> bool:
    """ "Slice the chicken and stir in", "cut up the meat and add": into what was stirred before."""
    return not clause.mentions and (clause.base == "add" or (clause.act == "mix" and clause.has("in")))


def named_in(state: ReadingState, clause: Clause) -> dict[int, float]:
    """The food that a clause puts in a bath."""
    behind, named = _apart(clause), state.solids(clause).items()
    if clause.act in ("mix", "coat") and named and not state.solids(clause, direct=True):
        meat = not PROTEINS.isdisjoint(map(state.kind, state.last_foods))
        behind += ("with", "in") if meat else ()  # "cut the meat, mix with onions, salt and kefir"
    apart = {n for m in clause.mentions if m.prep in behind for n in m.lines}
    lying = lie_in_baths(state) if named else frozenset()
    solids = {n: s for n, s in named if state.kind(n) in lying and n not in apart}
    if not solids and "all" in clause.speaks:
        solids = {n: s for n, s in state.lines_of(clause).items() if state.kind(n) in PROTEINS}
    return solids


def _apart(clause: Clause) -> tuple[str, ...]:
    """Behind which words no food of a bath stands: not "from", nor "the broth with the onion over them"."""
    if clause.is_of_it():
        return ("from", "with", "in", "into")
    over = clause.base in ("pour", "spoon")
    over = over and any(m.kind == "it" and m.prep in _OVER for m in clause.mentions)
    return ("from", "with") if over else ("from",)


_OVER = frozenset({"over", "on", "onto"})


_SALTED_H, _SOURED_H = 1.0, 0.08


def shortest_wait(state: ReadingState, pending: Happening) -> float:
    """Hours from which on food lies in what it was put in: meat under salt long, raw fish in lime juice some
    minutes."""
    kinds = set(map(state.kind, pending.foods))
    if pending.kind == "dry_cure" and kinds & PROTEINS:
        return _SALTED_H
    soured = pending.kind == "marinate" and kinds <= _SOURED and set(map(state.kind, pending.liquid)) >= _SOUR
    return _SOURED_H if soured else SHORT_H


_SOURED, _SOUR = frozenset({"fish", "seafood"}), frozenset({"acid", "salt"})
