"""Salt that food stood under before a liquid came over it: on the food, or in the liquid."""

from __future__ import annotations

import re
from collections.abc import Collection

from .clauses import Clause
from .happenings import PROTEINS, SALTABLE, SALTING, SHORT_H, Happening
from .left_to_the_cook import grams_in
from .lying_in import INSIDE
from .meant_verbs import WASH
from .method_words import COOKS, small_words
from .reading_state import COLD, ReadingState
from .stakes import is_salty
from .times_and_sizes import Span

_OFF = re.compile(r"\b(?:reduc|remov|rid|shed|excess)\w*\b.{0,20}\b(?:moisture|water|liquid|juices?)\b", re.I)
ONTO = frozenset({"towel", "towels", "paper", "cloth", "colander", "rack", "sieve", "strainer"})
JUICE = frozenset({"moisture", "water", "liquid", "juice", "juices"})
PLANTS = frozenset({"vegetable", "potato"})
_MUCH = 0.03
"""Salt in weights of the food, above which it does not all cling to it."""


def water_runs_out(state: ReadingState, clause: Clause) -> None:
    """ "Salt the courgettes and leave them on paper to draw out moisture": what runs off is not eaten."""
    pending = state.pending
    if pending is None or pending.kind != "dry_cure" or clause.negated:
        return
    if not _runs_off(clause):
        return
    about = state.solids(clause, direct=True).keys() or set(state.last_foods)
    if not set(map(state.kind, pending.foods)) <= PLANTS or about.isdisjoint(pending.foods):
        return
    pending.take_time(clause)
    pending.liquid = {n: s for n, s in pending.liquid.items() if state.kind(n) in SALTING}
    pending.drained = pending.closed = True
    pending.eaten, state.pending = 0.0, None
    state.begin(pending)


def _runs_off(clause: Clause) -> bool:
    """ "On paper to draw out moisture", "stand upside-down for half an hour", "on paper for an hour"."""
    if not JUICE.isdisjoint(clause.words):
        return not ONTO.isdisjoint(clause.words) or _OFF.search(clause.text) is not None
    if not clause.hours or clause.act in COOKS or not _ON_HEAT.isdisjoint(clause.words):
        return False
    return not _SUCKS_UP.isdisjoint(clause.words) or _UPSIDE_DOWN.search(clause.text) is not None


_SUCKS_UP = frozenset({"towel", "towels", "paper", "cloth", "rack"})
"""On these nobody catches the juice; under a sieve it may be."""
_ON_HEAT = small_words("on_heat")
_UPSIDE_DOWN = re.compile(r"\bupside[- ]down\b|\b(?:cut|open)[- ]sides?[- ]down\b|\bface[- ]down\b", re.I)


def drips_away(state: ReadingState, clause: Clause) -> bool:
    """ "Let rest in a colander for half an hour", "tip into a colander" after that: the juice of salted
    vegetables runs off."""
    pending = state.pending
    if pending is None or not (clause.hours or (pending.hours and clause.act == "put")):
        return False
    vegetables = set(map(state.kind, pending.foods)) <= PLANTS
    return vegetables and clause.has("colander", "sieve", "strainer", "rack")


def goes_back(state: ReadingState, clause: Clause, pending: Happening) -> bool:
    """ "Meanwhile, chop the tomatoes. Rinse the slices": those that stood under salt."""
    unnamed = clause.speaks <= {"it", "water"} and clause.act in ("rinse", "dry") and state.pot is None
    return unnamed and pending.hours is not None and pending.kind == "dry_cure"


def washed_at_once(state: ReadingState, pending: Happening, clause: Clause) -> bool:
    """ "Rub the octopus with the salt, then rinse well": it is cleaned with it, and stands no longer than
    that takes; "the next day rinse it": a night."""
    if pending.clause.base not in _RUBS or "salt" not in pending.clause.words:
        return False
    if pending.kind not in ("dry_cure", "marinate") or not is_of(state, pending, PROTEINS):
        return False
    if state.latest(COLD, pending.foods) is not None:
        return False  # "skip the brine and rub it with salt instead": it is rinsed of the brine
    pending.hours = A_NIGHT if NEXT_DAY.search(clause.sentence) else A_WHILE
    return True


