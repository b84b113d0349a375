"""Hot water: what boils in it, what salts it, and whether it is poured away."""

from __future__ import annotations

import re

from .clause_words import in_some_water, is_afresh, is_in_new_pot, is_of_a_pot, is_to_water, strength_of
from .clauses import Clause
from .covered import covered, has_no_object, soda_of
from .doughs import (
    ROLLS,
    TIES,
    filled,
    last_stirred,
    names_what_was_rolled,
    note_dough,
    put_into_water,
    rolled_out,
    shaped,
)
from .happenings import LIQUIDS, PROTEINS, Happening
from .implied_pots import FILLS_POT, implied, into_stirred, joint_in_drink, topped_up
from .late_comers import (
    ADDING,
    NAMED,
    added_late,
    adds,
    begin_pot,
    boils_on_with_more,
    by_the_clock,
    comes_late,
    counts_down,
    follows_close,
    goes_on_late,
    in_turn,
    more_food,
    spoken_before,
    warms_apart,
)
from .liquors import (
    TO_LIQUOR,
    again_in_it,
    boiled_in_liquor,
    comes_back,
    in_one_pot,
    is_salted_anew,
    next_in_the_water,
    start_again,
)
from .mention import Mention
from .method_words import BOILS
from .pans_of_water import (
    dissolves,
    fills_pan,
    foods_of_all,
    hangs,
    heats_its_water,
    in_little_water,
    is_for_a_bath,
    is_its_own,
    is_meant_for,
    is_waiting_pot,
    meant_elsewhere,
    puts_it,
    steams_or_fries,
    stews_all,
)
from .poached import is_of_liquor
from .pot_salt import of_its_section, salt_with_water, salted, with_its_salt
from .pots_ending import (
    adds_drained,
    cooled,
    cut_up,
    is_of_sauce,
    moves_on,
    pureed,
    stays_plain,
)
from .poured import is_no_pot
from .reading_state import ReadingState
from .soaking import heats_it_up, still_waiting
from .taken_up import note_absorbed
from .watered import water_added
from .waters import is_hot, salt_beside, salts_of, water_for

_HEATS = frozenset(
    {"let", "other", "coat", "boil", "simmer", "cook", "heat", "put", "season", "mix", "cover"}
)
_SPLASH = re.compile(
    r"\b(?:splash|little|drop|drizzle|sprinkle|sprinkling|tbsp|tablespoon|tsp|teaspoon|spoonful|spoon)s? "
    r"(?:of )?(?:the |cold |hot |warm |boiling )*water\b",
    re.IGNORECASE,
)
"""Water that wets what stews, and is no pot of it."""
_PUREES = frozenset({"blend", "mash", "puree", "purée", "liquidise", "blitz", "process", "pulse"})


_GOES_ON = frozenset({"boil", "simmer", "cook", "heat", "hold", "let", ""})


def read_pot(state: ReadingState, clause: Clause) -> bool:
    """Take a clause that is about boiling; whether it was one."""
    if clause.base in _PUREES:
        pureed(state, clause)
    if state.pot is not None and clause.act == "cut":
        cut_up(state, clause)
    if clause.negated:
        stays_plain(state, clause)
    if clause.act in {"heat", "boil", "simmer"}:
        heats_it_up(state, clause)
    if clause.base in ROLLS or "roll" in clause.words or not TIES.isdisjoint(clause.words):
        note_dough(state, clause)
    if state.pot is not None:
        cooled(state, clause)
    if state.attention is not None and state.attention.same_as is not None:
        goes_on_late(state, clause, state.attention)
    if _begins(state, clause):
        return True
    if state.pot is not None and is_hot(clause):
        state.pot.heated = state.pot.heated or state.attention is state.pot
    if (
        state.pot is not None
        and state.attention is state.pot
        and (
            clause.act in _GOES_ON
            or clause.has("timer")
            or (bool(clause.hours) and (clause.act == "put" or clause.base == "turn"))
        )
    ):
        pot = state.pot
        others = state.solids(clause, direct=True).keys() - pot.foods.keys()
        if (
            pot.foods and not (pot.closed or others) and clause.act in BOILS
        ):  # no "simmer the sauce with salt"
            pot.liquid |= {n: s for n, s in salts_of(state, clause).items() if n not in pot.foods}
        if others and clause.hours and not (pot.closed or ADDING.isdisjoint(clause.words)):
            added_late(state, pot, clause, others, (clause.hours[1:] or clause.hours)[0])
            others = set()
        boils = clause.act in BOILS
        stands = bool(clause.hours) and not boils and clause.hours[0].likely >= _A_DAY_H
        if pot.foods and not pot.closed and clause.hours and not (others or stands or counts_down(clause)):
            more = clause.has("more", "another", "further", "longer", "additional", "extra") or _goes_down(
                pot, clause
            )
            if not (pot.late and boils_on_with_more(state, pot, clause)):
                pot.take_time(clause, more=more)
            note_absorbed(pot, clause)
            return boils
        if pot.foods and not pot.closed:
            note_absorbed(pot, clause)
            if clause.act == "simmer" and not (pot.named or others or is_of_sauce(clause)):
                pot.kind = "simmer"
    if state.watered is not None or "water" in clause.speaks or "water" in clause.words:
        water_added(state, clause)
    return False


