"""Food that lies in water: what is done next says whether it soaks there or boils."""

from __future__ import annotations

import re
from collections.abc import Iterable

from .clause_words import changes_of, is_of_a_pot, strength_of
from .clauses import Clause
from .company import goes_on_with_spice
from .happenings import LIQUIDS, POURED_WITHOUT_WORD, PROTEINS, SOLIDS, Happening
from .headings import bath_of_heading
from .leavens import is_soda
from .listed import ICE
from .mention import Mention
from .method_words import BOILS, phrasing
from .pans_of_water import ONCE, is_laid_in, rises_over
from .poured import only_steams
from .reading_state import COLD, ReadingState
from .stakes import is_salty
from .waters import is_hot, water_for

_COVERS = frozenset({"cover", "submerge", "immerse", "start", "begin", "fill", "flood"})
_LAYS = frozenset({"put", "other", "", "brine", "let", "hold"})
_IN_IT = frozenset({"in", "into", "with"})
_IN_CUP = phrasing("in_cup")
_BOILING = re.compile(r"\bboiling (?:hot |salted |salty )?water\b", re.IGNORECASE)


def soda_of(state: ReadingState, clause: Clause) -> dict[int, float]:
    return {n: s for n, s in state.lines_of(clause, ("flour",)).items() if is_soda(state.lines[n])}


def has_no_object(state: ReadingState, clause: Clause) -> bool:
    """ "Put (them) in a pot with water and an onion": what is put there is what was spoken of last."""
    if not state.last_foods or not clause.mentions:
        return False
    if clause.act in BOILS:
        return _only_with(state, clause)
    if clause.act != "put":
        return False
    named = clause.mentions[clause.base != "return" and clause.mentions[0].kind == "it" :]
    if named and named[0].kind == "vessel" and any(m.kind == "water" and not m.prep for m in named):
        return False  # "in a separate pot put water"
    at = 1 + len(clause.mentions) - len(named)
    leads = [token.text for token in clause.tokens[: at + 1]]
    goes = leads[0] in ("into", "in", "back") or leads[-1] in ("in", "into", "to", "back")
    return goes and bool(named) and named[0].kind in ("vessel", "water")


def _only_with(state: ReadingState, clause: Clause) -> bool:
    """ "Cook in fresh water with the onion", of beans that were soaked before."""
    beside = state.solids(clause)
    if _cut_just_now(state, clause) and beside and not state.solids(clause, direct=True):
        return set(map(state.kind, beside)) <= POURED_WITHOUT_WORD
    meant = set(map(state.kind, state.last_foods)) <= _COOKED_WITH_GREENS
    greens = set(map(state.kind, beside)) <= {"vegetable", "fruit"}
    return meant and greens and bool(beside) and not state.solids(clause, direct=True)


def _cut_just_now(state: ReadingState, clause: Clause) -> bool:
    """ "Chop the carrot, boil with the macaroni": what the same sentence names before."""
    if state.last_sentence != clause.sentence or "with" not in clause.words:
        return False
    return {"vegetable", "potato"}.issuperset(map(state.kind, state.last_foods))


_COOKED_WITH_GREENS = PROTEINS | {"legume", "grain"}


def covered(state: ReadingState, clause: Clause, water: Mention) -> bool:
    """ "Cover the potatoes with cold water": what is done next says whether they soak or boil."""
    anew = clause.act in _NEW_ACTS and (
        _comes_anew(state, clause, water) or _is_changed(state, clause, water)
    )
    if clause.act not in _LAYS and clause.base != "combine" and not anew:
        return False
    if clause.tokens[0].text in ONCE and not water.prep:
        return False  # "when the water boils again cover"
    if state.pending is not None and state.pending.clause is clause:
        return False  # a brine
    if _goes_cold(state, clause, water):
        return True
    starts = clause.base in _COVERS and not clause.has("adding", "pouring", "streaming")
    covers = starts or _is_covered(clause, water)
    rises = not covers and clause.act == "put" and rises_over(clause)
    rises = rises or _is_poured_on(state, clause, water)
    rises = rises or _laid_in_bowl(state, clause, water) or is_laid_in(state, clause, water)
    rises = rises or anew
    added = not (covers or rises) and _is_added_to_potted(state, clause, water)
    if not (covers or rises or added):
        return False
    if clause.base == "keep" and state.pot is not None and state.pot.heated and not state.pot.closed:
        return False  # "boil 4 hours, and keep them covered with water"
    if clause.base in ("fill", "flood") and (clause.vessel() or not state.last_foods):
        return False  # "fill a pot with water" opens one
    foods = state.solids(clause) or dict.fromkeys(state.last_foods, 1.0) or _first_foods(state)
    extra = set(foods) & state.solids(clause).keys() if has_no_object(state, clause) else set()
    joins = added or clause.mentions[0] is water or (bool(state.potted) and not is_of_a_pot(clause, water))
    beside = clause.base == "add" and joins and bool(state.last_foods)
    beside = beside or anew
    if extra or beside:  # "add water to cover, and an onion"
        extra |= set(foods) - set(state.last_foods) if beside else set()
        foods = dict.fromkeys(state.potted or state.last_foods, 1.0)
    if not foods or _only_cools(state, water, foods) or goes_on_with_spice(state, clause):
        return False
    if only_steams(state, clause):
        return False
    liquid = state.lines_of(clause, (*LIQUIDS, "salt")) | soda_of(state, clause)
    near = state.company[-2:] if added else state.company[-1:]  # in the pot before the water
    if near and near[-1] & set(foods) and not _is_poured_on(state, clause, water):
        together = {n: 1.0 for each in near if each & set(foods) for n in each if n not in foods}
        foods = {**foods, **{n: s for n, s in together.items() if state.kind(n) in SOLIDS}}
        spent = {n for each in state.happened if each.kind in COLD for n in each.liquid}
        liquid |= {n: s for n, s in together.items() if n not in spent and state.kind(n) not in SOLIDS}
    pot = Happening("boil", clause, foods=foods, liquid=liquid, extra=extra - set(foods))
    pot.water, pot.topped = water_for(state, clause), water.kind == "water"
    scalded = set(map(state.kind, foods)) & PROTEINS
    boiling = (scalded or water.prep in ("in", "into")) and _BOILING.search(clause.text)
    salted = (pot.water is not None and pot.water.is_salted) or "salt" in map(state.kind, liquid)
    pot.absorbed = added and not set(map(state.kind, foods)) <= _NEEDS_NO_WORD  # unless it is drained
    pot.absorbed |= _stews(state, clause, pot)
    pot.absorbed |= clause.has("stuffed", "filled")  # "cover the stuffed peppers with water": in their sauce
    pot.heated = bool(boiling) or clause.act in BOILS or (salted and set(map(state.kind, foods)) == {"pasta"})
    state.pot = state.begin(pot, clause)
    if not pot.heated:
        pot.water_changes = changes_of(clause, pot.hours.likely if pot.hours else None)
    return True