_RUBS = frozenset({"rub", "massage", "work", "knead"})
A_WHILE = Span(0.03, 0.08, 0.25, 0, 0)
"""Hours for which something is rubbed; common practice, no source."""
A_NIGHT = Span(8.0, 12.0, 16.0, 0, 0)
NEXT_DAY = re.compile(r"\b(?:in the|next) morning\b|\b(?:the )?(?:next|following) day\b", re.IGNORECASE)


def lay_till_next_day(state: ReadingState, clause: Clause, pot: Happening) -> bool:
    """ "Put the cod in cold water. The next day, stew it": salty food lay in water that nobody heated."""
    if pot.heated or pot.closed or pot.hours or not pot.foods or not NEXT_DAY.search(clause.text):
        return False
    if not all(is_salty(state.lines[n]) for n in pot.foods):
        return False
    pot.hours = A_NIGHT
    return True


def lay_in_salt_before(state: ReadingState, soak: Happening) -> bool:
    """ "Layer the beans with the salt in a jar. Soak in fresh water before cooking": they lay in salt, and
    what of it is left stays in the jar."""
    cure = state.pending
    if cure is None or cure.kind != "dry_cure" or cure.clause.base not in _LAID_IN_SALT:
        return False
    if cure.foods.keys().isdisjoint(soak.foods) or not _is_much_salt(state, cure):
        return False
    cure.drained = cure.closed = True
    cure.eaten, state.pending = 0.0, None
    state.begin(cure)
    return True


_LAID_IN_SALT = frozenset({"layer", "pack", "bury", "cover"})


def only_washed(bath: Happening) -> None:
    """ "Wash the prawns in salted water": they leave it at once, though nobody says that they are drained."""
    if bath.clause.base == WASH and bath.kind == "brine":
        bath.hours, bath.drained, bath.closed = bath.hours or A_WHILE, True, True


def seasons_meat(state: ReadingState, clause: Clause) -> bool:
    """ "Season the chicken with salt", of a list without salt: what follows says if it lies so."""
    return clause.act == "season" and bool(set(map(state.kind, state.solids(clause, direct=True))) & PROTEINS)


def with_salt_on_food(state: ReadingState, pending: Happening) -> None:
    """ "Salt the fish, then cover with lime juice": it clings to the fish, unless it is so much that it goes
    into what is poured over."""
    before = state.pending
    if before is not None and before.kind == "brine" and before.foods.keys() == pending.foods.keys():
        return
    if before is not None and before.kind == "marinate" and before.hours is None:
        if before.foods.keys() == pending.foods.keys() and pending.kind == "marinate":
            pending.liquid = (
                before.liquid | pending.liquid
            )  # "rub with lemon and salt, then the yogurt over it"
        return
    if before is None or before.kind != "dry_cure":
        return
    if _is_onion(state, before, pending):
        pending.liquid = before.liquid | before.foods | pending.liquid
        return
    if not before.foods.keys() & pending.foods.keys():
        return
    if _is_much_salt(state, before) or _stood(state, before):
        pending.liquid |= before.liquid
        watery = pending.water is not None or "water" in map(state.kind, pending.liquid)
        pending.kind = "brine" if watery and not is_of(state, before, PROTEINS) else pending.kind
    else:
        pending.on_food = {n: s for n, s in before.liquid.items() if n not in pending.liquid}


def _is_onion(state: ReadingState, before: Happening, pending: Happening) -> bool:
    """ "Salt the onions and crush them until juicy, add the meat": that is what the meat lies in."""
    near = before.hours is None and before.clause.method == pending.clause.method
    onions = all("onion" in state.lines[n].words for n in before.foods)
    return near and onions and is_of(state, pending, PROTEINS)


def _stood(state: ReadingState, before: Happening) -> bool:
    """Whether vegetables stood under salt so long that their juice came out."""
    long = before.hours is None or before.hours.likely >= SHORT_H
    return long and not is_of(state, before, PROTEINS)


def stands_in_salt(state: ReadingState, foods: dict[int, float]) -> bool:
    """Whether vegetables that a liquid is added to stand under their salt: it makes a brine of it."""
    before = state.pending
    salted = before is not None and before.kind == "dry_cure" and before.hours is not None
    return salted and before is not None and foods.keys() <= before.foods.keys()


