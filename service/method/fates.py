"""What becomes of liquids and coatings: drained, rinsed off, discarded, kept, poured over."""

from __future__ import annotations

import re

from .bought_salty import (
    drained_first,
    leaves_its_oil,
    leaves_jar,
    of_a_can,
    of_cured_meat,
    said_to_be,
    told_of,
    were_of_cans,
)
from .clause_words import is_only_if, washes_another
from .clauses import Clause
from .hand_steps import WRINGS, dries_whole, packs_down
from .happenings import SALTING, WET, Happening
from .implied_pots import pot_of_pasta
from .kept_liquids import (
    BROTHS,
    COOKS_IN,
    KEEPING,
    MAY_KEEP,
    broth_used,
    cooked_in,
    eaten_with,
    keeps,
    put_back,
    reserved,
)
from .liquors import TO_LIQUOR, leaves_liquor_open
from .marinades_used import share_left
from .poached import flavours_liquor
from .pots_ending import drained_together
from .reading_state import COLD, HOT, ReadingState
from .salt_on_food import drips_away, goes_back, washed_at_once
from .strained import (
    SIEVED_FOR_ITSELF,
    STRAINS,
    THROUGH,
    is_drink,
    is_for_later,
    is_of_another_soup,
    is_tipped_out,
    note_blending,
    note_straining,
    strain_mixture,
    strains,
)
from .taking_out import (
    drips_off,
    empties,
    ended,
    goes_off,
    is_poured_through,
    leaves_its_pot,
    moves_nothing,
    note_rinsing,
    on_paper,
    others_too,
    starts_again,
    takes_out,
)
from .under_the_tap import TAP, THROUGH_IT, pot_under_the_tap
from .watered import drained_of_it

_LIQUID_SAID = re.compile(
    r"(?:water|liquid|brine|pickle|marinade|liquor|juice|broth|stock|milk|whey|syrup|cure|rub|flour|oil|fat)\w*",
    re.IGNORECASE,
)
_WET_WORDS = frozenset({"tap", "running", "run", "water"})
_RINSED_BY = frozenset(
    {"dry", "remove", "other", "put", "hold", "let", "discard", "soak", "dredge", "coat", "season", ""}
)
_POURS_IT = re.compile(
    r"\b(?:pour|tip|empty|drain|dump)\w* (?:all )?(?:it|this|that) (?:all )?(?:away|off|out|down)", re.I
)
_WHAT_IS_LEFT = re.compile(
    r"\b(?:what(?:ever|'s)?|anything|all that) (?:is |was |has |you have )?(?:been )?(?:left|remains)\b"
    r"|\b(?:has|have|is|was)(?:n['’]t| not)(?: been)? (?:absorbed|soaked|taken up)\b"
    r"|\b(?:left|remains?) (?:behind )?in (?:the|your|its) (?:bowl|dish|bag|tray|tub|basin|box|tin)\b"
    r"|\bthe bag (?:and|with) (?:everything|its contents|what)"
    r"|\b(?:contents|rest|stuff|mess|insides) (?:of|in) the (?:bowl|bag|dish|tub)\b"
    r"|\b(?:what['’]?s|whatever['’]?s|what is) in the (?:bowl|bag|dish|tub)\b",
    re.IGNORECASE,
)
"""What food lay in, when it is thrown away and not called by its name."""
_POURS = WET | SALTING | {"flour", "sweet"}
"""Kinds of which a liquid or a coating is; bay leaves and onions are taken out of it."""


def read_fate(state: ReadingState, clause: Clause) -> None:
    """Take what a clause says of a liquid that food sat in."""
    if not clause.words.isdisjoint(_TELLING):
        _adjectives(state, clause)
        _under_the_tap(state, clause)
        drips_off(state, clause)
    if clause.act in {"drain", "rinse", "dry", "remove", "discard"}:
        _leaves(state, clause)
    elif clause.act in _TO_DRIP and drips_away(state, clause):
        _wrung_out(state, clause)
    elif not clause.words.isdisjoint(("after", "once", "having", "without")) and drained_first(clause):
        if not (state.happened and state.happened[-1].clause is clause):
            of_a_can(state, clause, emptied=True)
    may_keep = clause.act in MAY_KEEP or not KEEPING.isdisjoint(clause.words)
    if (may_keep and keeps(clause)) or (not BROTHS.isdisjoint(clause.words) and is_for_later(clause)):
        reserved(state, clause)
    pot = state.pot
    if pot is not None and pot.foods and not pot.extra and leaves_its_pot(state, clause, pot):
        state.pour_off(pot)
    note_blending(state, clause)
    strained = (clause.base in STRAINS or not THROUGH.isdisjoint(clause.words)) and strains(clause)
    if strained and clause.act not in ("drain", "rinse", "dry"):
        pot = state.latest(HOT, state.solids(clause, direct=True))
        cold = pot is not None and not pot.heated and not state.solids(clause, direct=True)
        if pot is None or cold or (pot.closed and pot.drained and not pot.lifted):
            of_a_can(state, clause, emptied=True)
        elif is_tipped_out(state, pot, clause):
            strained = False
        else:
            note_straining(state, pot, clause)
    if strained:
        strain_mixture(state, clause)
    if clause.act == "put":
        put_back(state, clause)
    if not (clause.act in TO_LIQUOR and leaves_liquor_open(state, clause)):
        eaten_with(state, clause)
        if clause.act in COOKS_IN:
            cooked_in(state, clause)
        if not BROTHS.isdisjoint(clause.words):
            broth_used(state, clause)


