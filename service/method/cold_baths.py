"""Cold liquids and dry salt: what sits in them, how long, and what becomes of them."""

from __future__ import annotations

from .bath_kinds import STARCHES, kind_of_bath
from .clause_words import goal, strength_of
from .clauses import Clause
from .covered import soda_of
from .hand_steps import what_is_left
from .happenings import PROTEINS, SALTING, SHORT_H, WET, Happening, Mixture, Water, with_salt
from .left_to_the_cook import salty_paste
from .lying_in import (
    INSIDE,
    LIES_IN,
    bath_of,
    is_coated,
    is_laid,
    is_of_another_food,
    is_stored,
    lies_among,
    lies_in_a_stew,
    lies_in_bath,
    lies_once_more,
    lies_under_salt,
    shortest_wait,
)
from .mention import Mention
from .method_words import small_words
from .named_baths import INTO, in_named, makes_one_bath, named_bath, whole_mixture
from .numbers_said import is_number
from .parts_said import part_of_mixture
from .put_in_baths import into_mixture
from .quick_pickles import covered_with_vinegar
from .reading_state import COLD, ReadingState
from .roasts import goes_into_oven
from .salt_on_food import ONTO, lay_in_salt_before, lay_till_next_day, only_washed
from .salted_jars import join_pending, packed_hot
from .soaked_again import lies_in_new_water, with_unit_of
from .soaking import (
    SOAKS,
    changes_water,
    drinks_up,
    is_of_others,
    laid_in_water,
    lies_in_water,
    new_water_said,
    note_changes,
    soak_instead,
    soaked_alone,
    stands_in_brine,
    stays_hot,
    stays_in_pot,
    worth_soaking,
)
from .unnamed_baths import bath_meant, unspoken_brine, unspoken_salt
from .waiting import dry_salt, soaks_in_brine, start_pending
from .waters import water_alone, water_of_salt

_CHANGE = small_words("change") | {"new", "fresh"}
_OVEN_C = 100.0
_FAR_LONGER = 10.0
"""Times as long as what was said before, from which on a time is the one that food lies there."""
_LAYS = frozenset({"put", "hold"})
_FURTHER = frozenset({"another", "further", "more", "additional"})


def read_bath(state: ReadingState, clause: Clause) -> bool:
    """Take a clause about a brine, marinade, soak or cure; whether it was one."""
    if clause.negated:
        return False
    water = state.water_of(clause)
    takes_up = clause.act == "soak" and clause.has("up") and not clause.has("side", "to")
    if takes_up or (water is not None and _is_hot(clause, water)):
        return False
    if (clause.act == "soak" and soaks_in_brine(state, clause)) or stays_hot(state, clause):
        return True
    if clause.base in ("brine", "pickle") and [token.text for token in clause.tokens[1:2]] == ["in"]:
        return False  # "chops in a bag, brine in": the one that was made
    if clause.act in {"brine", "marinate", "soak", "cure", "pickle"}:
        return _verb_says(state, clause)
    if clause.act in {"put", "mix", "coat", "other", "", "boil"} and named_bath(state, clause):
        return True
    if clause.act == "put" and what_is_left(state, clause):
        return True
    if clause.act in LIES_IN and lies_in_bath(clause) and named_bath(state, clause):
        return True
    if clause.base == "steep" and clause.hours and clause.speaks <= {"it"} and state.pending is None:
        return _verb_says(state, clause)  # "when used it must be steeped a night"
    if state.pending is not None and join_pending(state, clause, state.pending):
        return True
    if clause.act == "put" and packed_hot(state, clause):
        return start_pending(state)
    if clause.act in _LAYS and "acid" in state.index.by_kind and covered_with_vinegar(state, clause):
        return state.pending is None or not state.pending.hours or start_pending(state)
    salts = clause.act in {"coat", "season", "mix", "put"} or lies_under_salt(state, clause)
    salts = salts or (clause.act == "dredge" and not is_coated(state, clause))
    before = len(state.happened)
    if salts:
        dry_salt(state, clause)
    if len(state.happened) > before:
        return True
    if clause.base == "steep" and state.solids(clause, direct=True) and state.lines_of(clause, WET):
        return _verb_says(state, clause)  # "steep the squid in the milk"
    laid = is_laid(state, clause)
    if clause.act in {"put", "mix", "coat"} or laid:
        into_mixture(state, clause)
    if laid and state.pending is not None:
        return _kept_in_brine(state, clause) or _hold(state, clause)
    if not clause.act and clause.has(*_CHANGE) and changes_water(state, clause):
        return True
    if (water is not None or clause.base == "steep") and lies_in_water(state, clause, water):
        return _verb_says(state, clause)
    stands = clause.act in {"hold", "", "put", "other", "let"}
    return (stands or (bool(clause.hours) and _shakes_and_waits(state, clause))) and _hold(state, clause)


