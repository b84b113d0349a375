"""The method read from end to end: its clauses, each given to whom it concerns."""

from __future__ import annotations

import re
from collections.abc import Sequence

from .amounts_told_after import measure_salt
from .audit import liquids, note_idle, review, speaks_of_liquid
from .beforehand import cut_beforehand, lines_beforehand
from .boiled_in_turn import boils_each
from .boiling import read_pot
from .both_cut import both_cut
from .braised import of_braises
from .called_by_cut import called_by_their_cut
from .can_liquids import drain_cans, return_liquids
from .citrus_juice import squeeze_citrus
from .clauses import Clause
from .coatings import read_coating
from .cold_baths import read_bath
from .company import attend, gets_all_ready
from .cooked_bare import boiled_bare
from .cooked_in_liquor import cook_in_liquors
from .covered import SITS, set_down
from .drained_with import drained_with
from .each_apart import each_in_its_own
from .egg_parts import find_egg_parts
from .fates import read_fate
from .frying import fry_on, read_frying
from .hand_steps import WRINGS, read_handwork, read_wringing
from .happenings import PROTEINS, Happening
from .held_back import hold_back
from .hours_meant import find_waits, in_hours, is_of_another_day, waited_before
from .ingredients_meant import first_meant
from .jar_juices import juices_of_jars
from .kept_liquids import leave_unused
from .left_over import find_left_over
from .liquors import goes_into_liquor, poured_at_last
from .listed import Index
from .listed_baths import lie_in_litres
from .marinades_used import is_left_in_words
from .may_be_left import find_may_be_left
from .method_words import COOKS, small_words
from .mixing import mix, pour_in_all_water
from .named_as_soaked import named_as_soaked
from .never_said import use_what_stands_ready
from .other_choices import without_other_choices
from .own_juice import sour_in_own_juice
from .pans_of_water import washes_things
from .poached import take_out_of_liquor
from .pot_salt import give_listed_water, give_salt_beside_water, give_unspoken_salt
from .pots_ending import salt_forewarned
from .quick_pickles import is_kept
from .reading_state import COLD, HOT, ReadingState
from .references import read_reference
from .roasts import DRIPS, DRY_HEAT, catch_juices, goes_into_oven, in_the_oven, more_time, read_roast
from .salt_beside import seasons_beside
from .salt_on_food import water_runs_out
from .seasoned_coatings import salt_coatings
from .seasonings_said import seasonings
from .soaking import draws_salt_out, has_stood, never_stands, settle_soak, soak_instead
from .soda_baths import dipped_in_soda
from .steamed_over import leave_steaming_salt
from .stirred_coats import read_stirred_coat
from .strained import is_for_later, is_of_another_soup, leave_solids, pour_unused
from .suspects import is_suspect, mark
from .tap_water import from_the_tap, with_waters
from .thick_marinades import clinging
from .thrown_drinks import thrown_drinks
from .thrown_out import give_salt_to_broth, keep_what_is_used, read_thrown_out
from .told_ahead import without_announced
from .told_behind import in_their_order
from .told_by_litre import TELLS, tells_strength
from .unlisted import first_words, read_unlisted
from .unsettled import may_be_poured, waits_still
from .verbs_said import BY_ITSELF
from .waiting import start_pending
from .what_moves_salt import moves_salt

_MOVES_SALT = re.compile(
    r"\b(?:salt(?:ed|ing|y)?|brin\w+|marinad\w+|marinat\w+|soak\w*|drain\w*|rins\w+|cur(?:e|ed|ing))\b",
    re.IGNORECASE,
)
_SOUPS = small_words("soup")
_RUBS_IN = small_words("rubs_in")
_OVEN_C = 100.0
_CHUTNEY_H = 0.7
_LONGEST_HEAT_H = 20.0
"""Hours that no roast takes: "the rest keeps for a week" is none of its time."""
_TURNS_OVER = frozenset({"flip", "turn"})
_GOES_ON = frozenset({"", "cook", "fry", "roast", "simmer", "let", "hold"})
_RESTS = small_words("off_the_heat")