_TO_DRIP = frozenset({"hold", "put", "let"})
_LEFT_WATER = ("drained", "rinsed", "well-drained", "well-rinsed")
_TELLING = _WET_WORDS | {*_LEFT_WATER, "drip", "drips", "dripping"}
"""Words that tell, beside any verb, that food has left a liquid."""


def _under_the_tap(state: ReadingState, clause: Clause) -> None:
    """ "Scrape it clean under a running tap": it is rinsed."""
    if clause.act == "rinse" or _WET_WORDS.isdisjoint(clause.words) or clause.negated:
        return
    of_tap = clause.has("tap", "running", "run")
    if (
        not of_tap
        and clause.act == "put"
        and clause.has("through", "over")
        and THROUGH_IT.search(clause.text)
    ):
        pot_under_the_tap(state, clause)
        return
    if not of_tap and (state.latest(COLD) is None or clause.act not in _RINSED_BY):
        return
    if not TAP.search(clause.text):
        return
    if pot_under_the_tap(state, clause):
        return
    cans = clause.act == "drain" or (of_tap and clause.act in _RINSED_BY)
    if cans and of_a_can(state, clause, rinsed=True, emptied=True):
        return
    if state.pending is not None and state.pending.kind == "dry_cure":
        _wrung_out(state, clause, washed=True)
    found = state.latest((*COLD, "drain"))
    named = state.solids(clause).keys()
    if found is not None and named and named.isdisjoint(found.foods):
        return  # "pour boiling water over the noodles", once the meat has left its marinade
    if found is not None and found.kind == "drain":
        found.rinsed = found.rinsed or found.clause.method == clause.method
    elif found is None:
        of_cured_meat(state, clause, washed=True)
    elif clause.act in _RINSED_BY:
        found.rinsed = found.drained = found.closed = True
        found.rinsing = found.rinsing or clause
        found.eaten = 0.0 if found.kind == "dry_cure" else found.eaten


def _about(state: ReadingState, clause: Clause, kinds: tuple[str, ...]) -> Happening | None:
    """The happening whose food or liquid a clause speaks of."""
    solids = state.solids(clause, direct=clause.act != "remove")
    found = state.latest(kinds, solids) if solids else None
    if found is None and solids and clause.act == "drain":
        found = next((h for h in reversed(state.happened) if h.kind in HOT and h.extra & solids.keys()), None)
    if found is None and solids and clause.base == "shake":  # "shake off the onions" of a marinade
        found = next(
            (h for h in reversed(state.happened) if h.kind in COLD and solids.keys() <= h.liquid.keys()), None
        )
    if found is None and not solids:
        found = state.latest(kinds)
        if found is not None and clause.act in ("drain", "dry") and "line" in clause.speaks:
            named = {n for m in clause.mentions if not m.prep for n in m.lines}
            if not {*map(state.kind, named)} <= _POURS and named.isdisjoint((*found.foods, *found.liquid)):
                return None  # "drain the gelatine", while the raisins lie in their rum
        others = bool(state.last_foods) and set(state.last_foods).isdisjoint(found.foods if found else ())
        elsewhere = found is not None and (
            found.closed
            or clause.act == "rinse"
            or (clause.sentence == state.last_sentence and not found.extra & {*state.last_foods})
        )
        if elsewhere and others and clause.act in ("drain", "rinse") and _PIECES.isdisjoint(clause.words):
            pot = state.latest(HOT, state.last_foods)  # else other food is drained: "soak the rice and drain"
            return pot if pot is not None and not (pot.closed or pot.drained) else None
    return found


_PIECES = frozenset({"slices", "rounds", "strips", "cubes", "wedges"})
"""What salted vegetables are called, and nothing out of a can."""


