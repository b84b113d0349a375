"""What shows that food has left its pot, said or not: it is cut up, mashed, or its liquid goes cold."""

from __future__ import annotations

from .clauses import Clause
from .happenings import POURED_WITHOUT_WORD, PROTEINS, Happening, Water
from .left_to_the_cook import grams_in
from .method_words import phrasing
from .reading_state import COLD, HOT, ReadingState
from .weights_told import grams_of


def cooled(state: ReadingState, clause: Clause) -> None:
    """ "Boil up vinegar, water and vegetables and let it go cold": a marinade in the making."""
    pot = state.pot
    if pot is None or not clause.has("cold", "cool", "cooled", "cools", "chilled") or clause.has("water"):
        return
    if not pot.foods:
        pot.heated = False  # what is put in now lies in it, unless it is heated again
        if set(map(state.kind, pot.liquid)) & {"savoury", "curing"}:
            state.pot = None  # and the eggs that are boiled next boil in water
        return
    kinds = set(map(state.kind, pot.liquid))
    if pot.heated and pot.water is not None and not (kinds or state.is_soup):
        cut_up(state, clause)  # "boil the potatoes and let them cool": they have left it, too
        return
    sharp = "acid" in kinds and "salt" not in kinds
    if sharp and not state.mixture.closed and set(map(state.kind, pot.foods)) <= {"vegetable"}:
        state.happened = [each for each in state.happened if each is not pot]
        state.pot, state.mixture.heated = None, True


def cut_up(state: ReadingState, clause: Clause) -> None:
    """ "Boil the beetroot, cool, peel and slice": what is cut has left its water."""
    pot = state.pot
    if pot is None or not (pot.foods and pot.heated and pot.water is not None):
        return
    named = state.solids(clause).keys()
    if set(map(state.kind, pot.foods)) <= POURED_WITHOUT_WORD and (not named or named & pot.foods.keys()):
        if state.attention is pot and not pot.extra:
            state.pour_off(pot)


_ANOTHER = phrasing("another_pot")


def moves_on(state: ReadingState, pot: Happening, clause: Clause) -> bool:
    """ "Put the macaroni, the ham and the cheese in a casserole": what boiled has left its water; "the sauce
    in a Dutch oven": and what goes there goes to no water."""
    told = pot.hours is not None or clause.method > pot.clause.method
    if not (told and pot.heated) or pot.extra or clause.vessel() != "pot" or "water" in clause.speaks:
        return False
    own = pot.foods.keys() & state.solids(clause, direct=True).keys()
    another = _ANOTHER.search(clause.text) is not None
    if own and (another or len(clause.mentions) > len(own) + 1):
        pot.closed, state.pot = True, None
    return bool(own) or another


def stays_plain(state: ReadingState, clause: Clause) -> None:
    """ "No salt in the water": that of the pot is plain."""
    said = {token.text for token in clause.tokens}
    pot = (state.pot or state.latest(HOT)) if said & {"salt", "salting"} else None
    if pot is not None and (said & {"water", "pot"} or pot.clause.sentence == clause.sentence):
        pot.liquid = {n: s for n, s in pot.liquid.items() if state.kind(n) != "salt"}
        pot.water = Water(amount=pot.water.amount if pot.water else "")


def salt_forewarned(state: ReadingState) -> None:
    """Salt for "the pasta water" of which a note speaks before there is a pot."""
    said = state.forewarned
    for pot in state.happened if said is not None else ():
        plain = pot.kind in HOT and pot.water is not None and not pot.water.salt
        if said is not None and plain and set(map(state.kind, pot.foods)) & POURED_WITHOUT_WORD:
            if "salt" not in map(state.kind, pot.liquid):
                pot.water = Water(said.strength, said.salt, pot.water.amount if pot.water else "")
                pot.liquid |= _unspoken_vague(state)


def _unspoken_vague(state: ReadingState) -> dict[int, float]:
    """The line "salt", without an amount, that no clause speaks of: it is what the method measures."""
    salts = (state.lines[n] for n in state.index.of_kinds("salt"))
    free = (
        n.index for n in salts if n.line.amount is None and not (n.line.joined or state.spoken.get(n.index))
    )
    return dict.fromkeys(free, 1.0)