def _begins(state: ReadingState, clause: Clause) -> bool:
    """Whether a clause begins a pot, or puts something into the one that stands there."""
    water = state.water_of(clause)
    return (
        (("again" in clause.words or clause.base == "repeat") and start_again(state, clause))
        or (clause.act in TO_LIQUOR and (boiled_in_liquor(state, clause) or next_in_the_water(state, clause)))
        or (clause.base in FILLS_POT and joint_in_drink(state, clause))
        or (water is not None and (topped_up(state, clause, water) or covered(state, clause, water)))
        or (state.pot is not None and _into_open_pot(state, clause, state.pot))
        or ((clause.act == "put" or clause.base == "stir") and into_stirred(state, clause))
        or (state.pot is not None and salted(state, clause, state.pot))
        or (water is not None and _opened(state, clause, water))
        or implied(state, clause)
    )


_A_DAY_H = 24.0
"""What is put away for a day or more boils no more: "the rest goes in the freezer for another day"."""
_SHORT_BOIL_H = 0.35
"""Hours of boiling, at the most, after which a pot that is turned down goes on for a time of its own."""


def _goes_down(pot: Happening, clause: Clause) -> bool:
    """ "Boil rapidly for 10 minutes … simmer for an hour": one after the other."""
    short = pot.hours is not None and pot.hours.likely <= _SHORT_BOIL_H
    longer = short and pot.hours is not None and clause.hours[0].likely > pot.hours.likely
    return longer and clause.act == "simmer" and pot.clause.method == clause.method


_AT_NEED = re.compile(
    r"\b(?:if|as|when|whenever|where) (?:it |it's |this )?(?:is )?"
    r"(?:needed|necessary|required|needs|gets|runs|looks|dry)\b"
    r"|\b(?:more|extra|additional) (?:\w+ ){0,2}water\b",
    re.IGNORECASE,
)
"""Water that only makes up for what boils away."""