def _salted_before(state: ReadingState, clause: Clause) -> None:
    """Go back to what was salted before another pot went on in the meantime."""
    leaves = clause.act in ("rinse", "drain", "dry") and clause.base not in STRAINS
    if state.pending is None and state.waited is not None and leaves:
        unsaid = set(state.last_foods) if state.pot is None else set()
        named = state.solids(clause, direct=True).keys() or unsaid
        named = state.waited.foods.keys() if not _PIECES.isdisjoint(clause.words) else named
        fried = state.latest(("fry",), named) is not None  # "drain on paper", and a hint at the end
        if named & state.waited.foods.keys() and not fried:
            state.pending, state.waited = state.waited, None


def _leaves(state: ReadingState, clause: Clause) -> None:
    if clause.negated and (clause.act in ("drain", "discard", "rinse") or clause.base in WRINGS):
        _not_poured(state, clause)
        return
    if packs_down(clause) and state.pending is not None:
        state.pending.take_time(clause)
    if leaves_its_oil(state, clause) or moves_nothing(state, clause) or washes_another(clause):
        return
    _salted_before(state, clause)
    if state.pending is not None and (
        clause.act in ("rinse", "drain", "dry")
        or (clause.act == "discard" and "line" not in clause.speaks and clause.base != "skim")
        or clause.has("liquid", "juice", "juices", "brine", "moisture", "water")
    ):
        pending = state.pending
        _wrung_out(state, clause)
        if state.happened and state.happened[-1] is pending:
            state.last_foods = tuple(pending.foods)
    found = _about(state, clause, (*COLD, *HOT, "drain", "ferment"))
    if found is not None and found.kind in ("brine", "ferment") and is_drink(clause):
        note_straining(state, found, clause)
        return
    if (
        found is not None
        and clause.base in STRAINS
        and found.kind in COLD
        and not (is_poured_through(state, found) or clause.has("off"))
    ):
        return
    if found is None:
        if drained_of_it(state, clause) or (clause.act == "drain" and pot_of_pasta(state, clause)):
            return
        unsaid = not (state.solids(clause) or (clause.base in STRAINS and were_of_cans(state)))
        if (clause.base in STRAINS or on_paper(clause)) and unsaid:
            return  # "strain and throw the flakes out"
        of_a_can(state, clause, emptied=leaves_jar(clause))
        of_cured_meat(state, clause)
        return
    if clause.act == "remove" and not takes_out(state, clause, found):
        return
    if clause.act == "drain" and found.kind in HOT and drained_together(state, clause, found):
        return
    of_liquid = set(state.lines_of(clause, _POURS)) & set(found.liquid)
    afresh = clause.act == "discard" and found.kind in HOT and starts_again(clause)
    if clause.act == "discard" and not (afresh or of_liquid or _throws_liquid(state, clause, found)):
        return
    if clause.act == "dry" and found.kind in HOT and (found.heated or clause.base not in WRINGS):
        return  # but what only lay in water is wrung out of it
    if clause.base in STRAINS and found.kind in HOT and not _of_solid(state, clause, found):
        if found.lifted or not (found.closed and found.drained):  # else it is the broth of another pot
            note_straining(state, found, clause)
        return
    if clause.base in STRAINS and found.kind in HOT:
        found.strained_at = state.turn
    if clause.act == "remove" and found.kind in HOT and found.hours is None:
        found.take_time(clause)  # "when they swim (2 minutes) take them out"
    found.lifted = clause.act == "remove" and (found.lifted or not found.drained)
    found.drained = True
    note_rinsing(clause, found)
    kraut = found.kind == "ferment" and clause.act in ("drain", "rinse")  # its juice stays in the jar
    if kraut or (found.kind in ("marinate", "dry_cure") and goes_off(clause)):
        found.eaten = share_left(clause)
    if found.kind in (*HOT, *COLD):
        ended(state, found, clause)
    others_too(state, clause, found)
    used = found.kept_ml is not None or 0.0 < (found.eaten or 0.0) < 1.0
    if clause.act == "discard" and not used and _SAVES.search(clause.text) is None:
        found.eaten = share_left(clause)


_SAVES = re.compile("reserv|keep|save", re.IGNORECASE)


def _throws_liquid(state: ReadingState, clause: Clause, found: Happening) -> bool:
    """Whether what a clause throws away is a liquid: "the brine", "it", "what is left in the bowl"."""
    if _LIQUID_SAID.search(clause.text) or (found.kind in COLD and _WHAT_IS_LEFT.search(clause.text)):
        return True
    if "line" not in clause.speaks and _SINK.search(clause.text):
        if _LIQUID_SAID.search(clause.sentence.partition(clause.text)[0]):
            return True  # "take it out of the marinade and bin that"
    pours = empties(clause, found) or _POURS_IT.search(clause.text) is not None
    return pours and found is state.happened[-1] and not found.closed


