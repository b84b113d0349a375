"""The method read from end to end: its clauses, each given to whom it concerns."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from .audit import liquids, review, speaks_of_liquid
from .beforehand import lines_beforehand
from .boiling import read_pot
from .clause_words import needs_no_salt, strength_of
from .clauses import Clause
from .coatings import read_coating
from .cold_baths import read_bath
from .fates import read_fate
from .hand_steps import read_handwork, read_wringing
from .happenings import PROTEINS, SALTING, SOLIDS, Happening, Water
from .held_back import hold_back
from .hours_meant import in_hours
from .left_over import find_left_over
from .left_to_the_cook import grams_roughly
from .liquors import goes_into_liquor, poured_at_last
from .listed import Index
from .mention import Mention
from .method_words import small_words
from .mixing import mix, pour_in_all_water
from .never_said import salt_crusts, use_unused_baths
from .pots_ending import salt_forewarned
from .poured import pot_is_poured
from .reading_state import COLD, HOT, ReadingState
from .references import read_reference
from .roasts import catch_juices, in_the_oven, more_time, read_roast
from .salt_of_doughs import tell_salts_apart
from .soaking import soak_instead
from .strained import leave_solids
from .suspects import is_suspect, mark, suspect
from .thrown_out import keep_what_is_used, read_thrown_out
from .unlisted import read_unlisted
from .unsettled import may_be_poured, waits_still
from .waiting import start_pending
from .waters import amount_said, salt_of_pot

_MOVES_SALT = re.compile(
    r"\b(?:salt(?:ed|ing|y)?|brin\w+|marinad\w+|marinat\w+|soak\w*|drain\w*|rins\w+|cur(?:e|ed|ing))\b",
    re.IGNORECASE,
)
_SOUPS = frozenset(
    {"soup", "stew", "broth", "chowder", "ladle", "bowls", "liquor", "chilli", "curry", "soups"}
    | {"stews", "broths", "casserole", "dal", "dhal", "bisque", "ramen", "pho", "gumbo"}
)
_MINCED = frozenset({"mince", "minced", "ground"})
_SALTY = SALTING | {"savoury", "stock", "salty"}
_LONG_H = 4.0
_COOKS = frozenset({"roast", "fry", "boil", "simmer", "cook"})
_LIES_H = 0.3
_SEASONS = ("season", "seasoning", "seasonings", "salt", "adjust", "correct")
_RUBS_IN = frozenset(
    {"rub", "coat", "season", "massage", "sprinkle", "apply", "spread", "dust", "pat", "smear"}
)
_OVEN_C = 100.0
_LONGEST_HEAT_H = 20.0
"""Hours that no roast takes: "the rest keeps for a week" is none of its time."""
_OF_WATER = re.compile(
    r"\b(?:in|into|to|for) (?:the|your|their|its) (?:pasta|cooking|boiling|potato|noodle) water\b",
    re.IGNORECASE,
)
_GOES_ON = frozenset({"", "cook", "fry", "roast", "simmer", "let", "hold"})


def watch(parted: Sequence[Clause], index: Index, title: str = "") -> ReadingState:
    """The kitchen at the end of the method, with everything that happened."""
    state = ReadingState.of(index)
    first: Clause | None = None
    soups = (clause for clause in parted if not _SOUPS.isdisjoint(clause.words))
    state.is_soup = not _SOUPS.isdisjoint(title.lower().split()) or any(map(_tells_of_soup, soups))
    clauses = _with_waters(tell_salts_apart(parted, index), state)
    for i, clause in enumerate(clauses):
        first = first or clause
        clauses[i] = in_hours(state, clause)
        _take(state, clauses[i])
    _start_ahead(state)
    use_unused_baths(state, clauses)
    salt_crusts(state, clauses)
    pour_in_all_water(state)
    leave_solids(state)
    keep_what_is_used(state)
    state.left_over += find_left_over(state, clauses)
    lines_beforehand(state, first)
    waits_still(state)
    poured_at_last(state.happened)
    salt_forewarned(state)
    for each in state.happened:
        if each.kind in HOT and each.drained and each.heated:
            _drained_with(state, each)
        elif each.kind in HOT and (
            each.drained or (each.hours and each.hours.likely >= _LONG_H and not each.heated)
        ):
            each.drained = True
            soak_instead(state, each)
        if each.kind in COLD and each.hours is None:
            each.hours = each.ahead
        listed = any(state.kind(n) == "salt" for n in each.liquid)
        if not (listed or _counts(state, each)) and each.water and each.water.is_salted:
            state.seasoned.append((each.clause, each.water.salt))
    state.happened = [
        each
        for each in state.happened
        if each.foods and (each.maybe or _counts(state, each) or may_be_poured(state, each, clauses))
    ]
    review(state, clauses)
    named = title.lower()
    state.unlisted = [each for each in state.unlisted if each[1].lower() not in named]
    return state


def _tells_of_soup(clause: Clause) -> bool:
    """Whether a clause speaks of a soup or a stew, and not of a broth that is kept or poured off."""
    said = _SOUPS & clause.words
    if goes_into_liquor(clause):
        return False
    return not said <= _BROTHS or not (clause.act in _LEAVES or _PART_OF.search(clause.text))


_BROTHS = frozenset({"broth", "broths", "liquor"})
_LEAVES = frozenset({"reserve", "discard", "drain"})
_PART_OF = re.compile(
    r"\b(?:little|some|bit|ml|cups?|ladle\w*|most|half) of (?:the|this|that) (?:\w+ )?(?:broth|liquor)"
)


def _start_ahead(state: ReadingState) -> None:
    """What was salted "the day before" lay there, though no clause says that it waits."""
    pending = state.pending
    if pending and state.ahead[0] == pending.clause.method and not state.latest(COLD, pending.foods):
        start_pending(state)


def _cook_pending(state: ReadingState, clause: Clause) -> None:
    """What was salted and is cooked as it is was only seasoned, unless it lies packed in salt."""
    pending = state.pending
    assert pending is not None
    if clause.base == "soften" and not state.lines_of(clause, ("oil",)):
        return
    acid = pending.kind == "brine" and any(state.kind(n) == "acid" for n in pending.liquid)
    if acid and not {state.kind(n) for n in pending.foods} & PROTEINS:
        return  # vegetables brought to the boil in vinegar stay in it
    if pending.clause.base in ("pack", "cover", "bury", "encase"):
        pending.take_time(clause)
    elif set(state.solids(clause) or state.last_foods) & set(pending.foods):
        if not pending.hours:
            _start_ahead(state)
        state.waited, state.pending = pending, None


def _with_waters(clauses: list[Clause], state: ReadingState) -> list[Clause]:
    """Clauses in which "water" of the tap is told from the list's: where the method also speaks of
    "the water" or of its amount, or where the list's belongs to a brine, bare "water" comes from the tap."""
    waters = set(state.index.of_kinds("water"))
    if not waters:
        return clauses
    of_baths = {line for mixture in state.named.values() for line in mixture.lines} & waters
    of_baths |= {n for n in waters if state.lines[n].heading}
    of_list = [(c, m) for c in clauses for m in c.mentions if not waters.isdisjoint(m.lines)]
    definite = any(_is_definite(c, m) or _is_stirred(c, waters) for c, m in of_list)
    little = sum(grams_roughly(state.lines[n]) or _A_POT_ML for n in waters) < _A_POT_ML
    told_apart = definite or of_baths == waters
    if not told_apart and not little:
        return clauses
    wet = {id(clause) for clause, _ in of_list}
    return [_told(state, c, waters, little, told_apart) if id(c) in wet else c for c in clauses]