def pureed(state: ReadingState, clause: Clause) -> None:
    """What is mashed has left its pot; with the liquid where the clause says so."""
    pot = state.pot
    if pot is None or not pot.foods:
        return
    if clause.base in ("mash", "crush") and set(map(state.kind, pot.foods)) <= PROTEINS:
        return  # "mash the garlic and return it", beside the beef that it cooked with
    with_it, kinds = clause.has("water", "liquid") and not clause.negated, set(map(state.kind, pot.foods))
    pulses = "legume" in kinds and (pot.water is None or kinds <= {"legume"})
    if (with_it or pulses) and not pot.drained:
        pot.eaten = 1.0  # "boil the lentils; mash": with what they boiled in
    elif clause.base in _SMOOTHS and not (pot.drained or pot.lifted) and _is_measured(state, pot):
        pot.eaten, pot.maybe = (
            1.0,
            True,
        )  # "boil the leeks in 1 l water; blend": a soup, unless a person says no
    pot.closed, state.pot = True, None


_SMOOTHS = frozenset({"blend", "puree", "purée", "liquidise", "blitz"})
_SOUP_WATER = 3.0
"""Water that somebody measures, in weights of what boils in it, up to which it may be a soup's."""


def _is_measured(state: ReadingState, pot: Happening) -> bool:
    """Whether the water of a pot of plants is told, and no more than a soup of them takes."""
    if not set(map(state.kind, pot.foods)) <= POURED_WITHOUT_WORD:
        return False
    said = grams_of(pot.water.amount) if pot.water is not None and pot.water.amount else None
    water_g = grams_in(state, pot.liquid, ("water",)) or said or 0.0
    return 0.0 < water_g <= _SOUP_WATER * grams_in(state, pot.foods)


_LAST_OF_IT = phrasing("last_of_water")


def drained_together(state: ReadingState, clause: Clause, pot: Happening) -> bool:
    """ "Drain the pasta and the beans": what is drained with the food of a pot boiled in it too.

    True of "drain off any water that is left" over bulgur, which has drunk up nearly all of it.
    """
    if _LAST_OF_IT.search(clause.text) and set(map(state.kind, pot.foods)) <= {"grain", "bread"}:
        return True
    named = state.solids(clause, direct=True)
    if pot.closed or not named.keys() & pot.foods.keys():
        return False
    for line, share in named.items():
        elsewhere = any(line in each.foods for each in state.happened)
        elsewhere = elsewhere or any(state.lines[line].words == state.lines[n].words for n in pot.foods)
        boils = state.kind(line) in POURED_WITHOUT_WORD | {"grain", "legume"}
        if boils and not elsewhere and not state.lines[line].is_canned:
            pot.foods[line] = share
    return False


def water_is_gone(state: ReadingState, clause: Clause, pot: Happening) -> None:
    """What is stirred from now on goes into none of the water that was poured off."""
    bowl = state.mixture
    if clause.act != "remove" and not pot.liquid.keys().isdisjoint(bowl.lines):
        bowl.lines = {n: s for n, s in bowl.lines.items() if n not in pot.liquid}
        bowl.closed = bowl.closed or not bowl.lines
    state.pot = None if state.pot is pot else state.pot


def adds_drained(state: ReadingState, clause: Clause, pot: Happening) -> bool:
    """ "Drain the rice and add it", once a pot of water boils: what has soaked."""
    if pot.foods or clause.act != "put" or not clause.is_of_it() or len(clause.mentions) > 1:
        return False
    soak = state.latest((*COLD, *HOT), state.last_foods) if state.last_foods else None
    return soak is not None and soak.drained and not soak.heated


def is_of_sauce(clause: Clause) -> bool:
    """ "Simmer the sauce until the pasta is ready": another pan."""
    return any(m.kind == "bath" and not m.prep for m in clause.mentions)
