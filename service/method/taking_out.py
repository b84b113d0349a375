"""Whether a clause of draining or taking out is about food and its liquid, and not about fat or a lid."""

from __future__ import annotations

from .bought_salty import is_of_liquid
from .clause_words import is_only_if
from .clauses import Clause
from .hand_steps import packs_down
from .happenings import PROTEINS, Happening
from .method_words import phrasing, small_words
from .pots_ending import water_is_gone
from .reading_state import COLD, HOT, ReadingState
from .salt_on_food import A_NIGHT, NEXT_DAY

_FAT = frozenset({"fat", "oil", "grease", "drippings"})
_AFRESH = phrasing("with_fresh_water")
_SCRAPED = ("off", "away", "clean", "cure", "rub", "salt", "marinade", "excess", "paste", "miso")
"""Beside "scrape" these say that food is cleaned, not that a pan is."""


def about_fat(clause: Clause) -> bool:
    """ "Drain off the fat"; not "drain, then dress with the oil"."""
    if not clause.has(*_FAT) or clause.has("water", "brine", "marinade", "pasta"):
        return False
    words = [token.text for token in clause.tokens]
    at = next(i for i, word in enumerate(words) if word in _FAT)
    return {"with", "dress", "toss"}.isdisjoint(words[:at])


def on_paper(clause: Clause) -> bool:
    """ "Drain on kitchen paper": fat drips off what was fried, and no liquid is poured away."""
    return clause.act == "drain" and clause.has("paper", "towel", "towels", "rack", "newspaper")


_SCOOPS = ("ladle", "ladleful", "ladlefuls", "cupful", "cupfuls", "cup", "cups")


def _is_of_coating(state: ReadingState, clause: Clause) -> bool:
    """Whether what is shaken off is the flour that the same sentence turns food in."""
    said, flours = clause.sentence.lower(), state.index.of_kinds("flour")
    return (bool(state.happened) and state.happened[-1].kind == "dredge") or any(
        state.lines[n].words[-1] in said for n in flours
    )


def _shakes_bath(state: ReadingState, clause: Clause) -> bool:
    """ "Seal the jar and shake it", "shake now and then": what lies in a marinade is turned in it."""
    bath = state.pending or (state.happened[-1] if state.happened else None)
    stands = bath is not None and bath.kind in ("marinate", "brine") and not bath.closed
    return stands and clause.words.isdisjoint(_SHAKEN_OFF)


_SHAKEN_OFF = frozenset({"off", "out", "dry", "excess", "surplus", "liquid", "colander", "sieve", "water"})


def moves_nothing(state: ReadingState, clause: Clause) -> bool:
    """ "Brush it on", "press down", "drain on paper": no bath is left."""
    if clause.base == "scrape" and not clause.has(*_SCRAPED):
        return True  # "scrape up the brown bits"
    if packs_down(clause):
        return True
    if clause.base == "squeeze" and _is_of_lemon(state, clause):
        return True
    vessels = clause.act in ("rinse", "dry") and clause.speaks <= {"vessel"} and bool(clause.mentions)
    if vessels and clause.base != "shake":
        return not clause.mentions[0].prep  # "rinse the bowl"
    if clause.act == "rinse" and "line" in clause.speaks and _washes_others(state, clause):
        return True
    if clause.base == "shake" and (_is_of_coating(state, clause) or _shakes_bath(state, clause)):
        return True
    boils = state.pot is not None and state.attention is state.pot
    fried = clause.act == "drain" and not (clause.mentions or boils)  # "fry, drain, and fry again"
    fried = fried and clause.verb is not None and clause.verb.form != "past"  # "the beans, drained"
    if state.last_heat == "fry" and (fried or on_paper(clause)):
        return True
    return clause.act in ("drain", "discard", "remove") and about_fat(clause)


def _is_of_lemon(state: ReadingState, clause: Clause) -> bool:
    """ "Squeeze in the lemon", "squeeze the limes over it"."""
    first = next((m for m in clause.mentions if m.lines), None)
    if first is None or any(is_of_liquid(state, n) for n in state.lines_of(clause)):
        return False  # "squeeze the juice out of the sauerkraut", of a list with lemon juice
    return all(state.kind(n) in ("acid", "fruit") for n in first.lines)


