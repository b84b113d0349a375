"""Lying in water: what it does to which food, and what soaks where nobody says so."""

from __future__ import annotations

from collections.abc import Sequence

from .clause_words import changes_of
from .clauses import Clause
from .doughs import has_unknown_object
from .happenings import DRY, POURED_WITHOUT_WORD, PROTEINS, SALTING, SHORT_H, SOLIDS, WET, Happening, Water
from .leavens import is_soda
from .mention import Mention
from .method_words import HEATS, phrasing, small_words
from .reading_state import HOT, ReadingState
from .salt_on_food import lay_till_next_day
from .stakes import is_salty
from .waters import is_hot
from .weekdays import WEEKDAYS

LONG_H = 4.0
_KNOWN = frozenset({"its", "their", "the"})
_SALTY_H = 0.05
"""Hours in water that take salt out of capers and seaweed."""
SOAKS = ("soak", "hold", "put", "")
"""Acts that lay food in water for its salt's sake, where it stays there."""


def heats_it_up(state: ReadingState, clause: Clause) -> None:
    """ "Soak the kombu in the water, then heat slowly": a stock, and no soak whose water goes."""
    found = state.happened[-1] if state.happened else None
    if found is None or found.kind != "soak" or found.drained or found.water is not None:
        return
    if clause.sentence == found.clause.sentence and not clause.mentions and not clause.negated:
        state.happened = state.happened[:-1]


_OF_HOT = frozenset({"water", "pot", "liquid", "broth", "liquor", "stock", "pan"})
_OF_COLD = small_words("of_cold")
_LONGEST_HOT_H = 3.0


def stays_hot(state: ReadingState, clause: Clause) -> bool:
    """ "Turn off the heat and leave the chicken in the water for another 30 minutes": it cooks on there."""
    if clause.act not in ("hold", "let") or not clause.hours or clause.words.isdisjoint(_OF_HOT):
        return False
    if not clause.words.isdisjoint(_OF_COLD) or clause.hours[0].likely > _LONGEST_HOT_H:
        return False
    inside = any(
        m.prep in ("in", "inside") and m.kind in ("water", "vessel", "line", "bath") for m in clause.mentions
    )
    pot = state.latest(HOT)
    if (
        not inside
        or pot is None
        or not pot.heated
        or pot.closed
        or not pot.foods.keys() & state.foods(clause).keys()
    ):
        return False
    likely = clause.hours[0].likely
    if (
        pot.hours is None
        or likely >= _WORTH * pot.hours.likely
        or clause.has("another", "additional", "more")
    ):
        pot.take_time(clause, more=True)
    return True


_WORTH = 0.25
"""Of the time that it cooked, from which on such a rest counts."""


def _is_left_cold(clause: Clause) -> bool:
    """ "Put it with plenty of cold water in the fridge for a day"."""
    return bool(clause.hours) and clause.hours[0].likely >= LONG_H and not is_hot(clause)


def lies_in_water(state: ReadingState, clause: Clause, water: Mention | None) -> bool:
    """ "Leave it in cold water", "put the feta in water for an hour"."""
    if water is None and clause.base == "steep" and clause.hours and clause.hours[0].likely >= LONG_H:
        solids = state.solids(clause)
        if solids and all(is_salty(state.lines[n]) for n in solids):
            return clause.has(*_DRAWS_SALT) or not clause.has("in")  # "steep out the herring for 12 hours"
        return set(map(state.kind, solids)) == {"legume"}  # "steep the peas overnight"
    if water is None or not state.foods(clause):
        return False
    in_bowl = water.prep == "with" and clause.vessel() == "bowl"
    in_bowl = in_bowl and (bool(clause.hours) or not state.lines_of(clause, SALTING))
    chilled = water.prep == "with" and clause.act == "put" and _is_left_cold(clause)
    if water.prep not in ("in", "under", "into") and not (in_bowl or chilled):
        return False
    if _OF_POT.search(clause.text):
        return False  # "let it stand in the water in which it was cooked"
    if clause.has("running", "tap") and clause.base in ("cool", "chill", "hold", "put") and not clause.hours:
        return False  # "cool under running water"
    before = {token.text for token in clause.tokens[max(water.i - 2, 0) : water.i]}
    if clause.has("cool", "cold", "cools") and before & _KNOWN:
        if state.latest(HOT) is not None or before & {"its", "their"}:
            return False  # "leave it to cool in its water"
    kinds = set(map(state.kind, state.foods(clause)))
    if kinds == {"salty"} and clause.base in _COOLS and not clause.hours:
        if hot := state.latest(HOT, state.foods(clause)):
            state.pour_off(hot)
            return False  # "dip it in boiling water, then cool in cold water"
    soon = kinds <= {"salty"} or (kinds <= {"pasta"} and clause.has("hot", "warm"))
    least = _SALTY_H if soon else SHORT_H
    waits = bool(clause.hours) and clause.hours[0].likely >= least and not is_hot(clause)
    waits = waits or _sits(state, clause)
    needs = not clause.act and clause.has("need", "needs", "want", "wants") and bool(clause.hours)
    if needs and clause.hours[0].likely >= LONG_H:
        return True  # "most need a night in cold water"
    if water.prep == "into" and not waits:
        return False
    return clause.act == "hold" or (clause.act in ("put", "let") and waits and clause.vessel() != "pot")


