"""Which pot a line of salt is for, where several boil or the dish is seasoned of it, and what salts a pot;
and which a line of water is for that no clause was seen to pour out."""

from __future__ import annotations

import re
from collections.abc import Sequence

from .clause_words import strength_of
from .clauses import Clause
from .covered import soda_of
from .happenings import Happening, Water
from .left_to_the_cook import grams_roughly
from .listed import ListedLine
from .mention import Mention
from .prose_tokens import tokenize
from .reading_state import HOT, ReadingState
from .salt_beside import SEASONS_TOO, seasons_somewhere
from .strained import SIEVED_FOR_ITSELF
from .unnamed_baths import unspoken_salt
from .waters import LARGE_POT, is_pinch, salt_beside, salt_into_pot, salt_of_pot, salts_of
from .weights_told import per_litre_g

_FLAKY = frozenset({"flaky", "flake", "flaked", "finishing", "fleur", "smoked"})
"""Salt that is strewn on at the table and salts no pot."""


def salted_pots(state: ReadingState) -> int:
    """How many pots are of salted water that no clause gives salt to."""
    pots = (h for h in state.happened if h.kind in HOT and h.same_as is None and h.water)
    kind = state.kind
    salted = [h for h in pots if h.water and h.water.strength and not h.water.salt]
    return max(sum(not any(kind(n) == "salt" for n in h.liquid) for h in salted), 1)


def pot_meant(state: ReadingState, line: ListedLine) -> Happening | None:
    """The pot that a line is for: of the food that it names, or of salted water, or the first."""
    pots = [each for each in state.happened if each.kind in HOT]
    if len(pots) < 2:
        return pots[0] if pots else None
    words = {t.stem for t in tokenize(line.text)}
    known = state.lines
    named = (h for h in pots if any(words & {*known[n].words, known[n].kind} for n in h.foods))
    salted = (h for h in pots if line.index in h.liquid or (h.water and h.water.is_salted))
    return next(named, None) or next(salted, None) or pots[0]


def salt_of_both(state: ReadingState) -> int | None:
    """The line "salt", without an amount, that salts a pot of "salted water" and the dish as well."""
    salts = (state.lines[n] for n in state.index.of_kinds("salt"))
    free = (n for n in salts if not (n.purpose or n.heading or _FLAKY & set(n.words)))
    vague = (n for n in free if n.line.amount is None)
    return next((line.index for line in vague), None)


def with_its_salt(state: ReadingState, clause: Clause, lines: dict[int, float]) -> dict[int, float]:
    """The lines of a pot: no salt in unsalted water, and what is left of it where it says "with the rest"."""
    if clause.has("unsalted"):
        return {n: s for n, s in lines.items() if state.kind(n) != "salt"}
    if clause.has("rest") and "salt" not in map(state.kind, lines):
        return lines | {n: -1.0 for n in state.index.of_kinds("salt") if state.spoken.get(n)}
    return lines


def of_its_section(state: ReadingState, clause: Clause) -> dict[int, float]:
    """ "Boil water with the other ingredients", of those that the list has under "Water for boiling"."""
    if {"rest", "all"}.isdisjoint(clause.speaks):
        return {}
    return {line.index: 1.0 for line in state.index.lines if line.purpose == "pot" and line.heading}


