"""Which happenings are steps of the recipe, and which only make the dish that is eaten whole."""

from __future__ import annotations

from .coating_left import all_sticks
from .happenings import PROTEINS, SALTING, Happening
from .leavens import is_leaven
from .listed import ListedLine
from .poured import pot_is_poured
from .quick_pickles import is_drowned
from .reading_state import COLD, HOT, ReadingState
from .soaking import worth_soaking
from .stakes import is_salty

_MINCED = frozenset({"mince", "minced", "ground"})
_SALTY = SALTING | {"savoury", "stock", "salty"}
_LONG_H = 4.0
_LIES_H = 0.2
_WAITS_H, _STANDS_H = 0.5, 1.0


def moves_salt(state: ReadingState, each: Happening) -> bool:
    """Whether a happening is a step: a liquid is poured off or left, or food lies in salt for its time."""
    kinds = set(map(state.kind, each.foods))
    if kinds == {"fruit"} and _lies_unsalted(state, each):
        state.thrown_out |= dict.fromkeys(each.foods, each.strained_at) if each.spent else {}
        return False
    if each.spent:
        return True
    if kinds == {"egg"} and _is_stirred_egg(state, each):
        return False
    if each.kind in HOT:
        return each.heated and (pot_is_poured(each, state) or _gives_to_thrown(state, each))
    if each.kind == "dredge":
        return not all_sticks(state, each)
    if each.kind == "fry" and each.eaten == 1.0:
        coats = (h for h in state.happened if h.kind == "dredge" and h.foods.keys() & each.foods.keys())
        return not any(all_sticks(state, coat) for coat in coats)  # meat that is browned for a stew
    if each.kind in COLD and not _OF_DOUGHS.isdisjoint(state.index.by_kind) and _is_of_dough(state, each):
        return False
    if each.kind == "dry_cure" and each.absorbed:
        return False
    if each.kind == "dry_cure" and each.clause.base in ("bury", "encase"):
        return True
    if each.kind == "soak" and each.eaten == 1.0 and kinds <= {"grain", "bread"}:
        return False
    if each.kind == "soak" and not (each.named or each.hours) and kinds <= {"vegetable", "potato"}:
        return worth_soaking(state, each, each.clause)  # cut potatoes only wait in water
    if each.kind == "marinate" and kinds <= {"egg", "cheese"} and each.hours:
        return each.named or each.hours.likely >= _STANDS_H
    if each.kind == "soak" and _drinks_its_juice(state, each):
        return False
    if each.kind == "marinate" and each.eaten is None and _goes_on_to_flour(state, each):
        each.eaten, each.guessed, each.closed = 0.0, True, True
        each.drained = "milk" in map(state.kind, each.liquid)
    if each.kind in ("marinate", "dry_cure") and each.eaten != 0.0 and not (each.drained or each.rinsed):
        return _lies_long(state, each) or _is_told_to_lie(each)
    return True


def _is_told_to_lie(each: Happening) -> bool:
    """ "Let the mushrooms marinate for an hour", of what is eaten with all that it lies in."""
    if each.kind != "marinate" or each.clause.act != "marinate" or each.hours is None:
        return False
    each.eaten = 1.0 if each.eaten is None else each.eaten
    return True


def _lies_unsalted(state: ReadingState, each: Happening) -> bool:
    """Whether fruit lies in what holds no salt: syrup, spirits, the water of a jelly."""
    if each.water is not None and each.water.is_salted:
        return False  # "keep the apple slices in salted water"
    return _NO_SALT.issuperset(map(state.kind, each.liquid)) and not any(
        is_salty(state.lines[n]) for n in each.foods
    )


def _drinks_its_juice(state: ReadingState, each: Happening) -> bool:
    """ "Let it soak for 10 minutes", of meat and of no water that a word names."""
    short = each.hours is not None and each.hours.likely < _WAITS_H
    if not short or each.liquid or "water" in each.clause.words or each.rinsed or each.water_changes:
        return False
    meat = {"meat", "poultry"}.issuperset(map(state.kind, each.foods))
    return meat and not any(is_salty(state.lines[n]) for n in each.foods)


_NO_SALT = frozenset({"water", "sweet", "wine", "acid", "spice", "herb", "aromatic", "fruit", "milk"})


_OF_DOUGHS = frozenset({"flour", "egg"})