def watch(parted: Sequence[Clause], index: Index, title: str = "") -> ReadingState:
    """The kitchen at the end of the method, with everything that happened."""
    state = ReadingState.of(index)
    first: Clause | None = None
    state.is_soup = _is_soup(parted, title)
    clauses = with_waters(_as_meant(without_other_choices(parted, index), index), state)
    squeeze_citrus(state, clauses)
    state.last_foods = first_meant(index, clauses)
    for i, said in enumerate(clauses):
        first, clause = first or said, said
        if clause.hours and (waited := waited_before(clause)) is not None:
            _take(state, waited[0])
            clause = waited[1]
        clauses[i] = from_the_tap(state, in_hours(state, clause) if clause.hours else clause)
        if state.bare is not None:
            boiled_bare(state, clauses[i])
        if len(clause.hours) < 2 or not boils_each(state, clauses, i, _take):
            _take(state, clauses[i])
    _start_ahead(state)
    if state.waters:
        give_salt_beside_water(state, clauses)
    use_what_stands_ready(state, clauses)
    pour_in_all_water(state)
    pour_unused(state, clauses)
    leave_solids(state)
    keep_what_is_used(state)
    cook_in_liquors(state, clauses)
    take_out_of_liquor(state, clauses)
    for settle in (thrown_drinks, leave_unused, return_liquids, give_salt_to_broth):
        settle(state, clauses)
    state.left_over += find_left_over(state, clauses)
    state.left_over += of_braises(state, clauses)
    state.egg_parts = find_egg_parts(state, clauses)
    cut_beforehand(state, clauses)
    lines_beforehand(state, first)
    drain_cans(state, clauses)
    sour_in_own_juice(state, clauses)
    waits_still(state, clauses)
    state.happened = without_announced(state.happened)
    poured_at_last(state)
    salt_forewarned(state)
    _settle_waters(state, clauses)
    state.happened = [
        each
        for each in state.happened
        if each.foods and (each.maybe or moves_salt(state, each) or may_be_poured(state, each, clauses))
    ]
    salt_coatings(state, clauses)
    leave_steaming_salt(state, clauses)
    give_unspoken_salt(state, clauses)
    give_listed_water(state)
    measure_salt(state, clauses)
    state.beside = seasons_beside(state, clauses)
    review(state, clauses)
    find_may_be_left(state, clauses)
    find_waits(state, clauses)
    state.unlisted = [each for each in state.unlisted if each[1].lower() not in title.lower()]
    return state


def _as_meant(clauses: list[Clause], index: Index) -> list[Clause]:
    """The clauses, with the foods that they mean by other names, each thing in its own water."""
    ordered = in_their_order(juices_of_jars(clauses, index))
    called = called_by_their_cut(ordered, index)
    return each_in_its_own(both_cut(called, index), index)


