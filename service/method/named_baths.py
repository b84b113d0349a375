"""Baths that a clause calls by their name: "put the pork into the brine", "pour the marinade over it"."""

from __future__ import annotations

from .bath_kinds import kind_of_bath
from .clauses import Clause
from .happenings import PROTEINS, SALTING, WET, Happening, Mixture, Water, with_salt
from .left_to_the_cook import salty_paste
from .lying_in import bath_of, lies_in_bath
from .marinades_used import was_held_back
from .mention import Mention
from .reading_state import COLD, ReadingState
from .unnamed_baths import bath_meant
from .waters import water_said

INTO = frozenset({"in", "into", "to", "under", "with", "inside", "over", "onto", "on"})


def named_bath(state: ReadingState, clause: Clause) -> bool:
    """ "Put the pork into the brine", "pour the marinade over the chicken"."""
    bath = bath_of(clause)
    if bath is None or _is_of_its_ingredients(clause, bath):
        return False
    over = bath.prep not in INTO
    pours = over and (
        clause.base in ("pour", "cover", "coat", "rub", "add", "spread", "massage", "spoon")
        or clause.has("over")
    )
    if over and not pours and clause.base not in ("submerge",) and not lies_in_bath(clause):
        return False
    if _stirred_in(state, clause, bath.name):
        return False
    foods = state.foods(clause)
    lain = state.latest(("marinate",)) if bath.name == "marinade" and bath.name not in state.named else None
    if lain is not None and clause.act == "put":
        lain.eaten = 1.0 if lain.eaten is None else lain.eaten  # "pour in the marinade" that it lay in
        return True
    goes_in = clause.act in ("put", "coat")
    if made := _made_of(state, clause, bath):
        mixture = state.named[bath.name] = Mixture(lines=made, name=bath.name)
        mixture.water = _told_beside(state, clause, made)
    else:
        mixture = bath_meant(state, bath.name) if goes_in else state.mixture_named(bath.name)
    if (
        bath.portion != -1.0
        and mixture.lines
        and _is_spent(state, mixture)
        and not foods.keys() & mixture.lines.keys()
    ):
        return False  # "fill with the tofu and the pickle": what was pickled
    gone = _drained_off(state) if bath.portion != -1.0 else set()
    liquid = {n: s for n, s in mixture.shares().items() if n not in foods and n not in gone}
    if not foods or not (liquid or mixture.water):
        return False
    active = _left_soak(state, state.latest(COLD, foods), liquid)
    if active is not None and bath.portion == -1.0 and active.liquid.keys() == liquid.keys():
        active.closed = active.drained = False  # "rub in the remaining cure": it lies there once more
        active.take_time(clause, more=True)
        return True
    if active is None and bath.portion == -1.0 and not set(map(state.kind, foods)) & PROTEINS:
        return False  # "toss the potatoes with the reserved marinade"
    if active is not None and (not active.closed or active.liquid.keys() == liquid.keys()):
        again = (
            clause.base in ("pour", "add", "return", "spoon", "baste", "brush") and active.hours is not None
        )
        if again and not was_held_back(active):
            active.eaten = 1.0
        active.take_time(clause)
        return True
    kinds = set(map(state.kind, liquid))
    if bath.name == "cure" and not kinds & (SALTING | WET):
        return False
    kind = kind_of_bath(
        bath.name, kinds, watery=mixture.water is not None, is_paste=salty_paste(state, liquid)
    )
    happening = Happening(kind, clause, foods=foods, liquid=liquid, water=mixture.water, named=True)
    with_salt(happening, mixture)
    mixture.closed = True
    happening.take_time(clause)
    state.pot = None if state.pot and not state.pot.foods else state.pot
    state.pending = None
    state.begin(happening)
    return True


def makes_one_bath(state: ReadingState) -> bool:
    """Whether the list makes one brine or marinade and nothing has lain in it yet."""
    baths = [m for name, m in state.named.items() if name in ("brine", "marinade")]
    return len(baths) == 1 and not any(baths[0].lines.keys() & each.liquid.keys() for each in state.happened)