_WASHED = frozenset({"herb", "aromatic", "acid", "spice", "vegetable", "fruit", "potato"})


def _washes_others(state: ReadingState, clause: Clause) -> bool:
    """ "Wash and chop the dill", "rinse the tomatoes", while cucumbers stand under salt; "wash with egg"."""
    lines = state.lines_of(clause)
    if any(m.prep == "with" and state.kind(n) == "egg" for m in clause.mentions for n in m.lines):
        return True
    if not lines or not set(map(state.kind, lines)) <= _WASHED or any(is_of_liquid(state, n) for n in lines):
        return False
    baths = filter(None, (*state.happened, state.pending, state.waited))
    return all(lines.keys().isdisjoint({*each.foods, *each.liquid}) for each in baths)


_LIQUIDS = ("brine", "marinade", "water", "liquid", "cure")
_OFF_THE_HEAT = small_words("taken_off")
_PARTS = ("half", "third", "quarter", "few", "some", "ladle", "ladleful", "ladlefuls", "cup", "cupful")


def takes_out(state: ReadingState, clause: Clause, found: Happening) -> bool:
    """ "Remove the pork from the brine", "lift out with a slotted spoon"; not "remove from the heat"."""
    if "line" not in clause.speaks and clause.has(*_PARTS) and not clause.has("water", "brine"):
        return False  # "take out a third and blend it", of a soup
    if found.kind not in HOT and state.last_heat == "fry" and clause.vessel() == "pan":
        return False  # "remove the chicken from the wok", which lay in its marinade before
    if clause.base == "take" and clause.has("up"):
        return False  # "all the water is taken up"
    if clause.has(*_SCOOPS) and not clause.has("water", "brine", "out"):
        return False  # "take two ladlefuls of the beans"
    if not _OFF_THE_HEAT.isdisjoint(clause.words) and not clause.has(*_LIQUIDS, "slotted"):
        return False
    if found.kind in HOT and found.extra:
        return clause.has("water") or ("all" in clause.speaks and clause.has("out"))
    solids = state.solids(clause)
    said = clause.has(*_LIQUIDS, "bag", "fridge")
    named = {n for m in clause.mentions if not m.prep for n in m.lines}
    about = set(solids or named or state.last_foods)
    if not said and about and not about & set(found.foods):
        return False
    if found.kind in HOT and solids and set(found.foods) - set(solids) and not clause.has("water"):
        return False
    if found.kind in HOT:
        return clause.has("water", "slotted", "pot", "out", "ice", "skimmer", "tongs") or bool(solids)
    return True


def leaves_its_pot(state: ReadingState, clause: Clause, pot: Happening) -> bool:
    """Whether what boiled is out of its water, for it cools in other water, or eggs lose their shells."""
    if not _ICED.isdisjoint(clause.words):
        return True
    if clause.base in _COOLS:
        return "water" in clause.speaks and clause.has("cold", "cool")
    if clause.base not in _SHELLS or state.solids(clause, direct=True).keys() - pot.foods.keys():
        return False
    return set(map(state.kind, pot.foods)) == {"egg"}


_ICED = frozenset({"ice", "iced", "refresh", "shock"})
_COOLS = frozenset({"chill", "cool", "plunge"})
_SHELLS = frozenset({"peel", "crack", "shell"})


def empties(clause: Clause, found: Happening) -> bool:
    """ "Pour everything out", of a pot that begins again; "pour off", with no word of what."""
    if not clause.speaks and len(clause.tokens) <= _BARE and not _OFF.isdisjoint(clause.words):
        return True
    return clause.speaks == _ALL and clause.has("out") and found.kind in HOT


_ALL = frozenset({"all"})
_BARE, _OFF = 3, frozenset({"off", "away", "out"})