def _kept_in_brine(state: ReadingState, clause: Clause) -> bool:
    """ "Make a brine of the water and salt and keep the mozzarella in it": nobody says how long."""
    waits = state.pending
    stays = waits is not None and waits.kind == "brine" and not clause.hours
    return stays and clause.base in ("keep", "store") and start_pending(state)


def _shakes_and_waits(state: ReadingState, clause: Clause) -> bool:
    """ "Squash the bag about, 2 hours in the fridge": nobody squashes so long."""
    waits = state.pending
    if waits is None or waits.kind == "dry_cure" or clause.act not in _HANDLES:
        return False
    return clause.hours[0].likely >= SHORT_H and "line" not in clause.speaks


_HANDLES = frozenset({"dry", "mix", "coat"})
_LETS_BE = _HANDLES | {"", "let", "other"}
_UNSAID = frozenset({"it", "bath"})


def _is_hot(clause: Clause, water: Mention) -> bool:
    """ "Rub the dough into boiling salted water", "into a pan holding simmering water and salt": no bath."""
    boils = clause.has("boiling", "simmering") and (water.prep in INSIDE or _is_in_vessel(clause))
    return boils and clause.act != "soak"  # "soak the noodles in boiling water", off the heat


def _is_in_vessel(clause: Clause) -> bool:
    return any(m.kind == "vessel" and m.name != "bowl" and m.prep == "into" for m in clause.mentions)


def _verb_says(state: ReadingState, clause: Clause) -> bool:
    """ "Brine the pork in …", "marinate overnight", "soak the cod in cold water"."""
    active = state.happened[-1] if state.happened else None
    foods = laid_in_water(state, clause) or _stirred_last(state, clause) or state.foods(clause)
    foods = soaked_alone(state, clause, foods) if clause.act == "soak" else foods
    if clause.act == "soak" and not state.solids(clause, direct=True) and is_of_others(state, clause):
        return True  # "soak the breadcrumbs in the milk"
    if clause.act == "soak" and (_covered_before(state, clause, foods) or _waits_in(state, clause, foods)):
        return True
    if clause.act == "soak" and stays_in_pot(state, clause):
        return True
    again = (
        active is not None
        and active.kind in COLD
        and not active.closed
        and not (state.solids(clause, direct=True).keys() - active.foods.keys())
        and not (clause.base == "desalt" and active.kind != "soak")
    )
    if clause.act == "soak" and _lie_in_it(state, clause, foods):
        return True
    liquid = whole_mixture(state, _liquid_of(state, clause, foods), foods)
    if (
        again
        and active is not None
        and (not liquid or active.liquid.keys() >= liquid.keys())
        and not new_water_said(clause)
    ):
        clause = with_unit_of(active, clause)
        active.take_time(clause, more=clause.has(*_FURTHER) or lies_in_new_water(active, clause))
        note_changes(active, clause)
        return True
    if not foods or (clause.act == "cure" and lies_among(state, liquid)):
        return False
    happening = Happening("marinate", clause, foods=foods, named=True)
    happening.water = water_alone(state, clause) or water_of_salt(state, clause, liquid)
    if not liquid and happening.water and not happening.water.salt:
        if clause.act == "brine" and (liquid := unspoken_brine(state)):
            happening.water = None
        elif happening.water.strength and (liquid := unspoken_salt(state)):
            happening.water = Water(amount=happening.water.amount)
    if not liquid and happening.water is None:
        told = bath_of(clause)
        told = told if told is not None and told.prep in INSIDE else None
        if told is None and _is_wet(state) and _waits_in(state, clause, foods):
            return True  # "salt the fish, add the lime juice and let it marinate"
        said = told is not None or clause.act != "soak"
        name = told.name if told is not None else _USUAL.get(clause.act, "marinade")
        mixture = bath_meant(state, name) if said else state.mixture_named(name)
        if clause.act == "soak" and (told is not None or makes_one_bath(state)):
            return in_named(state, clause, foods, mixture)
        made_here = mixture.water is not None and bool(mixture.salt or SALTING & _kinds(state, mixture))
        made_here = made_here or {"water", "salt"} <= _kinds(state, mixture)
        in_it = any(m.kind == "it" and m.prep in ("in", "into") for m in clause.mentions)
        if (
            clause.act in SOAKS and not in_it and not (made_here and mixture.sentence == clause.sentence)
        ) or set(map(state.kind, mixture.lines)) & PROTEINS - set(map(state.kind, foods)):
            mixture = Mixture()
        liquid = {n: s for n, s in mixture.shares(part_of_mixture(clause)).items() if n not in foods}
        happening.water = mixture.water
        with_salt(happening, mixture)
        if not liquid and happening.water is None and _waits_in(state, clause, foods):
            return True
        mixture.closed = True
    left_out = WET if _is_dry(clause) else STARCHES
    happening.liquid = {n: s for n, s in liquid.items() if n not in foods and state.kind(n) not in left_out}
    if clause.act == "cure" and lies_in_a_stew(state, liquid):
        return False
    return _settle(state, clause, happening)