def salted(state: ReadingState, clause: Clause, pot: Happening) -> bool:
    """ "Salt the water", "add 2 tbsp salt": for a pot that waits."""
    if pot.closed or clause.act not in ("put", "season", "mix", "coat", "other", "", "let"):
        return False
    tosses = clause.base == "toss" and [token.text for token in clause.tokens[1:2]] != ["in"]
    if clause.negated or tosses:  # "boil the potatoes. Toss with the salt"
        return False
    if state.bath_said(clause) is not None and clause.act == "mix":
        return False  # "make the brine with the salt"
    if clause.act == "mix" and pot.foods and _in_other_water(state, clause):
        return False
    if "all" in clause.speaks and not clause.has("salt"):
        return False  # "toss everything": what was salted already, the salt among it
    salts, said = salts_of(state, clause), state.salt_said(clause) or clause.base == "salt"
    if clause.base == "salt" and not salts:  # "bring the water to the boil, salt it"
        salts = salt_beside(state, (n for n in pot.liquid if state.kind(n) == "water"))
    if not salts and not said:
        return False
    water = clause.has("water") and not clause.has("reserved", "saved")
    about_water = water or clause.has("pot") or clause.base == "salt" or _seasons_it(state, pot, clause)
    if not about_water and (is_pinch(clause) or (not pot.foods and state.attention is not pot)):
        return False  # "add a pinch of salt", to the sauce meanwhile
    others = (
        state.lines_of(clause, _STIRRED_ELSEWHERE if clause.act == "mix" else _OF_COATS).keys()
        - soda_of(state, clause).keys()
    )
    cold = not pot.heated and state.attention is pot and clause.act in ("season", "put", "mix")
    if cold and clause.vessel() not in ("pan", "bowl"):  # "cover with water, add a bay leaf and salt"
        others = {n for n in others if state.kind(n) not in ("herb", "spice", "aromatic")}
    only_salt = not state.solids(clause) and not others  # not "whisk the flour and salt", meanwhile
    goes_along = clause.act in ("put", "mix") or clause.tokens[0].text == "with"
    only_this = only_salt and (goes_along or cold) and state.attention is pot
    if pot.foods and not water and not only_this:
        return False
    if not about_water and not only_salt:
        return False
    if clause.hours and pot.foods:
        pot.take_time(clause)  # "stir in a teaspoon of salt, 20 minutes"
    if salts:
        pot.liquid.update(salts)
        if clause.base == "dissolve" and (own := state.lines_of(clause, ("water",))):
            pot.liquid, pot.water = pot.liquid | own, None  # "dissolve the salt in the water" of the list
    else:
        its_water = pot.water or Water()
        its_water.strength = strength_of(clause) if "very" in strength_of(clause) else "salted"
        its_water.salt = salt_of_pot(clause, "salted") or its_water.salt
        its_water.salted_at = clause.place
        pot.water = its_water
    return True


def _in_other_water(state: ReadingState, clause: Clause) -> bool:
    """ "Mix the salt with a cup of boiling water": in some of its own, and not in that of the pot."""
    water = state.water_of(clause)
    if water is None or water.kind != "water" or not water.prep:
        return False
    before = {token.text for token in clause.tokens[max(water.i - 2, 0) : water.j]}
    return before.isdisjoint(_OF_POT)


_OF_POT = frozenset({"the", "its", "their", "this", "that", "same", "your"})
_OF_COATS = ("spice", "herb", "flour")
_STIRRED_ELSEWHERE = (*_OF_COATS, "milk", "aromatic", "acid", "sweet", "oil", "savoury", "wine")
"""What goes into no pot of water that boils: with salt it is stirred to a dressing meanwhile."""


def _seasons_it(state: ReadingState, pot: Happening, clause: Clause) -> bool:
    """ "Boil a pot of water and season it with a few pinches of salt": the water."""
    return (
        state.attention is pot
        and not pot.foods
        and pot.clause.sentence == clause.sentence
        and clause.act == "season"
        and "it" in clause.speaks
    )


_POT_G = 700.0
"""Water of a list, g, from which on it may be all of a pot; common practice, no source."""
_WITH_WATER = frozenset({"salt", "oil", "water"})


def give_listed_water(state: ReadingState) -> None:
    """ "400 g penne, 1.5 l water, 1 tbsp salt" of a list, and "cook the penne" of the method: a potful that
    stands beside what boils is its pot's, though the method speaks of other water before."""
    taken = {n for each in state.happened for n in each.liquid}
    for water in sorted(state.waters - taken):
        if (grams_roughly(state.lines[water]) or 0.0) < _POT_G:
            continue
        beside = _lines_beside(state, water)
        for pot in state.happened:
            if beside.isdisjoint(pot.foods) or not _lacks_water(state, pot):
                continue
            salted = "salt" in map(state.kind, pot.liquid)
            salts = {} if salted else salt_beside(state, (water,))
            pot.liquid |= {n: s for n, s in salts.items() if n not in taken} | {water: 1.0}
            pot.water = None
            break


def _lacks_water(state: ReadingState, pot: Happening) -> bool:
    """Whether a pot of what is drained has no more water than "salted water", of no amount."""
    said = pot.water is not None and (pot.water.amount not in ("", LARGE_POT) or pot.water.salt)
    if pot.kind not in HOT or pot.same_as or said:
        return False
    if not {state.kind(n) for n in pot.foods} <= SIEVED_FOR_ITSELF:
        return False
    return {state.kind(n) for n in pot.liquid} <= {"salt", "oil"}