_SINK = re.compile(r"\b(?:sink|plughole|it|that|lot|which)\b", re.IGNORECASE)


def _not_poured(state: ReadingState, clause: Clause) -> None:
    """ "Don't drain": the juice that salt draws, or the liquid that food lies in, stays with it."""
    if clause.act == "rinse" or (clause.act == "discard" and not _LIQUID_SAID.search(clause.text)):
        return  # "don't throw away the small leaves"
    if state.pending is not None and state.pending.kind == "dry_cure":
        state.pending = None
        return
    found = _about(state, clause, (*COLD, *HOT))
    if found is not None and not (found.drained or is_of_another_soup(clause)):
        found.eaten, found.closed = 1.0, True


def _of_solid(state: ReadingState, clause: Clause, found: Happening) -> bool:
    """Whether straining keeps the food and not the liquid."""
    pressed = clause.has("pressing", "squeezing", "discarding")  # "strain, pressing the bones"
    if state.blended or pressed or flavours_liquor(state, found):
        return False
    return bool(state.solids(clause, direct=True)) or set(map(state.kind, found.foods)) <= SIEVED_FOR_ITSELF


def _wrung_out(state: ReadingState, clause: Clause, *, washed: bool = False) -> None:
    """Salted vegetables or meat whose juice is poured off: a dry cure that is not eaten whole."""
    pending = state.pending
    assert pending is not None
    if state.latest(HOT, pending.foods) is not None:
        state.pending = None  # what is in a pot of salted water boils there
        return
    solids = state.solids(clause, direct=True) or state.solids(clause)
    if not set(solids or state.last_foods) & set(pending.foods) and not goes_back(state, clause, pending):
        return
    named = set(state.lines_of(clause)) - state.waters if clause.base == "squeeze" else set()
    if named and named.isdisjoint(pending.foods):
        return  # "squeeze the lemon over it"
    if dries_whole(clause):
        state.pending = None if pending.kind == "dry_cure" else pending
        return  # its water goes, and all its salt stays
    only_dried = clause.base in ("pat", "blot", "dry") and pending.hours is None
    if only_dried and not set(map(state.kind, pending.foods)) <= {"vegetable"}:
        return  # of meat it says no more than that it is seasoned
    if clause.hours and clause.act in ("drain", "hold"):
        pending.take_time(clause)  # "let it drain a night and a day"
    if pending.hours is None and not _is_salting(state, pending, clause):
        return
    state.pending = None
    raw = clause.base in WRINGS and set(map(state.kind, pending.foods)) <= {"vegetable"}
    lay = (raw or clause.act in ("drain", "rinse")) and not state.mixture.heated
    if pending.kind == "marinate" and not (lay and state.latest(COLD, pending.foods) is None):
        return
    pending.take_time(clause)
    pending.drained = pending.closed = state.mixture.closed = True
    pending.eaten = 0.0
    washed = washed or clause.act == "rinse" or clause.has("rinse", "rinsed")
    pending.rinsed = washed and not is_only_if(clause)
    pending.rinsing = clause if pending.rinsed else None
    state.begin(pending)


def _is_salting(state: ReadingState, pending: Happening, clause: Clause) -> bool:
    """Whether what is drained lay in salt though nobody says how long."""
    if pending.kind == "brine" and set(map(state.kind, pending.foods)) <= {"cheese", "tofu"}:
        return True
    if clause.act == "rinse" and washed_at_once(state, pending, clause):
        return True
    vegetables = set(map(state.kind, pending.foods)) <= {"vegetable", "potato"}
    return vegetables and clause.act in ("rinse", "drain", "dry") and clause.base != "dry"


def _adjectives(state: ReadingState, clause: Clause) -> None:
    """ "Add the drained pasta", "the rinsed capers", "marinated chicken"."""
    if not clause.has(*_LEFT_WATER):
        return
    for i, token in enumerate(clause.tokens):
        if token.text not in _LEFT_WATER:
            continue
        mention = told_of(state, clause, i)
        if mention is None:
            continue
        found = state.latest((*HOT, *COLD), mention.lines)
        if found is not None:
            found.drained = True
            found.rinsed = found.rinsed or (token.text == "rinsed" and found.kind in COLD)
            found.closed = True
        else:
            said_to_be(state, clause, mention, rinsed=clause.has("rinsed"))