_DRAWS_SALT = ("milk", "buttermilk", "out")
_COOLS = frozenset({"cool", "chill", "refresh"})
_OF_POT = phrasing("in_its_pot_water")


def _sits(state: ReadingState, clause: Clause) -> bool:
    """ "Lay the hock in a bowl of cold water": pulses and what is salty soak there, said or not."""
    ahead = state.ahead[0] == clause.method or not WEEKDAYS.isdisjoint(clause.words)
    if (clause.vessel() != "bowl" and not ahead) or is_hot(clause) or clause.has("ice", "iced"):
        return False
    if clause.vessel() == "bowl" and ahead:
        return True
    lines = [state.lines[n] for n in state.foods(clause)]
    freshened = ("legume", "salty", "cheese") if ahead else ("legume", "salty")
    return all(line.kind in freshened or is_salty(line) for line in lines)


def drinks_up(state: ReadingState, happening: Happening, clause: Clause) -> bool:
    """Whether grains or bread stand in a liquid, salted or not, that they take up whole."""
    kinds = set(map(state.kind, happening.foods))
    salted = any(state.kind(line) in SALTING for line in happening.liquid)
    salted = salted or bool(happening.water and happening.water.is_salted)
    lies = clause.act in ("soak", "hold")
    if lies and salted and happening.water is not None and not clause.has("hot", "boiling"):
        return False  # rice stands in salted water to be drained
    if _is_rice_soaked(state, happening, clause):
        return False
    long = bool(clause.hours) and clause.hours[0].likely >= LONG_H
    return clause.act in SOAKS and kinds <= {"grain", "bread", "flour"} and not long


def _is_rice_soaked(state: ReadingState, happening: Happening, clause: Clause) -> bool:
    """ "Let the rice soak for half an hour": in cold water, which is poured away before it is cooked."""
    lies = clause.act == "soak" or (clause.act == "hold" and "water" in clause.speaks)
    if not (lies and clause.hours) or clause.hours[0].likely < SHORT_H or happening.liquid:
        return False
    measured = bool(happening.water and happening.water.amount) or any(
        "milk" in map(state.kind, company) for company in state.company if company & happening.foods.keys()
    )
    if measured or clause.has("hot", "boiling", "warm", "absorbed", "undrained"):
        return False
    return all(
        "rice" in state.lines[n].words and _NO_GRAIN.isdisjoint(state.lines[n].words) for n in happening.foods
    )


_NO_GRAIN = frozenset({"noodle", "paper", "vermicelli", "flour", "stick"})


_PICKLED = frozenset({"pickled", "preserved", "salted", "fermented", "sauerkraut", "brined"})


def _is_pickled(state: ReadingState, line: int) -> bool:
    """Whether vegetables or fruit were bought in salt or vinegar."""
    return bool(_PICKLED.intersection(state.lines[line].words))


def worth_soaking(state: ReadingState, happening: Happening, clause: Clause) -> bool:
    """Soaking moves salt out of what is salty, and takes pulses a night; bread in milk is eaten with it."""
    kinds = set(map(state.kind, happening.foods))
    liquid = set(map(state.kind, happening.liquid))
    if liquid & {"milk", "egg", "savoury", "stock", "wine"} and not kinds & PROTEINS:
        return False
    if kinds & (PROTEINS | {"salty", "cheese", "legume", "pasta"}):
        return True
    if _is_rice_soaked(state, happening, clause):
        return True
    if all(_is_pickled(state, n) or is_salty(state.lines[n]) for n in happening.foods):
        return True
    hours = happening.hours or (clause.hours[0] if clause.hours else None)
    return hours is not None and hours.likely >= LONG_H and bool(kinds & {"grain", "vegetable", "nut"})


def soak_instead(state: ReadingState, pot: Happening) -> None:
    """What was covered with water and never heated has soaked, in salt water or in plain."""
    kinds = set(map(state.kind, pot.foods))
    salty = bool(pot.water and pot.water.strength) or any(state.kind(line) in SALTING for line in pot.liquid)
    savoury = "savoury" in map(state.kind, pot.liquid)
    pot.liquid |= {n: 1.0 for n in pot.extra if is_soda(state.lines[n])}
    pot.kind = "brine" if salty and kinds & SOLIDS else "marinate" if savoury else "soak"