def _told(state: ReadingState, clause: Clause, waters: set[int], little: bool, told_apart: bool) -> Clause:
    told = tuple(
        _tapped(state, clause, m, waters, little=little, told_apart=told_apart) for m in clause.mentions
    )
    speaks = frozenset([m.kind for m in told])
    return clause if told == clause.mentions else replace(clause, mentions=told, speaks=speaks)


_STIRRED = frozenset({"acid", "sweet", "salt", "wine", "stock", "savoury", "curing"})
_A_POT_ML = 700.0
"""Water of a list, ml, below which food does not boil in it."""
_OF_A_POT = frozenset({"boiling", "ice", "iced", "salted", "simmering", "running", "tap", "soapy"})


def _tapped(
    state: ReadingState, clause: Clause, mention: Mention, waters: set[int], *, little: bool, told_apart: bool
) -> Mention:
    if not mention.lines or not waters.issuperset(mention.lines):
        return mention
    if mention.amount is not None and state.says_more(clause, mention):
        return mention._replace(kind="water", lines=())  # "2 litres of water", of a list that has 300 ml
    if mention.amount is None and _is_fresh(state, clause, mention):
        return mention._replace(kind="water", lines=())  # "soak it in fresh water"
    if little and clause.act in ("boil", "heat") and clause.vessel() in ("pot", "pan") and clause.has("of"):
        return mention._replace(kind="water", lines=())  # "boil a wide pan of water"
    if little and mention.amount is None and mention.prep in ("", "in", "into", "under", "of", "with"):
        how = _OF_A_POT & {token.text for token in clause.tokens[max(0, mention.i - 2) : mention.i]}
        if how and not any(how & set(state.lines[n].text.lower().split()) for n in mention.lines):
            return mention._replace(kind="water", lines=())
    if _is_definite(clause, mention) or not told_apart:
        return mention
    if clause.act == "mix" or (clause.base == "bring" and clause.has("dissolve", "dissolved")):
        return mention
    of_pot = clause.act == "boil" and clause.vessel() == "pot" and clause.has("of")
    if (
        not of_pot
        and clause.act in ("heat", "boil")
        and {n for m in clause.mentions for n in m.lines if state.kind(n) in _STIRRED}
    ):
        return mention  # "warm the vinegar, water and sugar"
    return mention._replace(kind="water", lines=())