def _is_of_dough(state: ReadingState, each: Happening) -> bool:
    """ "Rub the butter into the flour and salt … rest an hour", "pour the custard over": what stands is a
    dough or a custard, and no food in salt."""
    if each.clause.base in ("bury", "encase"):
        return False
    said = state.lines_of(each.clause)
    if each.foods.keys().isdisjoint(said) and any(_is_flour(state.lines[n]) for n in said):
        return True
    if each.kind == "dry_cure" and any(_is_flour(state.lines[n]) for n in each.liquid):
        return state.latest(("dredge",), each.foods) is not None
    custard = {"egg", "milk"} <= set(map(state.kind, each.liquid))
    return custard and each.eaten is None and not (each.drained or each.named)


def _is_flour(line: ListedLine) -> bool:
    return line.kind == "flour" and not is_leaven(line)


def _is_stirred_egg(state: ReadingState, each: Happening) -> bool:
    """Whether an egg was broken into a batter, a dough or a custard, so that no piece of it lies anywhere."""
    if each.kind in HOT:
        return False
    eggs = set(each.foods)
    beside = set(each.liquid).union(*(company for company in state.company if company & eggs))
    if each.kind == "soak" and all(is_salty(state.lines[n]) for n in eggs):
        return False  # salted duck eggs
    return not _BEATEN_WITH.isdisjoint(map(state.kind, beside)) or (
        each.kind == "soak" and not (each.water and each.water.is_salted)
    )


_BEATEN_WITH = frozenset({"flour", "milk"})


def _goes_on_to_flour(state: ReadingState, bath: Happening) -> bool:
    """Whether food is turned in flour after it lay in milk or soy sauce: what does not cling stays behind."""
    later = state.happened[state.happened.index(bath) + 1 :]
    kinds = set(map(state.kind, bath.liquid))
    wet = not kinds.isdisjoint(("milk", "savoury", "acid", "wine")) and kinds.isdisjoint(("flour", "oil"))
    return wet and any(h.kind == "dredge" and h.foods.keys() & bath.foods.keys() for h in later)


def _gives_to_thrown(state: ReadingState, pot: Happening) -> bool:
    """Whether vegetables that are thrown away take salt out of a broth that is eaten."""
    thrown = state.thrown_out.keys() & {*pot.foods, *pot.extra, *pot.liquid}
    salty = any(is_salty(state.lines[n]) for n in (*pot.foods, *thrown))
    salted = salty or (pot.water is not None and pot.water.is_salted)
    if pot.eaten != 1.0 or not thrown or not (salted or not _NO_SALT.issuperset(map(state.kind, pot.liquid))):
        return False
    pot.foods |= dict.fromkeys(thrown, 1.0)
    pot.liquid = {n: s for n, s in pot.liquid.items() if n not in thrown}
    return salty or any(state.kind(n) not in _FLAVOURS for n in thrown)


_FLAVOURS = frozenset({"spice", "herb"})
"""So little of a pot that their salt counts for nothing: bay leaves, sprigs of thyme."""


def _lies_long(state: ReadingState, each: Happening) -> bool:
    """Whether food in a marinade or salt that is eaten with it lies there: named so, or an hour and longer.

    Mince, salad and what is stirred in passing hold all their salt either way: that is the dish.
    """
    lines = [state.lines[n] for n in each.foods if state.kind(n) in PROTEINS]
    if not lines and each.kind == "marinate" and each.hours:
        kinds = set(map(state.kind, each.liquid))
        if "acid" not in kinds:
            return False
        watery = "water" in kinds or each.water is not None
        return (watery and each.hours.likely >= _LONG_H) or is_drowned(
            state, each
        )  # mushrooms in their pickle
    if lines and each.clause.act in ("marinate", "soak") and each.kind == "marinate":
        return True
    if each.kind == "dry_cure" and set(map(state.kind, each.foods)) == {"cheese"}:
        return each.hours is not None
    if not lines or any(_MINCED & set(line.text.lower().replace(",", " ").split()) for line in lines):
        return False
    if each.clause.act in ("marinate", "brine", "cure", "pickle"):
        return True
    if each.kind == "dry_cure":
        return bool(each.hours or each.ahead or each.celsius)  # else it is only rubbed with salt
    if not set(map(state.kind, each.liquid)) & _SALTY:
        return False
    return each.hours is not None and each.hours.likely >= _LIES_H