def _goes_cold(state: ReadingState, clause: Clause, water: Mention) -> bool:
    """ "Boil the eggs for 9 minutes, plunge into cold water": they have left their pot."""
    pot = state.pot
    if pot is None or not (pot.foods and pot.heated and pot.hours) or pot.extra or clause.act != "put":
        return False
    if water.prep not in _IN_IT or not clause.has("cold", "ice", "iced"):
        return False
    if not state.solids(clause).keys() <= pot.foods.keys() or "vessel" in clause.speaks:
        return False
    state.pour_off(pot)
    return True


def _stews(state: ReadingState, clause: Clause, pot: Happening) -> bool:
    """ "Fry the onions; add the tomatoes and spices; add water to cover": a sauce, unless it is drained."""
    if clause.base not in _ADDS or state.solids(clause) or clause.vessel():
        return False
    return state.last_heat == "fry" or "spice" in map(state.kind, pot.liquid)


_NEEDS_NO_WORD = frozenset({"pasta", "potato", "egg"})
_POTTED = POURED_WITHOUT_WORD | PROTEINS | {"legume", "grain", "salty"}
_ADDS = frozenset({"add", "pour", "tip", "put", "run"})


_COOKED = ("boil", "simmer", "fry", "roast", "smoke", "steam")


SITS = frozenset({"sit", "stand"})


def set_down(state: ReadingState, clause: Clause) -> tuple[int, ...]:
    """The food that a clause puts into a pot, with no water yet; meat in a bowl or bag is kept as bowled."""
    vessel = clause.vessel()
    if clause.base == "add" and not (vessel or "water" in clause.speaks):
        return (*state.potted, *state.solids(clause)) if state.potted else ()
    fries = clause.has("skillet", "frying", "wok", "oil", "butter", "hot")
    if not vessel or clause.negated or fries or "water" in clause.speaks:
        return ()
    foods = tuple(state.solids(clause, direct=True)) or state.last_foods
    if vessel == "bowl":
        raw = tuple(n for n in foods if state.kind(n) in PROTEINS)
        state.bowled = () if raw and state.latest(_COOKED, raw) else raw
        return ()
    state.bowled = ()
    if clause.hours or not set(map(state.kind, foods)) <= _POTTED:
        return ()
    into = next(m for m in clause.mentions if m.kind == "vessel").prep in ("in", "into", "to")
    return foods if into else ()


def _is_added_to_potted(state: ReadingState, clause: Clause, water: Mention) -> bool:
    """ "Put the beans in a pot. Add water.": they lie in it."""
    if clause.base not in _ADDS or "steam" in clause.sentence or is_of_a_pot(clause, water):
        return False
    if not (state.potted or (clause.has("fresh", "clean") and _has_soaked(state))):
        return False
    if water.prep and not (water.prep in _POURED and clause.tokens[0].text == clause.base):
        return False
    if clause.base != "add" and state.solids(clause):
        return False
    return state.pot is None or state.pot.closed


_POURED = frozenset({"in", "on", "over"})
"""Words behind a verb that are a part of it: "pour on the water"."""