def _is_fresh(state: ReadingState, clause: Clause, mention: Mention) -> bool:
    """Whether water is said to be fresh, as no line of the list is, once the list's was spoken of."""
    how = {"fresh", "clean"} & {token.text for token in clause.tokens[max(0, mention.i - 2) : mention.i]}
    used = any(state.spoken.get(n) for n in mention.lines)
    return (
        bool(how) and used and not any(how & set(state.lines[n].text.lower().split()) for n in mention.lines)
    )


def _is_stirred(clause: Clause, waters: set[int]) -> bool:
    """Whether a clause stirs water of the list with other things of the list."""
    named = {line for mention in clause.mentions for line in mention.lines}
    return clause.act == "mix" and bool(named & waters) and bool(named - waters)


def _is_definite(clause: Clause, mention: Mention) -> bool:
    before = [token.text for token in clause.tokens[max(0, mention.i - 4) : mention.i]]
    since = max((i + 1 for i, word in enumerate(before) if word in small_words("preposition")), default=0)
    return (
        mention.amount is not None
        or mention.portion is not None
        or bool({"the", "this"} & set(before[since:]))
    )


def _take(state: ReadingState, clause: Clause) -> None:
    if clause.act == "remove" and not clause.has("heat", "oven", "lid", "fire", "flame"):
        state.taken_out |= set(state.solids(clause, direct=True) or state.last_foods)
    before, pot = len(state.happened), state.pot
    stood = mark(state) if is_suspect(clause) else None
    wet = "water" in clause.speaks or "bath" in clause.speaks
    flows = liquids(state) if wet and speaks_of_liquid(state, clause) else None
    hold_back(state, clause)
    read_unlisted(state, clause)
    read_thrown_out(state, clause)
    read_fate(state, clause)
    taken = len(state.happened) > before
    read_wringing(state, clause)
    catch_juices(state, clause)
    if not taken:
        taken = read_reference(state, clause) or read_handwork(state, clause)
        taken = taken or read_bath(state, clause) or read_pot(state, clause)
    if state.pending is not None and (clause.act in _COOKS or in_the_oven(clause)):
        _cook_pending(state, clause)
    now = state.attention
    if (
        now is not None
        and now.kind in ("fry", "roast", "smoke")
        and now.hours is None
        and clause.act in _GOES_ON
        and not (clause.hours and clause.hours[0].likely > _LONGEST_HEAT_H)
    ):
        now.take_time(clause)
    if now is not None and now.kind == "dry_cure" and now.hours is None:
        if clause.act == "roast" or (clause.celsius is not None and clause.celsius >= _OVEN_C):
            if now.clause.base in _RUBS_IN and now.ahead is None and now.eaten is None and not now.drained:
                now.absorbed = True  # a rub that goes straight on the grill is only a seasoning
            else:
                now.take_time(clause)  # packed in salt, it bakes there
    if not taken:
        read_coating(state, clause)
        read_roast(state, clause)
        more_time(state, clause)
    if not taken or clause.act in ("heat", "mix", "boil", "simmer"):
        mix(state, clause)
    opened = state.pot is not None and state.pot is not pot
    state.seasoned += _seasonings(state, clause, taken)
    if (
        not taken
        and not clause.verb
        and _MOVES_SALT.search(clause.text)
        and clause.opens
        and len(clause.tokens) > 3
    ):
        state.unread.append(clause)
    if stood is not None and (stood == mark(state) or clause.has("whatever", "leftover", "surplus")):
        suspect(state, clause)
    if flows is not None and flows == liquids(state):
        state.idle.append((clause, state.last_foods))
    state.remember(clause)
    worked_on = state.pending or (state.happened[-1] if state.happened else None)
    if not state.last_foods and worked_on is not None:
        state.last_foods = tuple(worked_on.foods)
    begun = state.happened[-1] if len(state.happened) > before else None
    state.attend(clause, begun or (state.pot if opened else None))