def _lines_beside(state: ReadingState, line: int) -> set[int]:
    """The lines of food that stand next to a line, but for its salt."""
    order = [n.index for n in state.index.lines if n.heading == state.lines[line].heading]
    at, found = order.index(line), set[int]()
    for part in (reversed(order[:at]), order[at + 1 :]):
        found |= set(next(([n] for n in part if state.kind(n) not in _WITH_WATER), ()))
    return found


_UNSALTED = frozenset({"noodle", "soba", "udon", "ramen", "somen", "dumpling", "gyoza", "wonton"})
"""Words of pasta whose water is plain as a rule."""


UNSEASONED = "no clause seasons the dish"


def give_unspoken_salt(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """Salt of the list that no clause speaks of, where none seasons: it goes into the pot that is said to be
    salted, or, where nobody says how the water is, into that of pasta."""
    _give_salt_of_part(state)
    for pot in state.happened:
        plain = pot.water is None or not pot.water.salt
        if pot.kind in HOT and pot.drained and plain and not _holds_salt(state, pot):
            _give_other_half(state, pot)
            _give_late_salt(state, clauses, pot)
    _give_salt_in_the_water(state, clauses)
    seasons = seasons_somewhere(state, clauses)
    if not seasons and not {"all", "rest"} & set().union(*[clause.speaks for clause in clauses]):
        state.hints.add(UNSEASONED)  # and no clause stirs in "the remaining ingredients"
    free = [state.lines[n] for n in state.index.of_kinds("salt") if not state.spoken.get(n)]
    for line in (each for each in free if per_litre_g(each.text) is not None):
        for pot in (h for h in state.happened if h.kind in HOT and h.water and h.water.is_salted):
            pot.liquid[line.index] = 1.0  # "salt, 10 g per litre", of a pot of salted water
    if not free or seasons:
        return
    for pot in (h for h in state.happened if h.kind in HOT and h.water and per_litre_g(h.water.salt)):
        pot.liquid |= dict.fromkeys((n.index for n in free if n.line.amount is None), 1.0)
        return  # "in water salted at 10 g a litre", of a line "salt"
    pots = [h for h in state.happened if h.kind in HOT and h.water and not h.water.salt]
    pots = [h for h in pots if not any(state.kind(n) == "salt" for n in h.liquid)]
    if not any(h.water and h.water.strength for h in pots):
        for pot in pots:
            if pot.water and any(_UNSALTED.isdisjoint(state.lines[n].words) for n in _pasta(state, pot)):
                pot.water.strength = "salted"
    baths = [h for h in state.happened if h.kind == "brine" and h.water and not (h.water.salt or h.liquid)]
    if lone := unspoken_salt(state) if len(baths) == 1 and not pots else {}:
        baths[0].liquid, baths[0].water = lone, Water(amount=baths[0].water.amount if baths[0].water else "")
        return
    vague = salt_of_both(state)
    if vague is None or all(line.index != vague for line in free) or _is_for_the_dish(state.lines[vague]):
        return
    for pot in (*pots, *baths):
        if pot.water and pot.water.strength:
            pot.liquid[vague] = 1.0


def _holds_salt(state: ReadingState, pot: Happening) -> bool:
    return "salt" in map(state.kind, pot.liquid)


_OTHER_HALF = re.compile(
    r"\bwith (?:the |its )?(?:other|remaining|rest|second|remainder|last)\b", re.IGNORECASE
)


def _give_other_half(state: ReadingState, pot: Happening) -> None:
    """ "Boil the potatoes with half the salt, the beans with the other half": what the first pot has left."""
    if _OTHER_HALF.search(pot.clause.text) is None:
        return
    for salt in state.index.of_kinds("salt"):
        used = sum([h.liquid.get(salt, 0.0) for h in state.happened])
        if 0.0 < used < 1.0:
            pot.liquid[salt] = round(1.0 - used, 6)
            return


def _give_salt_in_the_water(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """ "Cook and drain the pasta (salt in the water, please)": said aside, with no verb."""
    salts = state.index.of_kinds("salt")
    free = {n for n in salts if not any(n in h.liquid for h in state.happened)}
    for clause in clauses if len(salts) == 1 and free else ():
        if clause.negated or "salt" not in clause.words or not _IN_THE_WATER.search(clause.sentence):
            continue
        pots = [h for h in state.happened if h.kind in HOT and h.water and not _holds_salt(state, h)]
        near = [h for h in pots if abs(h.clause.method - clause.method) <= 1]
        if near:
            near[0].liquid |= dict.fromkeys(free, 1.0)
            return


_IN_THE_WATER = re.compile(
    r"\bsalt (?:goes |is )?in(?:to)? (?:the|its|their) (?:\w+ )?water\b", re.IGNORECASE
)


_ADDS_LATE = frozenset({"put", "season", "mix", "", "other", "coat"})
_ENDS_POT = frozenset({"drain", "discard", "remove", "rinse"})


def _give_late_salt(state: ReadingState, clauses: Sequence[Clause], pot: Happening) -> None:
    """ "Simmer the beans until nearly tender, add the salt, cook 10 minutes more and drain"."""
    salts = set(state.index.of_kinds("salt"))
    free = salts - {n for h in state.happened for n in h.liquid}
    if not free:
        return
    unsaid = {n for n in free if state.lines[n].line.amount is not None or not state.spoken.get(n)}
    later = list(clauses[clauses.index(pot.clause) + 1 :]) if pot.clause in clauses else []
    ends = next((i for i, c in enumerate(later) if c.act in _ENDS_POT and not c.negated), 0)
    if not ends or later[ends].method - pot.clause.method > 1:
        return
    for clause in (c for c in later[:ends] if not c.negated):
        said = {n for m in clause.mentions for n in m.lines}
        if said - salts - pot.foods.keys():
            return  # something else is worked on, while it boils
        given = said & free or (unsaid if clause.base == "salt" and len(salts) == 1 else set())
        if given and clause.act in _ADDS_LATE:
            if said & free or not all(_seasons_as_well(state, n) for n in given):
                pot.liquid |= dict.fromkeys(given, 1.0)
            elif pot.water is not None:
                pot.water.strength = pot.water.strength or "salted"
            return


def _seasons_as_well(state: ReadingState, salt: int) -> bool:
    """ "Cover with water, salt it … mash with the butter and salt": the line "salt" is of both."""
    return state.lines[salt].line.amount is None and state.spoken.get(salt, 0) > 0


def give_salt_beside_water(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """ "600 g kale, 2 l water, 20 g salt" of a list, and "boil the kale in the water" of the method."""
    unspoken = any(n not in state.spoken for n in state.index.of_kinds("salt"))
    for pot in state.happened if unspoken and not seasons_somewhere(state, clauses) else ():
        waters = [n for n in pot.liquid if state.kind(n) == "water"]
        if pot.kind in HOT and pot.water is None and "salt" not in map(state.kind, pot.liquid):
            salts = salt_beside(state, waters)
            pot.liquid |= {n: s for n, s in salts.items() if any(abs(n - w) == 1 for w in waters)}


def _give_salt_of_part(state: ReadingState) -> None:
    """ "# For the pasta: 400 g linguine, salt": what a list has in the part of what boils, and for the dish
    once more or not at all, salts its water."""
    salts = state.index.of_kinds("salt")
    vague = [n for n in salts if state.lines[n].line.amount is None and state.lines[n].heading]
    for line in (state.lines[n] for n in vague):
        part = {token.stem for token in tokenize(line.heading)}
        if line.purpose or _is_for_the_dish(line) or (state.spoken.get(line.index) and len(salts) == 1):
            continue
        for pot in state.happened:
            water = pot.water
            if pot.kind not in HOT or water is None or water.salt or water.said_plain:
                continue
            own = [state.lines[n] for n in pot.foods if state.lines[n].heading == line.heading]
            if "salt" in map(state.kind, pot.liquid) or part.isdisjoint(
                w for n in own for w in (n.kind, *n.words)
            ):
                continue
            pot.liquid[line.index], water.strength = 1.0, water.strength or "salted"


def _pasta(state: ReadingState, pot: Happening) -> list[int]:
    return [n for n in pot.foods if state.kind(n) == "pasta"]


def _is_for_the_dish(line: ListedLine) -> bool:
    """ "Salt and pepper", "salt to taste": what seasons, whether or not the method says so."""
    return bool(line.line.joined) or bool(SEASONS_TOO & line.line.flags)


def salt_with_water(state: ReadingState, clause: Clause, pot: Happening, water: Mention) -> None:
    """Salt a pot that has its food with what was stirred into its water: of the same line, or "the water"."""
    if water.lines:
        same = not state.mixture.lines.keys().isdisjoint(water.lines)
    else:
        same = water.i > 0 and clause.tokens[water.i - 1].text in ("the", "this", "that")
    if same and pot.foods:
        salt_into_pot(state, pot)
