"""Liquor: another food that boils in what an earlier one was boiled in."""

from __future__ import annotations

import re

from .clause_words import is_afresh, strength_of
from .clauses import Clause
from .happenings import LIQUIDS, POURED_WITHOUT_WORD, PROTEINS, Happening, Water
from .late_comers import begin_pot, part_late
from .method_words import BOILS, phrasing
from .poured import boils_cured
from .reading_state import HOT, ReadingState
from .stakes import is_salty
from .waters import salts_of, water_for

_LIQUOR = phrasing("in_liquor")
TO_LIQUOR = BOILS | {"put", ""}
"""Acts by which food comes to boil in what another was boiled in."""
_PUT_IN = phrasing("into_liquor")


def goes_into_liquor(clause: Clause) -> bool:
    """Whether a clause puts or heats something in "the broth", so that it is not yet a soup by that word."""
    said = _LIQUOR if clause.act in BOILS or not clause.act else _PUT_IN if clause.act == "put" else None
    return said is not None and bool(said.search(clause.text))


def in_one_pot(state: ReadingState, clause: Clause, before: Happening, foods: dict[int, float]) -> None:
    """ "In the same water cook the pasta": another food in the pot of an earlier one."""
    if before.eaten == 1.0 and _was_kept_to_boil(state, before, foods):
        before.drained, before.eaten, before.kept_ml = True, None, None
    first = before.same_as or before
    pot = Happening(before.kind, clause, foods=foods, heated=True, same_as=first)
    first.liquid |= {n: s for n, s in salts_of(state, clause).items() if n not in foods}
    begin_pot(state, pot, clause)
    state.pot = pot


def _was_kept_to_boil(state: ReadingState, before: Happening, foods: dict[int, float]) -> bool:
    """ "Lift out the asparagus, keep the water, and poach the trout in it": kept for that, and no broth;
    as is that of salt cod in which potatoes boil."""
    boiled = {*map(state.kind, before.foods)} <= POURED_WITHOUT_WORD and before.water is not None
    if all(is_salty(state.lines[n]) for n in before.foods):
        boiled = {*map(state.kind, foods)} <= POURED_WITHOUT_WORD
    next_to_boil = {*map(state.kind, foods)} <= POURED_WITHOUT_WORD | {"fish", "seafood"}
    return boiled and next_to_boil and not state.is_soup


_BACK = phrasing("pot_comes_back")


def comes_back(clause: Clause) -> bool:
    """ "Return the pot of salted water to a boil": the water in which something boiled before."""
    return bool(_BACK.search(clause.text))


def again_in_it(clause: Clause, before: Happening) -> Happening:
    """A pot that waits for other food in the water of an earlier one, which was kept for that."""
    before.drained, before.eaten, before.kept_ml = True, None, None
    return Happening(before.kind, clause, heated=True, same_as=before.same_as or before)


def boiled_in_liquor(state: ReadingState, clause: Clause) -> bool:
    """ "Cook the cabbage in the poaching liquid", after something else: in one pot."""
    waits = state.pot is not None and not (state.pot.foods or state.pot.closed)
    before = None if waits else _pot_of(state, clause)
    if before is None or (clause.act == "put" and not leaves_liquor_open(state, clause)):
        return False
    new = _new_foods(state, clause, before)
    if new:
        in_one_pot(state, clause, before, new)
    return bool(new)


_BOILED = PROTEINS | {"vegetable", "potato", "egg", "pasta", "legume", "grain"}
_NEW = frozenset({"fresh", "clean", "cold", "another", "new", "unsalted", "ice", "iced"})
_IN = frozenset({"in", "into", "to"})