def _seasonings(state: ReadingState, clause: Clause, taken: bool) -> list[tuple[Clause, str]]:
    """Salt that goes into the dish and stands in no line."""
    if clause.act in ("discard", "drain", "rinse", "remove"):
        return []  # "throw it away, it is too salt for soup"
    if clause.base == "taste" and (needs_no_salt(clause) or not clause.has(*_SEASONS)):
        return []  # "taste before you salt", "taste the sauce"
    if clause.base in ("adjust", "correct") and not clause.has("seasoning", "seasonings", "salt"):
        return []
    said = state.salt_said(clause)
    if said is not None and not taken and not clause.negated and _OF_WATER.search(clause.text):
        state.forewarned = Water(strength_of(clause) or "salted", salt_of_pot(clause, "salted"))
        return []  # "I put only half the usual salt in the pasta water", of a pot that comes later
    unnamed = clause.act == "season" and not state.lines_of(clause) and not clause.has("water")
    if clause.base == "season" and clause.has("with") and not clause.has("salt", "seasoning", "salted"):
        unnamed = False  # "season with fish sauce and lime"
    if unnamed and not state.index.of_kinds("salt") and not clause.negated:
        return [(clause, amount_said(clause, "salt"))] if not taken else []
    if said is None or taken or clause.negated or said.prep == "without":
        return []
    if (
        state.water_of(clause) is not None
        and clause.has("water")
        and state.pot is not None
        and state.pot.clause is clause
    ):
        return []
    return [(clause, amount_said(clause, "salt"))]


def _drained_with(state: ReadingState, pot: Happening) -> None:
    """What came into a pot later was drained with the rest."""
    for line in pot.extra:
        (pot.foods if state.kind(line) in SOLIDS else pot.liquid).setdefault(line, 1.0)


def _counts(state: ReadingState, each: Happening) -> bool:
    if each.spent:
        return True
    if each.kind in HOT:
        return each.heated and (pot_is_poured(each, state) or _gives_to_thrown(state, each))
    if each.kind == "dry_cure" and each.absorbed:
        return False
    if each.kind == "dry_cure" and each.clause.base in ("bury", "encase"):
        return True
    kinds = {state.kind(n) for n in each.foods}
    if each.kind == "marinate" and kinds <= {"egg", "cheese"} and each.hours:
        return True
    if each.kind in ("marinate", "dry_cure") and each.eaten != 0.0 and not (each.drained or each.rinsed):
        return _lies_long(state, each)
    return True


def _gives_to_thrown(state: ReadingState, pot: Happening) -> bool:
    """Whether vegetables that are thrown away take salt out of a broth that is eaten."""
    thrown = state.thrown_out.keys() & {*pot.foods, *pot.extra, *pot.liquid}
    pot.foods |= dict.fromkeys(thrown, 1.0)
    pot.liquid = {n: s for n, s in pot.liquid.items() if n not in thrown}
    return bool(thrown) and pot.eaten == 1.0


def _lies_long(state: ReadingState, each: Happening) -> bool:
    """Whether food in a marinade or salt that is eaten with it lies there: named so, or an hour and longer.

    Mince, salad and what is stirred in passing hold all their salt either way: that is the dish.
    """
    lines = [state.lines[n] for n in each.foods if state.kind(n) in PROTEINS]
    if not lines or any(_MINCED & set(line.text.lower().replace(",", " ").split()) for line in lines):
        return False
    if each.clause.act in ("marinate", "brine", "cure", "pickle") or each.kind == "dry_cure":
        return True
    if not {state.kind(n) for n in each.liquid} & _SALTY:
        return False
    return each.hours is not None and each.hours.likely >= _LIES_H