def in_named(state: ReadingState, clause: Clause, foods: dict[int, float], mixture: Mixture) -> bool:
    """ "Soak for 4 hours", of a list that makes a brine; "soak in the marinade"."""
    if not mixture.lines and state.named:
        mixture = next(iter(state.named.values()))
    liquid = {n: s for n, s in mixture.shares().items() if n not in foods}
    if not liquid:
        return False
    kind = kind_of_bath(mixture.name, set(map(state.kind, liquid)), watery=mixture.water is not None)
    bath = Happening(kind, clause, foods=foods, liquid=liquid, water=mixture.water, named=True)
    with_salt(bath, mixture)
    bath.take_time(clause)
    mixture.closed, state.pending = True, None
    state.begin(bath)
    return True


def _left_soak(state: ReadingState, active: Happening | None, liquid: dict[int, float]) -> Happening | None:
    """ "Soak the pork in plain water. Then put it in a brine of the salt and water": it has left the water;
    None then, and else what it lies in still."""
    if active is None or active.kind != "soak" or not active.liquid.keys().isdisjoint(liquid):
        return active
    if SALTING.isdisjoint(map(state.kind, liquid)):
        return active
    active.drained = active.closed = True
    return None


def _made_of(state: ReadingState, clause: Clause, bath: Mention) -> dict[int, float]:
    """ "In a marinade of oil, lemon and salt", "a brine made from the water and salt": what is named behind
    it."""
    behind = [token.text for token in clause.tokens[bath.j : bath.j + 2]]
    if behind[:1] == ["made"]:
        del behind[0]
    if not behind or behind[0] not in _CONSISTS:
        return {}
    of_it = [m for m in clause.mentions if m.i > bath.j and m.kind == "line"]
    return {n: state.share(clause, m, n) for m in of_it for n in state.nearest(m, clause)}


_CONSISTS = frozenset({"of", "from"})


def _told_beside(state: ReadingState, clause: Clause, lines: dict[int, float]) -> Water | None:
    """The water of "a brine of the salt and a litre of water", where no line is of water."""
    said = any(m.kind == "water" and m.i < clause.aim for m in clause.mentions)
    return Water(amount=water_said(clause)) if said and "water" not in map(state.kind, lines) else None


def _stirred_in(state: ReadingState, clause: Clause, name: str) -> bool:
    """ "Add the ice to cool the brine": more of it, and no food."""
    baths = [m.i for m in clause.mentions if m.kind == "bath"]
    direct = {n for m in clause.mentions if not m.prep and m.i < baths[0] for n in m.lines}
    if clause.base not in ("add", "stir") or not direct or state.solids(clause):
        return False
    mixture = state.mixture_named(name)
    if not mixture.closed:
        mixture.add({n: s for n, s in state.lines_of(clause).items() if n in direct})
    return not mixture.closed


def _is_of_its_ingredients(clause: Clause, bath: Mention) -> bool:
    """ "Add the remaining brine ingredients": it is in the making."""
    behind = clause.tokens[bath.j : bath.j + 1]
    return bool(behind) and behind[0].stem == "ingredient"


def _drained_off(state: ReadingState) -> set[int]:
    """Lines that lay on food and were drained or rinsed off: they go into no bath that comes later."""
    cures = (each for each in state.happened if each.kind == "dry_cure" and (each.drained or each.rinsed))
    return {n for each in cures for n, share in each.liquid.items() if share == 1.0}


def _is_spent(state: ReadingState, mixture: Mixture) -> bool:
    """Whether food has lain in a mixture and was taken out of it."""
    return any(
        each.drained and each.closed and mixture.lines.keys() & each.liquid.keys() for each in state.happened
    )


def whole_mixture(state: ReadingState, liquid: dict[int, float], foods: dict[int, float]) -> dict[int, float]:
    """ "Whisk the mirin into the miso … bury the fish in the miso": in all that was stirred together."""
    mixture = state.mixture
    if mixture.closed or not liquid or not liquid.keys() < mixture.lines.keys():
        return liquid
    if set(map(state.kind, liquid)) & {"savoury", "milk"}:
        return {n: s for n, s in mixture.shares().items() if n not in foods}
    return liquid