def _stirred_last(state: ReadingState, clause: Clause) -> dict[int, float]:
    """ "Combine the onions and soy sauce with the chicken and marinate": the meat, though named last."""
    waits = state.pending
    if clause.act != "marinate" or waits is None or waits.kind != "marinate" or state.solids(clause):
        return {}
    return waits.foods if waits.clause.sentence == state.last_sentence else {}


_USUAL = {"brine": "brine", "pickle": "brine", "cure": "cure"}


def _is_wet(state: ReadingState) -> bool:
    return state.pending is not None and not WET.isdisjoint(map(state.kind, state.pending.liquid))


def _lie_in_it(state: ReadingState, clause: Clause, foods: dict[int, float]) -> bool:
    """ "Mix oats and milk … soak overnight": what soaks was stirred into its liquid, and is eaten with it."""
    mixture = state.mixture
    if mixture.closed or state.water_of(clause) or not foods or not foods.keys() <= mixture.lines.keys():
        return False
    kinds = _kinds(state, mixture)
    return bool(kinds & {"milk", "stock"}) and not kinds & PROTEINS


def _kinds(state: ReadingState, mixture: Mixture) -> set[str]:
    return set(map(state.kind, mixture.lines))


def _covered_before(state: ReadingState, clause: Clause, foods: dict[int, float]) -> bool:
    """ "Cover the beans with water and soak overnight": one soaking, not a pot and a soaking."""
    pot = state.pot
    if pot is None or pot not in state.happened or pot.closed or pot.hours or not set(foods) & set(pot.foods):
        return False
    return _soak_instead(state, pot, clause)


_WAIT_IN = ("marinate", "brine", "dry_cure")


def _waits_in(state: ReadingState, clause: Clause, foods: dict[int, float]) -> bool:
    """ "Pour the buttermilk over the chicken and soak for 1 hour": in what was poured over it."""
    pending = state.pending
    kinds = ("marinate",) if clause.act == "soak" else _WAIT_IN
    if pending is None or pending.kind not in kinds or not foods.keys() & pending.foods.keys():
        return False
    pending.take_time(clause)
    return start_pending(state)


def _settle(state: ReadingState, clause: Clause, happening: Happening) -> bool:
    """Decide its kind, and whether it is one at all."""
    said = "brine" if clause.act == "marinate" and clause.has("brine", "pickle") else clause.act
    dry = _is_dry(clause)
    happening.kind = kind_of_bath(
        "soak" if said in SOAKS else said,
        set(map(state.kind, happening.liquid)) - ({"water"} if dry else set()),
        watery=happening.water is not None and not dry,
        salty=bool(happening.water and happening.water.strength),
        is_paste=salty_paste(state, happening.liquid),
    )
    if drinks_up(state, happening, clause):
        state.pending = None
        return True
    desalts = happening.kind == "soak" and lay_in_salt_before(state, happening)
    if happening.kind == "soak" and not (desalts or worth_soaking(state, happening, clause)):
        state.pending = None
        return True
    if not happening.liquid and happening.water is None:
        if happening.kind != "soak":
            return False
        happening.water = Water()
    if happening.kind == "soak":
        happening.liquid |= soda_of(state, clause)
    happening.take_time(clause)
    only_washed(happening)
    note_changes(happening, clause)
    pending = state.pending
    if pending is not None and pending.foods.keys().isdisjoint(happening.foods):
        state.waited = pending  # the cucumbers stand under their salt while the seaweed soaks
    state.pending = None
    state.pot = None if state.pot and not state.pot.foods else state.pot
    state.begin(happening)
    return True


def _is_dry(clause: Clause) -> bool:
    """ "Dry brine the bird"."""
    return clause.act == "brine" and clause.has("dry", "dry-brine", "dry-brined")