def _has_soaked(state: ReadingState) -> bool:
    """ "Soak the chickpeas. Drain, add fresh water": what was spoken of last comes out of its soak."""
    soak = state.latest(("soak", "boil", "simmer"), state.last_foods) if state.last_foods else None
    if soak is None or soak.kind == "soak":
        return soak is not None and (soak.drained or soak.closed)
    return (
        soak.drained and soak.closed and not soak.lifted and _DESALTED.issuperset(map(state.kind, soak.foods))
    )


def _comes_anew(state: ReadingState, clause: Clause, water: Mention) -> bool:
    """ "Drain. Three litres of new water, with the salt": on what lay or boiled in other water before."""
    if water.prep or not clause.has(*_FRESH) or not clause.speaks <= _NEW_WATER:
        return False
    if clause.act and clause.tokens[0].text not in _FRESH:
        return False  # "bring fresh water to the boil", before anything goes in
    before = state.latest(("soak", "boil", "simmer"), state.last_foods) if state.last_foods else None
    return before is not None and before.drained and before.closed and not before.lifted


_FRESH = ("fresh", "new", "clean")
_NEW_ACTS = frozenset({"", "boil", "simmer"})
_NEW_WATER = frozenset({"water", "line", "salt"})


_DESALTED = PROTEINS | {"salty", "legume"}


def _is_changed(state: ReadingState, clause: Clause, water: Mention) -> bool:
    """ "Bring to the boil. Change the water and boil again": food in its second pot."""
    pot = state.pot
    if pot is None or not pot.heated or pot.closed or water.prep or not _ONE_MORE.isdisjoint(clause.words):
        return False
    if not clause.has(*_CHANGES) or not (pot.foods and _DESALTED.issuperset(map(state.kind, pot.foods))):
        return False
    state.pour_off(pot)
    return True


_CHANGES = ("change", "renew", "replace")
_ONE_MORE = frozenset({"once", "twice", "times", "during", "every", "often"})


def _only_cools(state: ReadingState, water: Mention, foods: Iterable[int]) -> bool:
    """ "Lay the turkey in the brine … fill with ice": it lies where it lay, only colder."""
    ice = bool(water.lines) and all(state.lines[n].words[-1:] in ICE for n in water.lines)
    bath = state.latest(COLD, foods) if ice else None
    return bath is not None and not (bath.closed or bath.drained)


def _is_covered(clause: Clause, water: Mention) -> bool:
    """ "Covered with water", "water to cover"; not "with water in a covered dish"."""
    if not clause.has("covered"):
        return clause.has("cover", "covering", "submerge")
    behind = [token.text for token in clause.tokens[water.j :]]
    return "covered" not in behind or "until" in behind


def _is_poured_on(state: ReadingState, clause: Clause, water: Mention) -> bool:
    """ "Pour boiling water on them": what is salty, a pulse or cheese lies in it."""
    if clause.base != "pour" or not clause.has("on", "over", "upon"):
        return False
    if water.prep not in ("", "on", "over"):
        return False
    foods = state.solids(clause) or dict.fromkeys(state.last_foods, 1.0)
    if set(map(state.kind, foods)) <= {"salty", "legume", "pasta", "cheese", "tofu"}:
        return bool(foods)
    cold = clause.has("cold", "fresh", "clean")  # "pour cold water over the salt cod"
    return cold and all(is_salty(state.lines[n]) for n in foods)


def _laid_in_bowl(state: ReadingState, clause: Clause, water: Mention) -> bool:
    """ "Put it in a basin of cold water": salt food, pulses or meat soak there, if they are left there."""
    if clause.act not in ("put", "hold") or water.prep not in _IN_IT:
        return False
    foods = state.solids(clause, direct=True) or dict.fromkeys(state.last_foods, 1.0)
    if clause.vessel() != "bowl" and not _IN_CUP.search(clause.text):
        freshens = all(state.kind(n) in _FRESHENED or is_salty(state.lines[n]) for n in foods)
        if clause.vessel() or not clause.has("cold", "fresh") or not freshens:
            return False  # "lay the slices of feta in cold water"
    if set(map(state.kind, foods)) == {"pasta"}:
        return not clause.has("ice", "iced")  # noodles, in cold water or in hot
    lie = PROTEINS | {"salty", "cheese", "legume"}
    salty = bool(strength_of(clause)) or bool(state.lines_of(clause, ("salt",))) or state.salt_said(clause)
    soaks = bool(foods) and set(map(state.kind, foods)) <= (lie | {"vegetable", "potato"} if salty else lie)
    return soaks and not clause.hours and not is_hot(clause) and not clause.has("ice", "iced")


_FRESHENED = frozenset({"salty", "cheese"})


def _first_foods(state: ReadingState) -> dict[int, float]:
    """What "cover with cold water" is about where nothing was spoken of: the kind that leads the list."""
    first = next((n for n in state.index.lines if n.kind in SOLIDS), None)
    if first is None or bath_of_heading(first.heading):
        return {}
    kinds = ("vegetable", "potato") if first.kind in ("vegetable", "potato") else (first.kind,)
    return {n.index: 1.0 for n in state.index.lines if n.kind in kinds and n.heading == first.heading}