def _is_much_salt(state: ReadingState, before: Happening) -> bool:
    salt_g = grams_in(state, before.liquid, ("salt",))
    food_g = grams_in(state, before.foods)
    return food_g > 0 and salt_g > _MUCH * food_g


def is_of(state: ReadingState, happening: Happening, kinds: frozenset[str]) -> bool:
    return bool(set(map(state.kind, happening.foods)) & kinds)


_ALONE = frozenset({"salt", "it", "vessel"})


def tosses(state: ReadingState, clause: Clause, kind: str) -> bool:
    """ "Toss the cucumbers with salt", "mix with plenty of salt" of what was spoken of before."""
    if clause.act != "mix":
        return False
    named: Collection[int] = state.solids(clause, direct=True)
    if not named and clause.speaks <= _ALONE:
        named = state.last_foods
    return set(map(state.kind, named)) == {kind}


_NOT_WRUNG = frozenset({"water", "pot", "taste", "if", "needed", "necessary", "only"})


def may_be_wrung(state: ReadingState, clause: Clause) -> bool:
    """ "Salt generously", of vegetables and with no line of salt: what follows says if they stand so."""
    if clause.negated or state.index.of_kinds("salt") or clause.has(*_NOT_WRUNG):
        return False
    foods = state.foods(clause)
    return bool(foods) and set(map(state.kind, foods)) <= {"vegetable", "potato"}


def was_only_seasoned(state: ReadingState, pending: Happening) -> bool:
    """Whether food got a coat as soon as it was salted: it was only seasoned, and waits for nothing."""
    coat = state.latest(("dredge",), pending.foods)
    return coat is not None and coat.clause.place > pending.clause.place


def can_be_cured(state: ReadingState, line: int) -> bool:
    """Whether food may lie under dry salt: nothing out of a can does, and nothing that boils."""
    pot = state.pot
    if pot is not None and pot.heated and not pot.closed and (line in pot.foods or line in pot.extra):
        return False
    return state.kind(line) in SALTABLE and not state.lines[line].is_canned


def lies_on_food(state: ReadingState, line: int) -> bool:
    """Whether salt lies on food already, so that nothing else is rubbed with it."""
    waits = state.pending is not None and state.pending.hours is not None and line in state.pending.liquid
    return waits or any(line in each.liquid for each in state.happened)


def into_salt(state: ReadingState, clause: Clause) -> bool:
    """ "Lay the yolks in the salt", "lay the slices in a colander with salt for an hour"."""
    if clause.hours and not _DRIPS_IN.isdisjoint(clause.words):
        return any(m.prep == "with" and "salt" in map(state.kind, m.lines) for m in clause.mentions)
    inside = (n for m in clause.mentions if m.prep in INSIDE for n in m.lines)
    return "salt" in map(state.kind, inside) and bool(state.solids(clause, direct=True))


_DRIPS_IN = frozenset({"colander", "sieve", "strainer"})


def goes_into_pot(state: ReadingState, clause: Clause) -> bool:
    """ "Cover the potatoes with water, salt well", "boil water, add the salt": that goes into the water."""
    pot = state.pot
    if pot is None or state.attention is not pot or state.solids(clause, direct=True):
        return False
    if not pot.foods and (clause.act == "put" or _salts_its_water(state, clause, pot)):
        return True
    if clause.base in _INTO_WATER and pot.hours is None and clause.words.isdisjoint(_ONTO_FOOD):
        cold = not pot.heated or pot.clause.sentence == clause.sentence  # "pour boiling water over, add salt"
        return pot.topped and pot.clause.method == clause.method and cold and not pot.closed
    return clause.act == "season" and bool(pot.foods) and not (pot.closed or pot.heated)


def _salts_its_water(state: ReadingState, clause: Clause, pot: Happening) -> bool:
    """ "Put water on for the beans. Salt it", "when the water boils, salt it": no food came since."""
    if clause.base != "salt" or not clause.speaks <= {"it"}:
        return False
    waits = not state.last_foods or pot.awaits.issuperset(state.last_foods)
    return waits or pot.clause.sentence == clause.sentence


_INTO_WATER = frozenset({"stir", "add", "dissolve"})
_ONTO_FOOD = frozenset({"over", "on", "onto"})