def next_in_the_water(state: ReadingState, clause: Clause) -> bool:
    """ "Slide the trout into the hot water", "lower it into the same pot": what the first food was lifted out
    of boils the next."""
    if clause.negated or state.is_soup:
        return False
    pot = state.latest(("boil", "simmer"))
    if pot is None or not pot.lifted:
        return False
    into = (m for m in clause.mentions if m.prep in _IN)
    kept = pot.eaten == 1.0 or "water" in clause.sentence.partition(clause.text)[0]
    them = ("water", "it") if kept else ("water",)  # "keep the water. Slip the trout into it"
    wet = any(m.kind in them or (m.kind == "vessel" and m.name == "pot") for m in into)
    wet = wet or _goes_in_after(state, clause, pot) or _takes_its_turn(state, clause, pot)
    if not wet or is_afresh(clause) or not _NEW.isdisjoint(clause.words):
        return False
    new = {n: s for n, s in state.solids(clause, direct=True).items() if n not in pot.foods}
    if not new or not set(map(state.kind, new)) <= _BOILED:
        return False
    in_one_pot(state, clause, pot, new)
    return True


_LIFTED = re.compile(r"\b(?:out|lift|remove|scoop|fish)\b", re.IGNORECASE)


def _goes_in_after(state: ReadingState, clause: Clause, pot: Happening) -> bool:
    """ "Scoop the broccoli out and put the pasta in": into the water that was just left."""
    if clause.base not in _PUTS or clause.speaks != {"line"} or not clause.words.isdisjoint(_WARMED):
        return False
    boiled = {*map(state.kind, pot.foods), *map(state.kind, state.solids(clause, direct=True))}
    lifted = _LIFTED.search(clause.sentence.partition(clause.text)[0])
    return lifted is not None and boiled <= POURED_WITHOUT_WORD and state.last_heat in ("boil", "simmer")


def _takes_its_turn(state: ReadingState, clause: Clause, pot: Happening) -> bool:
    """ "Lift out the beans. Then the cabbage for 2 minutes", "the pasta goes in next, and wants 11"."""
    said = clause.hours or not _TURNS.isdisjoint(clause.words)
    if not said or clause.base not in _IN_TURN or pot is not state.happened[-1]:
        return False
    near = clause.method - pot.clause.method in (0, 1) and state.last_heat in ("boil", "simmer")
    if not near or not clause.speaks <= {"line", "it"} or not clause.words.isdisjoint(_ELSEWHERE):
        return False
    new = state.solids(clause, direct=True)
    boiled = {*map(state.kind, pot.foods), *map(state.kind, new)} <= POURED_WITHOUT_WORD
    return boiled and new == state.lines_of(clause)


_TURNS = frozenset({"next", "then"})
_IN_TURN = frozenset({"", "put", "add", "drop", "tip", "slide", "go", "follow", "get"})
_ELSEWHERE = frozenset(
    {"pan", "oven", "bowl", "fry", "fried", "cold", "ice", "roast", "grill", "cooked", "raw"}
)
_PUTS, _WARMED = frozenset({"put", "add", "drop", "tip", "slide"}), frozenset({"cooked", "drained"})


def is_salted_anew(clause: Clause, before: Happening) -> bool:
    """ "Boil the pasta in salted water (same pan)", after water that held no salt: new water in that pan."""
    plain = before.water is not None and not before.water.is_salted
    return before.drained and plain and bool(strength_of(clause))


def leaves_liquor_open(state: ReadingState, clause: Clause) -> bool:
    """Whether a clause boils in a liquor what nobody eats with its water, so that "in the stock" does not say
    that the stock is eaten. What is put into a broth is taken for a stew, unless it is that of a ham."""
    pot = _pot_of(state, clause)
    if pot is None or state.is_soup or (clause.act == "put" and not boils_cured(pot, state)):
        return False
    new = set(map(state.kind, _new_foods(state, clause, pot)))
    return bool(new) and new <= POURED_WITHOUT_WORD


def poured_at_last(state: ReadingState) -> None:
    """What is poured off its last food is poured off all that boiled in it before."""
    part_late(state)
    for each in state.happened:
        if each.same_as is not None and each.drained:
            each.same_as.drained, each.same_as.eaten = True, None