def both_poured(state: ReadingState, pot: Happening) -> None:
    """ "Throw both these waters away": that of the pot before, too."""
    before = state.happened[: state.happened.index(pot)]
    other = next((h for h in reversed(before) if h.kind in HOT and not h.extra), None)
    if other is not None:
        other.drained, other.closed, other.eaten = True, True, 0.0


def starts_again(clause: Clause) -> bool:
    """Whether a sentence goes on with fresh water once it has thrown the old away."""
    return _AFRESH.search(clause.sentence, max(clause.sentence.find(clause.text), 0)) is not None


def goes_off(clause: Clause) -> bool:
    """Whether what clung to food is drained, rinsed or wiped off; not "pat dry with the towel"."""
    if clause.act in ("discard", "rinse", "drain") or clause.has("discard", "discarding", "rinse"):
        return True
    if _takes_off(clause):
        return True
    wiped = clause.base in ("wipe", "brush", "shake") or (clause.base == "scrape" and clause.has(*_SCRAPED))
    wiped = wiped and (clause.has("salt") or not clause.has("wet", "moisture", "damp"))
    return clause.act == "dry" and wiped and not any(m.prep == "with" and m.lines for m in clause.mentions)


def _takes_off(clause: Clause) -> bool:
    """ "Remove the marinade": the liquid goes, and not the food out of it."""
    off = clause.act == "remove" or (clause.base == "strain" and clause.has("off")) or clause.has("clean")
    return off and any(m.kind == "bath" and not m.prep for m in clause.mentions)


def all_drained(state: ReadingState, found: Happening, clause: Clause) -> None:
    """ "Next day drain it all": whatever still lies in water."""
    for each in state.happened:
        cold = each.kind == "soak" or (each.kind in HOT and not each.heated)
        if each is not found and cold and not each.closed:
            each.drained = True
            ended(state, each, clause)
            state.pot = None if state.pot is each else state.pot


def drips_off(state: ReadingState, clause: Clause) -> None:
    """ "Let the buttermilk drip off": what food lay in stays behind."""
    if not clause.has("drip", "drips", "dripping") or clause.negated:
        return
    bath = state.latest(("marinate",))
    if bath is not None and bath.eaten is None and clause.has("off", "excess", "back", "away"):
        bath.eaten, bath.drained, bath.closed = 0.0, True, True


def others_too(state: ReadingState, clause: Clause, found: Happening) -> None:
    """ "Throw both waters away", "drain it all": more than what was spoken of last."""
    if clause.act == "discard" and found.kind in HOT and clause.has("both", "waters"):
        both_poured(state, found)
    if clause.act == "drain" and clause.has("all", "both", "everything", "each"):
        all_drained(state, found, clause)


def ended(state: ReadingState, bath: Happening, clause: Clause) -> None:
    """Food has left what it lay in: the next morning, if the clause says so; what was said to be done the day
    before is done."""
    bath.closed = True
    if bath.kind in HOT:
        water_is_gone(state, clause, bath)
        if not (bath.heated or bath.hours) and NEXT_DAY.search(clause.sentence):
            bath.hours = A_NIGHT  # "put the cod in water; the next day drain it"
    elif bath.hours is None and bath.ahead is None and NEXT_DAY.search(clause.sentence):
        bath.ahead = A_NIGHT
    if bath.ahead is not None:
        state.ahead = (-1, None)


def is_poured_through(state: ReadingState, found: Happening) -> bool:
    """Whether straining is how food leaves a bath: a joint of meat is lifted out."""
    return not found.closed and not set(map(state.kind, found.foods)) & PROTEINS


_RINSES = ("rinse", "rinsing", "rinsed")


def note_rinsing(clause: Clause, found: Happening) -> None:
    """ "Rinse and dry": what lay in a bath is washed as it leaves it."""
    can_be = found.kind in (*COLD, "drain", "ferment") and not is_only_if(clause)
    found.rinsed = found.rinsed or (can_be and (clause.act == "rinse" or clause.has(*_RINSES)))
    named = clause.act == "rinse" or clause.has(*_RINSES, "wash")
    if (found.rinsed and clause.act == "rinse") or ((found.rinsed or found.kind in HOT) and named):
        found.rinsing = found.rinsing or clause