def still_waiting(state: ReadingState, clause: Clause, water: Mention) -> Happening | None:
    """The pot that stands there; in "leave two hours. Boil 3 litres of water" what stood has soaked."""
    pot = state.pot
    if pot is None or not pot.hours or pot.heated or clause.act not in ("boil", "heat") or water.prep:
        return pot
    said = clause.tokens[water.i - 1].text if water.i else ""
    if pot.foods and said not in ("the", "this", "its", "same"):
        soak_instead(state, pot)
        state.pot = None
    return state.pot


def soaked_alone(state: ReadingState, clause: Clause, foods: dict[int, float]) -> dict[int, float]:
    """ "Mix the potatoes and the olives, soaked for an hour": of what no clause of soaking names, only what
    soaking is for; though it was named beside: "mix the potatoes with the olives, soaked"."""
    told = clause.verb is not None and clause.verb.form == "past"
    if state.solids(clause, direct=True):
        return _worth_soaking(state, foods) if told else foods
    if told and state.last_sentence == clause.sentence:
        just = (n for n, turn in state.last_spoken.items() if turn >= state.turn - _JUST)
        foods = foods | {n: 1.0 for n in just if state.kind(n) in SOLIDS and _is_worth(state, n)}
    return _worth_soaking(state, foods)


def _worth_soaking(state: ReadingState, foods: dict[int, float]) -> dict[int, float]:
    return {n: s for n, s in foods.items() if _is_worth(state, n)} or foods


def _is_worth(state: ReadingState, line: int) -> bool:
    return state.kind(line) in _SOAKS or is_salty(state.lines[line])


_JUST = 2
"""Clauses since which food was named, at the most, that a participle tells of."""


def laid_in_water(state: ReadingState, clause: Clause) -> dict[int, float]:
    """All that a clause lays in water: "steep peas and pork overnight in cold water"."""
    if clause.act not in SOAKS or state.water_of(clause) is None:
        return {}
    named = state.solids(clause, direct=True)
    return {n: s for n, s in named.items() if state.kind(n) in PROTEINS | {"legume", "salty", "cheese"}}


def is_of_others(state: ReadingState, clause: Clause) -> bool:
    """Whether a clause works on flour, saffron or gelatine, and on no food that a bath changes."""
    direct = [m for m in clause.mentions if m.kind == "line" and not m.prep and m.i <= clause.aim]
    if any(m.prep == "into" for m in clause.mentions) and any(_is_liquid(state, m) for m in direct):
        return True  # "let the milk soak into the crumbs"
    if not direct and has_unknown_object(clause):
        about = set(state.main_foods()) | set(state.last_foods)
        return not any(state.kind(n) in _SOAKS or is_salty(state.lines[n]) for n in about)
    return any(state.kind(n) in DRY for m in direct for n in m.lines)


_SOAKS = frozenset({"salty", "legume", "grain", "nut"})
"""What is soaked under whatever name: "soak the bacalao"; not "soak the plank", before the fish."""


def _is_liquid(state: ReadingState, mention: Mention) -> bool:
    return any(state.kind(n) in WET for n in mention.lines)


def note_changes(bath: Happening, clause: Clause) -> None:
    """Take how often the water is changed, where nobody said so before."""
    bath.water_changes = bath.water_changes or changes_of(clause, bath.hours.likely if bath.hours else None)


def changes_water(state: ReadingState, clause: Clause) -> bool:
    """ "Change the water twice", in a sentence of its own."""
    bath = state.happened[-1] if state.happened else None
    if bath is None or bath.closed or bath.heated or not (bath.kind == "soak" or bath is state.pot):
        return False
    if bath is state.pot and lay_till_next_day(state, clause, bath):
        soak_instead(state, bath)  # "next morning change the water and leave it until the evening"
        state.pot = None
    before = bath.water_changes
    note_changes(bath, clause)
    if bath.water_changes != before and "every" not in clause.words:
        bath.take_time(clause)  # "1 hour, changing the water once"
    return bath.water_changes != before


def stays_in_pot(state: ReadingState, clause: Clause) -> bool:
    """ "Turn off the heat and let it soak for 15 minutes": in the pot that it was boiled in."""
    pot = state.pot
    if pot is None or not (pot.foods and pot.heated) or pot.closed or state.water_of(clause) is not None:
        return False
    return not state.solids(clause, direct=True).keys() - pot.foods.keys()


def stands_in_brine(state: ReadingState, pot: Happening) -> bool:
    """Whether vegetables stand in water and salt."""
    salted = "salt" in map(state.kind, pot.liquid) or bool(pot.water and pot.water.is_salted)
    return salted and set(map(state.kind, pot.foods)) <= {"vegetable", "fruit"}