def _opened(state: ReadingState, clause: Clause, water: Mention) -> bool:
    """ "Bring a large pot of salted water to a boil", "boil the potatoes in plenty of water"."""
    into = clause.has("boiling", "simmering") and _goes_into(clause, water)
    stands = hangs(clause, water)
    if clause.negated or not (clause.act in _HEATS or into or stands):
        return False
    waits = None if state.pot is None else still_waiting(state, clause, water)
    if waits is not None and not waits.closed and is_its_own(state, waits, clause, water):
        return False
    if _goes_to_what_is_there(state, clause, water):
        return False
    before, solids = state.latest(("boil", "simmer")), state.solids(clause)
    if before is not None and not solids and clause.act in ("put", "boil", "heat") and comes_back(clause):
        state.pot = again_in_it(clause, before)
        return True
    if not solids and heats_its_water(state, clause):
        return True
    awaited = set(solids) if solids and is_meant_for(clause, water, solids) else set()
    solids = {} if awaited else solids
    if before is not None and clause.has("same") and solids and not is_salted_anew(clause, before):
        in_one_pot(state, clause, before, solids)
        return True
    object_said = bool(solids) or has_no_object(state, clause)
    vessel = clause.vessel() == "pot" or (
        clause.vessel() == "pan" and fills_pan(state, clause, water, object_said=object_said)
    )
    if not (is_hot(clause) or vessel or stands) or _is_other_bath(state, clause):
        return False
    little = _SPLASH.search(clause.text) is not None
    if (
        is_no_pot(state, clause)
        or dissolves(clause, water)
        or is_of_a_pot(clause, water)
        or (little and not in_little_water(state, clause, water))
    ):
        return False
    own = of_its_section(state, clause)
    kinds = (*LIQUIDS, "salt", "sweet", "spice", "herb", "aromatic", "oil")
    lines = own or state.lines_of(clause, kinds)
    if water.lines and strength_of(clause) and not salts_of(state, clause):
        lines |= salt_beside(state, water.lines)
    boils = bool(own) or (clause.act == "boil" and bool(clause.hours) and water.prep in ("in", "into"))
    if is_for_a_bath(state, lines) and not (solids or boils):
        return False
    lines = with_its_salt(state, clause, lines | soda_of(state, clause))
    if "all" in clause.speaks and stews_all(state, clause):
        return True  # "everything goes into the slow cooker": a stew
    if "all" in clause.speaks:  # "simmer everything for the court bouillon"
        lines |= {n: s for n, s in state.lines_of(clause).items() if n not in foods_of_all(state, clause)}
        solids = solids or foods_of_all(state, clause)
    if is_of_liquor(state, clause, water, solids):
        lines, solids = lines | solids, {}
    if is_waiting_pot(state, clause, water) or (state.wrapped == clause.method and not solids):
        return False  # what is tied in a cloth gives nothing to the water
    pot = Happening("simmer" if clause.act == "simmer" else "boil", clause, foods=dict(solids), liquid=lines)
    pot.water, pot.topped = water_for(state, clause), water.kind == "water"
    salt_with_water(state, clause, pot, water)
    pot.absorbed, pot.awaits = little, awaited
    if has_no_object(state, clause) or puts_it(state, clause, solids):
        meats = (n for n in solids if state.kind(n) in PROTEINS)
        pot.foods = filled(state, clause) or dict.fromkeys((*state.last_foods, *meats), 1.0)
        pot.extra = solids.keys() - pot.foods.keys()
    pot.heated = is_hot(clause)
    if (
        not (solids or pot.foods)
        and (into or clause.act in ("boil", "simmer", "cook", "put", "coat", ""))
        and (into or water.prep in ("in", "into") or (water.prep == "with" and clause.act in BOILS))
        and not any(m.kind in _BEFORE_WATER and not m.prep and m.i < water.i for m in clause.mentions)
    ):  # and not "boil the salt in the water", "a pot with water"
        pot.foods = put_into_water(state, clause)
    state.pot = pot
    begin_pot(state, pot, clause)
    if pot.foods:
        note_absorbed(pot, clause)
    return True


def _is_other_bath(state: ReadingState, clause: Clause) -> bool:
    """ "A water bath", "the steamer": nothing lies in it, but dough lies in a "bath" of soda."""
    return clause.has("bath", "bain", "steamer", "icy") and not soda_of(state, clause)


def _goes_to_what_is_there(state: ReadingState, clause: Clause, water: Mention) -> bool:
    """ "Add boiling water if needed", "simmer for 4 hours, adding water as needed", "stir the sugar, butter
    and boiling water together"."""
    if clause.act == "mix" and water.lines and state.lines_of(clause, ("sweet", "oil", "flour", "milk")):
        return True
    if any(each.rinsing is clause for each in state.happened[-1:]):
        return True  # "pour a kettle of hot water through it"
    tops_up = clause.has("adding", "topping") and state.pot is not None and bool(state.pot.foods)
    return tops_up or (clause.act == "put" and _AT_NEED.search(clause.text) is not None)


def _goes_into(clause: Clause, water: Mention) -> bool:
    """ "Press into boiling water", "tear it into a big pot with boiling water"."""
    if water.prep == "into" or (water.prep == "in" and clause.act == "hold"):
        return True  # "let them steep in simmering water"
    return water.prep == "with" and any(m.kind == "vessel" and m.prep == "into" for m in clause.mentions)


_BEFORE_WATER = ("line", "vessel")
_NO_LIQUOR = ("water", "spice", "herb", "oil", "salt", "aromatic")