def _liquid_of(state: ReadingState, clause: Clause, foods: dict[int, float]) -> dict[int, float]:
    """The lines behind "in" or "with", or a named bath's."""
    found: dict[int, float] = {}
    for mention in clause.mentions:
        if mention.kind == "bath" and mention.prep in INTO:
            mixture = state.mixture_named(mention.name)
            found.update({n: s for n, s in mixture.shares().items() if n not in foods})
        elif (
            mention.kind == "line"
            and mention.prep in INTO
            and not (goal(clause, mention) or state.exceeds(clause, mention))
        ):
            lines = mention.lines
            for n in lines if len(lines) < 2 and not mention.amount else state.nearest(mention, clause):
                if n not in foods and state.kind(n) not in PROTEINS:
                    found[n] = state.share(clause, mention, n)
    if found and set(map(state.kind, found)) in ({"water"}, {"milk"}) and strength_of(clause):
        salts = state.index.of_kinds(*SALTING)
        if len(salts) == 1:  # "in the salted buttermilk", of a list with one salt
            found[salts[0]] = -1.0
    return found


_WAITS = small_words("wait")
_ABOUT = frozenset(
    {"at", "about", "around", "roughly", "up", "or", "after", "an", "for"}
)  # "…, at least 1 hour"


def _hold(state: ReadingState, clause: Clause) -> bool:
    """ "Refrigerate overnight": for what waits, or for what is in a bath already."""
    pot = state.pot
    if pot is not None and not (clause.act or clause.hours) and lay_till_next_day(state, clause, pot):
        return _soak_instead(state, pot, clause)
    if pot is not None and pot in state.happened and not pot.closed and pot.hours is None and clause.hours:
        if (
            (clause.hours[0].likely >= 4 or (clause.act in ("hold", "") and stands_in_brine(state, pot)))
            and not pot.heated
            and (clause.act == "hold" or clause.has("overnight") or clause.tokens[0].text == "for")
        ):
            return _soak_instead(state, pot, clause)
        if clause.act == "hold" and not pot.heated and set(map(state.kind, pot.foods)) == {"pasta"}:
            pot.take_time(clause)  # noodles, in a bowl of hot water
            return True
    active = state.happened[-1] if state.happened else None
    boils = pot is not None and state.attention is pot
    if pot is not None and boils and pot is active and not clause.act and pot.hours is None:
        return False  # "boil the dumplings. 7 minutes": none of what waits
    if state.pending is None and pot is None and (active is None or active.kind not in COLD):
        return False
    open_bath = active is not None and active.kind in COLD and not active.closed and active.hours is None
    terse = state.pending is not None or open_bath
    first = clause.tokens[0].text
    idle = state.pending is not None and clause.act in _LETS_BE and clause.speaks <= _UNSAID
    begins = is_number(first) or (first in _ABOUT and not clause.mentions)
    begins = begins and not is_of_another_food(state, clause)
    terse = terse and bool(clause.hours) and (begins or idle)
    drips = state.pending is not None and not ONTO.isdisjoint(clause.words)
    if not (terse or drips) and (clause.act != "hold" or boils) and _WAITS.isdisjoint(clause.words):
        return False
    if is_stored(clause) or (clause.celsius is not None and clause.celsius >= _OVEN_C):
        return False  # "240C for 25 minutes"
    if "oven" in clause.words and goes_into_oven(clause):
        return False  # "put in a low oven for 2 hours": it cooks
    ahead = state.ahead[1] if state.ahead[0] == clause.method and clause.act == "hold" else None
    if state.pending is not None and (clause.hours or clause.has("overnight") or ahead):
        pending = state.pending
        pending.hours = pending.hours or (None if clause.hours else ahead)
        far = pending.hours and clause.hours and clause.hours[0].likely > _FAR_LONGER * pending.hours.likely
        then = pending.hours is not None and lies_once_more(clause)
        if far and not then and pending.clause.act != "season":
            pending.hours = None  # "knead for 10 minutes … leave for 3 weeks"
        limit = shortest_wait(state, pending)
        pending.take_time(clause, more=then)
        if pending.hours and pending.hours.likely >= limit and clause.celsius != 0:
            return start_pending(state)
        return True
    if active is not None and active.kind in COLD and not active.closed:
        goes_on = clause.has(*_FURTHER) or lies_once_more(clause) or lies_in_new_water(active, clause)
        if active.hours is None or goes_on:
            active.take_time(clause, more=goes_on)  # "marinate for 3 hours. Then refrigerate for a day"
            note_changes(active, clause)
            return True
        active.take_time(clause)
        note_changes(active, clause)
    return False


def _soak_instead(state: ReadingState, pot: Happening, clause: Clause) -> bool:
    soak_instead(state, pot)
    pot.take_time(clause)
    note_changes(pot, clause)
    state.pot = None
    return True