def _settle_waters(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """Take the liquids for what they are once all is read: soaks or pots, plain or salted, eaten or not."""
    for each in state.happened:
        if each.kind in HOT and each.drained and each.heated:
            drained_with(state, each)
        elif each.kind in HOT and (each.drained or (each.hours and has_stood(state, each))):
            each.drained = True
            soak_instead(state, each)
        if each.kind == "dry_cure":
            lie_in_litres(state, each)
        if each.kind == "marinate" and is_left_in_words(each, clauses):
            each.eaten, each.drained = 0.0, True
        if each.kind == "marinate" and is_kept(state, each):
            each.kind = "brine"
        if each.kind == "brine" and {state.kind(n) for n in each.foods} == {"grain"}:
            each.kind = "soak"  # rice stands in salted water, and is not brined
        if each.kind == "marinate" and draws_salt_out(state, each):
            each.kind = "soak"
        if each.kind == "marinate":
            each.clings = clinging(state, each, clauses)
        if each.kind == "soak":
            settle_soak(state, each, clauses)
        if each.kind in COLD and each.hours is None:
            each.hours = each.ahead
        if each.kind == "brine" and never_stands(state, each):
            each.kind, each.heated, each.drained = "boil", True, True
        listed = "salt" in map(state.kind, each.liquid)
        if not (listed or moves_salt(state, each)) and each.water and each.water.is_salted:
            state.seasoned.append((each.clause, each.water.salt))


def _is_soup(parted: Sequence[Clause], title: str) -> bool:
    soups = (clause for clause in parted if not _SOUPS.isdisjoint(clause.words))
    return not _SOUPS.isdisjoint(title.lower().split()) or any(map(_tells_of_soup, soups))


def _tells_of_soup(clause: Clause) -> bool:
    """Whether a clause speaks of a soup or a stew, and not of a broth that is kept or poured off."""
    if goes_into_liquor(clause) or is_for_later(clause) or is_of_another_soup(clause):
        return False
    leaves = clause.act in _LEAVES or "poaching" in clause.words  # "the poaching liquor"
    return not (_SOUPS & clause.words <= _BROTHS and (leaves or _PART_OF.search(clause.text)))


_BROTHS = frozenset({"broth", "broths", "liquor"})
_LEAVES = frozenset({"reserve", "discard", "drain"})
_PART_OF = re.compile(
    r"\b(?:little|some|bit|ml|cups?|ladle\w*|most|half|lit(?:re|er)s?|pints?) of (?:(?:the|this|that|hot) )*"
    r"(?:\w+ )?(?:broth|liquor)"
)
_ALL = frozenset({"all"})


def _start_ahead(state: ReadingState) -> None:
    """What was salted "the day before" lay there, though no clause says that it waits."""
    pending = state.pending
    if pending and state.ahead[0] == pending.clause.method and not state.latest(COLD, pending.foods):
        start_pending(state)


def _cook_pending(state: ReadingState, clause: Clause) -> None:
    """What was salted and is cooked as it is was only seasoned, unless it lies packed in salt."""
    pending = state.pending
    assert pending is not None
    if clause.base in BY_ITSELF and not state.lines_of(clause, ("oil",)):
        pending.take_time(clause)
        return  # "let it wilt for an hour"
    acid = pending.kind == "brine" and "acid" in map(state.kind, pending.liquid)
    if acid and not set(map(state.kind, pending.foods)) & PROTEINS:
        if clause.has("thick", "thickens", "thickened") or (
            clause.hours and clause.hours[0].likely > _CHUTNEY_H
        ):
            state.pending = None
        return  # vegetables brought to the boil in vinegar stay in it, but in a chutney
    if _boils_at_once(state, pending, clause):
        pending.kind, pending.heated = "boil", True
        pending.absorbed = "spice" in map(state.kind, pending.liquid)  # a sauce, unless it is drained
        pending.take_time(clause)
        state.mixture.closed, state.pending = True, None
        state.pot = state.begin(pending)
    elif pending.clause.base in ("pack", "cover", "bury", "encase"):
        pending.take_time(clause)
    elif set(state.solids(clause) or state.last_foods) & set(pending.foods) or _in_one_dish(state, clause):
        if not pending.hours:
            _start_ahead(state)
        if pending.hours or pending.clause.method != clause.method:
            state.waited = pending
        state.pending = None


def _in_one_dish(state: ReadingState, clause: Clause) -> bool:
    """ "Mix the potatoes with the salt, lay the cod on top and bake for an hour": all that the sentence put
    together."""
    pending = state.pending
    baked = clause.base == "bake" and pending is not None and pending.clause.sentence == clause.sentence
    return baked and not state.solids(clause, direct=True)


def _boils_at_once(state: ReadingState, pending: Happening, clause: Clause) -> bool:
    """ "Add salt, cover with cold water and bring to a boil": a pot, and no brine."""
    watery = pending.water is not None or "water" in map(state.kind, pending.liquid)
    lies = bool(pending.hours) or state.pot is not None or clause.method > pending.clause.method + 1
    cooks = clause.act in ("boil", "simmer") or (
        clause.base == "cook"
        and clause.speaks <= _OF_POTS
        and clause.words.isdisjoint(_OVENS)
        and {"salt", "water"}.issuperset(map(state.kind, pending.liquid))
    )  # a broth has spices; "put the tongue on in cold water with the salt and cook for three hours"
    return pending.kind == "brine" and watery and not lies and cooks


_OF_POTS = frozenset({"it", "water"})
_OVENS = frozenset({"oven", "grill", "pan", "barbecue", "smoker", "coals"})


def _tend_pending(state: ReadingState, clause: Clause) -> None:
    water_runs_out(state, clause)
    if state.pending is not None and (clause.act in COOKS or in_the_oven(clause) or goes_into_oven(clause)):
        _cook_pending(state, clause)


def _take(state: ReadingState, clause: Clause) -> None:
    if (
        (clause.speaks == _ALL and gets_all_ready(clause))
        or washes_things(clause)
        or is_of_another_day(clause)
        or (clause.base in TELLS and "salt" in clause.words and tells_strength(state, clause))
    ):
        return
    if clause.act == "remove" and not clause.has("heat", "oven", "lid", "fire", "flame"):
        state.taken_out |= set(state.solids(clause, direct=True) or state.last_foods)
    before, pot = len(state.happened), state.pot
    stood = mark(state) if is_suspect(clause) else None
    wet = "water" in clause.speaks or "bath" in clause.speaks
    flows = liquids(state) if wet and speaks_of_liquid(state, clause) else None
    if not state.mixture.closed:
        hold_back(state, clause)
    if not first_words().isdisjoint(clause.words):
        read_unlisted(state, clause)
    read_thrown_out(state, clause)
    if "soaked" in clause.words:
        named_as_soaked(state, clause)
    read_fate(state, clause)
    taken = len(state.happened) > before
    if clause.base in WRINGS:
        read_wringing(state, clause, WRINGS[clause.base])
    if not DRIPS.isdisjoint(clause.words) or "ravy" in clause.heading:
        catch_juices(state, clause)
    if not taken:
        taken = read_reference(state, clause) or read_handwork(state, clause)
        taken = taken or dipped_in_soda(state, clause) or read_bath(state, clause) or read_pot(state, clause)
    if state.pending is not None:
        _tend_pending(state, clause)
    if state.attention is not None:
        _go_on(state, state.attention, clause)
    read_stirred_coat(state, clause)
    if not taken:
        read_coating(state, clause)
        read_frying(state, clause)
        if clause.hours or clause.base in DRY_HEAT:
            read_roast(state, clause)
        if state.roast is not None and clause.hours:
            more_time(clause, state.roast)
    waits = state.pot is not None and not state.pot.foods  # what goes into its water may be a brine's
    if not taken or waits or clause.act in ("heat", "mix", "boil", "simmer"):
        mix(state, clause)
    opened = state.pot if state.pot is not pot else None
    state.seasoned += seasonings(state, clause, taken)
    if not taken and not clause.verb and _may_move_salt(clause):
        state.unread.append(clause)
    if stood is not None or flows is not None:
        note_idle(state, clause, stood, flows)
    state.remember(clause)
    state.potted = set_down(state, clause) if clause.act == "put" or clause.base in SITS else ()
    worked_on = state.pending or (state.happened[-1] if state.happened else None)
    if not state.last_foods and worked_on is not None and state.made_in is None:
        state.last_foods = tuple(worked_on.foods)
    attend(state, clause, state.happened[-1] if len(state.happened) > before else opened)


def _go_on(state: ReadingState, now: Happening, clause: Clause) -> None:
    """What is spoken of still and has no time yet takes that of a clause that goes on with it."""
    if now.hours is not None:
        if now.kind == "fry" and clause.hours:
            fry_on(state, clause, now)
    elif now.kind in ("fry", "roast", "smoke") and (clause.act in _GOES_ON or clause.base in _TURNS_OVER):
        long = clause.hours and clause.hours[0].likely > _LONGEST_HEAT_H
        if not long and _RESTS.isdisjoint(clause.words):
            now.take_time(clause)
    elif now.kind == "dry_cure":
        if clause.act == "roast" or (clause.celsius is not None and clause.celsius >= _OVEN_C):
            if now.clause.base in _RUBS_IN and now.ahead is None and now.eaten is None and not now.drained:
                now.absorbed = True  # a rub that goes straight on the grill is only a seasoning
            else:
                now.take_time(clause)  # packed in salt, it bakes there


def _may_move_salt(clause: Clause) -> bool:
    """Whether a sentence without a verb speaks of what moves salt."""
    return clause.opens and len(clause.tokens) > 3 and _MOVES_SALT.search(clause.text) is not None