def _into_open_pot(state: ReadingState, clause: Clause, pot: Happening) -> bool:
    """ "Add the pasta", once there is a pot of water."""
    stirs = clause.act != "mix" or clause.base in _STIRS  # not "grind the tomatoes", while the pot waits
    sets = clause.base in _SETS and (is_to_water(clause) or clause.has("under"))  # "push the leaves under"
    timed = bool(clause.hours) and (clause.base in _TIMED or by_the_clock(state, clause, pot))
    waits = not pot.foods and (timed or (clause.base in _DIPS and clause.has("times", "twice", "thrice")))
    if pot.closed or not ((clause.act in _GOES_IN and stirs) or sets or waits or in_turn(clause)):
        return False
    if (pot.foods and _goes_apart(state, clause, pot)) or warms_apart(clause, pot):
        return False
    new = {line: share for line, share in state.solids(clause, direct=True).items() if line not in pot.foods}
    if not new and not pot.foods and clause.base in ("lay", "set", "place", "sit") and not clause.vessel():
        solids = state.solids(clause)  # "lay in the salmon", not "place in a roll"
        new = {n: s for n, s in solids.items() if state.kind(n) != "bread"}
    drained = not new and adds_drained(state, clause, pot)
    if drained or (not new and clause.base == "add" and clause.vessel() == "pot"):
        new = {n: 1.0 for n in state.last_foods if n not in pot.foods}  # "chop the kale and add to the pot"
    to_water = is_to_water(clause)
    if state.water_of(clause) is not None and not to_water:
        return False
    if new and not (pot.foods or to_water) and pot.awaits and pot.awaits.isdisjoint(new):
        return False  # "add the tomatoes", while water heats for the pasta
    elsewhere = is_afresh(clause) or clause.vessel() in ("pan", "bowl") or steams_or_fries(state, clause)
    if pot.foods and new and (not to_water or comes_late(clause)):
        return more_food(state, pot, clause, new, elsewhere=elsewhere)
    if not (to_water or drained) and (elsewhere or meant_elsewhere(state, pot, clause, new)):
        return False
    if (
        not new
        and to_water
        and not pot.foods
        and clause.act in ("put", "cook")
        and not salts_of(state, clause)
    ):
        new = rolled_out(state, clause) or last_stirred(state)
    if (
        not pot.foods
        and (formed := {} if soda_of(state, clause) else shaped(state, clause))
        and (sets or clause.act in ("put", "cook", "boil", "simmer"))
    ):
        new = formed
    if not (new or pot.foods or elsewhere) and state.attention is pot:
        new = names_what_was_rolled(state, clause)
        new = new or (spoken_before(state, clause) if waits else {})
    if not new:
        others = (
            state.lines_of(clause, (*LIQUIDS, "oil", "salt", "spice", "herb", "aromatic", "sweet", "flour"))
            if not elsewhere
            else {}
        )
        if others and pot.foods and pot.confidence < NAMED and not to_water:
            state.attention = None
        elif others and pot.foods and adds(clause) and (to_water or state.attention is pot):
            into = {n for m in clause.mentions if m.prep == "into" for n in m.lines}  # not "into the flour"
            pot.extra |= {line for line in others.keys() - into if state.kind(line) not in _NO_LIQUOR}
        elif others and not pot.foods and (to_water or follows_close(state, pot, clause)):
            pot.liquid.update(others)
        return False
    if pot.foods:
        pot.foods.update(new)
    else:
        _begin_with(state, clause, pot, new)
    pot.liquid.update(salts_of(state, clause))
    pot.take_time(clause)
    over = clause.base in ("pour", "tip", "ladle") and clause.has("over")  # hot water over it boils nothing
    hot = pot.heated or is_hot(clause) or "pasta" in map(state.kind, new)
    pot.heated = hot and not over
    note_absorbed(pot, clause)
    return True


def _goes_apart(state: ReadingState, clause: Clause, pot: Happening) -> bool:
    """ "Boil the potatoes in fresh water", "in another pan", "the beans in salted water", while other food
    boils in its own."""
    if is_in_new_pot(clause):
        return True
    if clause.has("fresh", "clean", "unsalted") and state.water_of(clause) is not None:
        return True
    if clause.act in BOILS and in_some_water(clause) and state.solids(clause, direct=True):
        return True
    return clause.act == "put" and "vessel" in clause.speaks and moves_on(state, pot, clause)


_TIMED = frozenset({"dip", "give", "go"})
"""With a time: "give the corn 5 minutes", "dip the leaves in for 30 seconds", "in they go for 3 minutes"."""
_DIPS = frozenset({"dip", "dunk"})
_SETS = frozenset({"set", "press", "push", "scrape", "squeeze", "grate", "snip", "pinch", "pipe", "rub"})
_GOES_IN = frozenset({"put", "cook", "boil", "simmer", "mix", "heat"})


def _begin_with(state: ReadingState, clause: Clause, pot: Happening, foods: dict[int, float]) -> None:
    """The first food in a pot of water: the broth's own time is none of the food's."""
    pot.foods, pot.clause, pot.hours = foods, clause, None
    state.begin(pot)
    state.last_foods = tuple(foods)


_STIRS = frozenset({"stir", "add", "fold", "swirl", "whisk", "incorporate"})
