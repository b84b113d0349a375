"""Liquids of which no sentence says whether they are eaten: a person is asked where much hangs on them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from .clauses import Clause
from .happenings import PROTEINS, SALTING, SHORT_H, Happening
from .layout import DISH, names_of
from .left_to_the_cook import food_grams, grams_in
from .questions import Doubts
from .reading_state import COLD, HOT, ReadingState
from .salted_jars import JARS
from .stakes import is_salty, is_worth_asking, lines_mg, liquid_mg
from .weights_told import grams_of

_MUCH_WATER = 1.5
"""Water in weights of the food from which on it may be poured away: less is a stew's."""
_BOILED = PROTEINS | {"vegetable", "legume", "potato", "egg"}
_BINDS = frozenset({"legume", "grain", "flour", "bread", "egg", "pasta"})
_IN_CROCK_H = 48.0
"""Hours under salt from which on vegetables have made a brine that they are kept in."""
_OUT_OF_IT = frozenset({"carve", "slice", "mash", "dress", "toss", "grill", "roast", "fry", "peel", "halve"})
"""What is done to food that has left its pot."""
_GIVEN_OFF = 0.5
"""Of the salt of salty food, the share that a pot of water draws, roughly."""
_TAKEN_ALONG = 0.7
"""Of the salt of a pot, the share that goes with its water, roughly."""


def may_be_poured(state: ReadingState, pot: Happening, clauses: Sequence[Clause]) -> bool:
    """Whether a salted pot that is taken for a soup or a stew may be one whose water goes."""
    if (
        pot.kind not in HOT
        or not pot.heated
        or pot.eaten is not None
        or pot.absorbed
        or pot.extra
        or state.is_soup
    ):
        return False
    if not set(map(state.kind, pot.foods)) <= _BOILED:
        return False
    pot.maybe = _water_g(state, pot) >= _MUCH_WATER * food_grams(pot, state) and is_worth_asking(
        state, _TAKEN_ALONG * liquid_mg(state, pot)
    )
    later = (c for c in clauses if c.place > pot.clause.place)
    pot.lifted = pot.maybe and _comes_out(later, pot)
    return pot.maybe


def may_be_eaten(state: ReadingState, pot: Happening) -> bool:
    """Whether a pot of which nobody says that it is drained holds what gives much salt to its water."""
    if pot.drained:
        return False
    salty = [n for n in pot.foods if state.kind(n) == "salty" or is_salty(state.lines[n])]
    listed = [n for n in pot.liquid if state.kind(n) != "water"]
    return is_worth_asking(state, _GIVEN_OFF * lines_mg(state, salty) + lines_mg(state, listed))


def _comes_out(later: Iterable[Clause], pot: Happening) -> bool:
    """Whether a clause takes out or cuts up the food of a pot: it names that, or nothing else was named."""
    about = True
    for clause in later:
        named = {n for m in clause.mentions if m.prep in ("", "in", "into") for n in m.lines}
        about = bool(named & pot.foods.keys()) if named else about
        if about and clause.base in _OUT_OF_IT:
            return True
    return False


def _water_g(state: ReadingState, pot: Happening) -> float:
    listed = grams_in(state, pot.liquid, ("water",))
    said = grams_of(pot.water.amount) if pot.water is not None else None
    return listed or said or (0.0 if pot.water is None else 1e9)


def waits_still(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """Vegetables that stood under salt, of which nobody says what becomes of the juice: asked about."""
    pending = state.pending or state.waited
    if pending is not None and _is_put_up(state, pending, clauses):
        pending.named = pending.guessed = pending.put_up = True
        state.begin(pending)
        return
    if pending is None or pending.kind != "dry_cure" or set(map(state.kind, pending.foods)) & PROTEINS:
        return
    if pending.hours is None or pending.hours.likely < SHORT_H or _is_bound(state, pending):
        return
    if state.is_soup or (state.attention is not None and state.attention.kind in HOT):
        return  # it went into a pot
    if pending.hours.likely >= _IN_CROCK_H and not state.latest((*HOT, *COLD, "ferment"), pending.foods):
        pending.eaten, pending.guessed = 0.0, True  # what is eaten is lifted out of its brine, spices and all
        pending.liquid = {n: s for n, s in pending.liquid.items() if state.kind(n) in SALTING}
        state.happened.append(pending)
        return
    if not state.latest((*HOT, "dry_cure"), pending.foods) and is_worth_asking(
        state, 0.5 * liquid_mg(state, pending)
    ):
        pending.maybe = True
        state.happened.append(pending)


def _is_put_up(state: ReadingState, pending: Happening, clauses: Sequence[Clause]) -> bool:
    """ "Pack into jars, pour the hot vinegar over, seal": vegetables that stay in it, said or not."""
    if pending.kind != "brine" or pending.hours is not None:
        return False
    place = pending.clause.place
    near = (c for c in clauses if abs(c.method - place[0]) <= _NEAR and not JARS.isdisjoint(c.words))
    if not any((c.place <= place and c.act in _INTO_JARS) or c.base in _CLOSES for c in near):
        return False
    if any(pending.liquid.keys() & each.liquid.keys() for each in state.happened):
        return False
    acid = "acid" in map(state.kind, pending.liquid)
    return acid and set(map(state.kind, pending.foods)) <= {"vegetable", "fruit", "egg"}


_INTO_JARS = frozenset({"put", "cut", "other", "hold", ""})
_CLOSES = frozenset({"seal", "close", "cap", "screw"})
_NEAR = 2
"""Paragraphs between where food goes into jars and where the vinegar is poured over it, at the most."""


def _is_bound(state: ReadingState, pending: Happening) -> bool:
    """Whether salted vegetables stand in a dough, a batter or a paste of pulses, which drinks their juice."""
    mixed = [company for company in state.company if company & pending.foods.keys()]
    return any(not _BINDS.isdisjoint(state.kind(n) for n in company) for company in mixed)


def is_poured_after_all(state: ReadingState, doubts: Doubts, each: Happening) -> bool:
    """What a person says of a liquid that is taken to be eaten."""
    food = names_of(state.lines, each.foods)
    hot = each.kind in HOT
    what = f"cooking water of the {food}" if hot else f"juice that the salt draws from the {food}"
    likely = "poured_away" if each.lifted else "eaten"
    taken = doubts.ask("unsaid", each.clause.sentence, likely, DISH, liquid=what)
    if taken == "eaten":
        return False
    each.drained, each.eaten, each.closed = True, 0.0, True
    state.seasoned = [said for said in state.seasoned if said[0] is not each.clause]
    return True