def _is_counted_out(state: ReadingState, soak: Happening) -> bool:
    """Whether food lies in all of the water that the list measures."""
    waters = {n for n in soak.liquid if state.kind(n) == "water"}
    whole = waters == state.waters and all(soak.liquid[n] >= 1.0 for n in waters)
    return whole and bool(waters) and all(state.lines[n].line.amount is not None for n in waters)


_POTS = frozenset({"pot", "pan"})
_POURS_ON = frozenset({"cover", "fill", "submerge", "fresh", "clean", "new", "change"})


_PICKLES = ("brine", "marinate")
_PICKLED_WITH = SALTING | {"acid", "sweet"}


def settle_soak(state: ReadingState, soak: Happening, clauses: Sequence[Clause]) -> None:
    """ "Soak the herring in cold water. Boil vinegar, sugar and water": the one water of the list is the
    pickle's, and no line names that of the soak. What food goes on cooking in is eaten."""
    if soak.liquid:
        pickles = [each for each in state.happened if each.kind in _PICKLES and each.same_as is None]
        sour = (p.liquid for p in pickles if not _PICKLED_WITH.isdisjoint(map(state.kind, p.liquid)))
        if soak.liquid.keys() <= state.waters & set().union(*sour):
            soak.liquid, soak.water = {}, soak.water or Water()
    if soak.eaten is None and not soak.drained:
        soak.eaten = 1.0 if stays_where_it_cooks(state, soak, clauses) else None


def stays_where_it_cooks(state: ReadingState, soak: Happening, clauses: Sequence[Clause]) -> bool:
    """ "Put the beans in a saucepan, cover with water and leave overnight. Next day cook them": in the water
    that they lay in, if nobody says that it goes or that other water comes."""
    laid = [c for c in clauses if c.method == soak.clause.method and c.start <= soak.clause.start]
    vessel = next((name for c in reversed(laid) if (name := c.vessel())), "")
    kinds, counted = set(map(state.kind, soak.foods)), _is_counted_out(state, soak)
    in_pot = vessel in _POTS or counted
    if kinds & (PROTEINS | {"salty"}):
        return False  # salt fish lies in water so that its salt goes
    if counted and kinds <= {"grain", "bread"}:
        return True  # they drink up what the list measures for them
    for clause in clauses:
        if clause.place <= soak.clause.place:
            continue
        if clause.act in HEATS:
            if clause.has("soaking") or not in_pot:
                return clause.has("soaking")  # "cook them in their soaking water"
            named = {n for m in clause.mentions if not m.prep for n in m.lines}
            elsewhere = clause.vessel() or clause.has("cooker")
            elsewhere = elsewhere or any(m.kind == "water" and m.prep == "in" for m in clause.mentions)
            return not (elsewhere or named - soak.foods.keys())
        if "water" in clause.words and not clause.words.isdisjoint(_POURS_ON):
            return False
    return False


def draws_salt_out(state: ReadingState, bath: Happening) -> bool:
    """ "Put the salt herring in milk for 2 hours": what it lies in takes salt and gives none."""
    mild = _MILD.issuperset(map(state.kind, bath.liquid)) and not (bath.water and bath.water.is_salted)
    named = bath.clause.act == "marinate" or not bath.liquid
    return mild and not named and all(is_salty(state.lines[n]) for n in bath.foods)


_MILD = frozenset({"milk", "water"})


def has_stood(state: ReadingState, pot: Happening) -> bool:
    """Whether food lay so long in water that nobody heated that it soaked: cheese at once."""
    long = pot.hours is not None and pot.hours.likely >= LONG_H
    return not pot.heated and (long or set(map(state.kind, pot.foods)) == {"cheese"})


def new_water_said(clause: Clause) -> bool:
    return (
        clause.act == "soak"
        and clause.has("fresh", "clean", "plain", "regular", "unsalted")
        and not clause.has("change", "changing")
    )


def never_stands(state: ReadingState, brine: Happening) -> bool:
    """ "The potatoes go into salted water for 20 minutes", "lay the leeks in salted water until tender": it
    boils, though nobody says so."""
    kinds = set(map(state.kind, brine.foods))
    if (brine.hours and brine.hours.likely > _BOILS_H) or "acid" in map(state.kind, brine.liquid):
        return False
    roots = not kinds.isdisjoint(("potato", "pasta")) and kinds <= POURED_WITHOUT_WORD
    roots = roots and brine.clause.base not in _CUTS_INTO  # "grate the potatoes into salted water"
    roots = roots and brine.clause.act != "soak" and brine.clause.words.isdisjoint(_COLD)
    return roots or brine.clause.has("tender", "cooked", "done")


_BOILS_H = 1.0
_COLD = frozenset({"cold", "ice", "iced", "icy", "bowl", "basin", "tub", "rest", "leave"})
_CUTS_INTO = frozenset({"grate", "shred", "slice", "cut", "chop", "dice", "peel"})