def _pot_of(state: ReadingState, clause: Clause) -> Happening | None:
    """The pot whose liquor a clause heats food in; none whose water was poured off already."""
    if clause.negated:
        return None
    said = ("back" in clause.words and _is_next(clause)) or goes_into_liquor(clause)
    pot = state.latest(("boil", "simmer")) if said else None
    if pot is None or state.lines_of(clause, LIQUIDS):
        return None
    if clause.act == "put" and not pot.lifted:
        return None
    gone = pot.drained and not pot.lifted and pot.kept_ml is None and not pot.eaten
    return None if gone else pot


def _is_next(clause: Clause) -> bool:
    """ "Bring the water back to the boil for the pasta": it boils in that water next."""
    return clause.act in BOILS and "for" in clause.words and comes_back(clause)


def _new_foods(state: ReadingState, clause: Clause, pot: Happening) -> dict[int, float]:
    solids = state.solids(clause, direct=not ("back" in clause.words and _is_next(clause)))
    if not clause.act and not solids:
        solids = dict.fromkeys(state.last_foods, 1.0)  # "potatoes next, in the same water"
    return {line: share for line, share in solids.items() if line not in pot.foods}


_AGAIN = frozenset({"start", "begin", "fill", "cover", "top", "repeat"})


def start_again(state: ReadingState, clause: Clause) -> bool:
    """ "Start again with fresh water, the carrot and onion": the same meat in another water."""
    before = state.latest(HOT)
    if before is None or clause.base not in _AGAIN or _BOILS_AGAIN.search(clause.text):
        return False
    if state.water_of(clause) is None and not (clause.base in ("fill", "cover", "top") and before.closed):
        return False
    pot = Happening("boil", clause, foods=dict(before.foods), heated=True)
    lines = state.lines_of(clause)
    pot.liquid = {n: s for n, s in lines.items() if state.kind(n) in LIQUIDS or state.kind(n) == "salt"}
    pot.extra = lines.keys() - pot.liquid.keys() - pot.foods.keys()
    pot.water = water_for(state, clause)
    pot.take_time(clause)
    before.drained = before.closed = True
    state.pot = state.begin(pot)
    return True


_BOILS_AGAIN = re.compile(r"\b(?:boils?|simmers?|boiling) again\b", re.IGNORECASE)
_NEW_WATER = re.compile(r"\bchang\w* (?:the|its|their) water\b|\b(?:fresh|new|clean) water\b", re.IGNORECASE)


def in_new_water(state: ReadingState, clause: Clause) -> bool:
    """ "Change the water and cook them for an hour": what has soaked boils."""
    if clause.act not in ("boil", "cook", "simmer") or clause.negated or state.solids(clause, direct=True):
        return False
    soaked = state.happened[-1] if state.happened else None
    if soaked is None or not soaked.foods.keys() & set(state.last_foods):
        return False
    if soaked.kind not in ("soak", "brine") and (soaked.heated or not soaked.drained):
        return False
    said = clause.sentence[: max(clause.sentence.find(clause.text), 0)]
    if not _NEW_WATER.search(said):
        return False
    soaked.drained = soaked.closed = True
    pot = Happening("boil", clause, foods=dict(soaked.foods), heated=True, water=Water())
    beside = (n for n in state.lines_of(clause) if state.kind(n) in ("vegetable", "meat"))
    pot.extra = set(beside) - soaked.foods.keys()
    state.pot = state.begin(pot, clause)
    return True


def poached_in_milk(state: ReadingState, clause: Clause) -> bool:
    """ "Warm the milk with the onion; slide in the cod": the milk is eaten unless it is thrown away."""
    mixture = state.mixture
    kinds = set(map(state.kind, mixture.lines)) if mixture.heated and not mixture.closed else set()
    foods = state.solids(clause, direct=True)
    if "milk" not in kinds or not kinds <= _WARMED_WITH or not foods:
        return False
    if not {"fish", "seafood"}.issuperset(map(state.kind, foods)):
        return False
    pot = Happening("simmer", clause, foods=foods, liquid=mixture.shares(), heated=True)
    pot.extra |= mixture.lines.keys()
    state.pot = state.attention = state.begin(pot, clause)
    mixture.closed = True
    return True


_WARMED_WITH = frozenset({"milk", "water", "salt", "spice", "herb", "aromatic", "vegetable"})
