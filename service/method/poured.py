"""Hot water in which nothing boils, and whether the water of a pot is poured away, said or not."""

from __future__ import annotations

import math
import re

from ..lines.line import Line
from ..units.kitchen_units import to_millilitres
from .clauses import Clause
from .happenings import POURED_WITHOUT_WORD, PROTEINS, SOLIDS, Happening
from .leavens import is_soda
from .left_to_the_cook import food_grams, grams_in
from .method_words import phrasing, small_words
from .reading_state import ReadingState
from .weights_told import grams_of, salt_grams

_OVER_STEAM = phrasing("over_steam")
_CLINGS = phrasing("water_clings")
_SCALD_H = 0.1
_DAYS_H = 48.0
"""Hours in salt from which on meat is corned, its water like a bought ham's: common practice, no source."""
_BRAISED_ML = 500.0
"""ml of water up to which nothing is boiled in it that would be lifted out: common practice, no source."""


def is_no_pot(state: ReadingState, clause: Clause) -> bool:
    """Whether a clause's hot water only steams or scalds: no food boils in it."""
    in_oven = clause.vessel() == "bowl" and "bake" in clause.sentence  # "set in a tin of hot water and bake"
    over = in_oven or _OVER_STEAM.search(clause.text) is not None or _CLINGS.search(clause.text) is not None
    return over or only_steams(state, clause) or _scalds(state, clause)


def only_steams(state: ReadingState, clause: Clause) -> bool:
    """ "Pour boiling water halfway up the dumplings, cover and steam": of food that no line names."""
    return "steam" in clause.sentence and not state.solids(clause)


_COOKS = re.compile(r"\b(?:boil|simmer|cook)\b", re.IGNORECASE)


def _scalds(state: ReadingState, clause: Clause) -> bool:
    """ "Pour boiling water over the tomatoes" that are to be peeled: it touches the skin alone."""
    over = clause.base == "pour" and clause.has("over")
    short = not clause.hours or clause.hours[0].likely <= _SCALD_H
    if over and clause.has("skin", "rind"):
        return True
    if (
        over
        and clause.vessel() in ("pan", "pot")
        and _COOKS.search(clause.sentence.partition(clause.text)[2])
    ):
        return False  # "pour boiling water over the beans in a pan, add salt and boil"
    kinds = set(map(state.kind, state.solids(clause)))
    return over and short and bool(kinds) and kinds <= {"vegetable", "fruit", "nut"}


def _of_water_alone(pot: Happening, state: ReadingState) -> bool:
    """Whether a pot is of water that no line names, or that the list gives with soda and the like."""
    listed = [state.lines[n] for n in pot.liquid]
    soda = any(map(is_soda, listed))
    return pot.water is not None or (soda and any(line.kind == "water" for line in listed))


def _cured_before(pot: Happening, state: ReadingState) -> bool:
    """Whether the food of a pot was salted before: what draws its salt is poured away, but in a soup or
    from beans or grain that it flavours."""
    if set(map(state.kind, pot.foods)) & {"legume", "grain"}:
        return False
    salted = {n for each in state.happened if each.kind in ("brine", "dry_cure", "soak") for n in each.foods}
    meats = {n for n in pot.foods if state.kind(n) in PROTEINS}
    return bool(meats & salted) and not state.is_soup


_CURED = small_words("cured_meat")


def _of_little_water(pot: Happening, state: ReadingState) -> bool:
    """Whether the list gives a pot a cup or two of water: its food is braised in it."""
    waters = [state.lines[n].line for n in pot.liquid if state.kind(n) == "water"]
    if pot.water is not None or not waters or any(each.amount is None or not each.unit for each in waters):
        return False
    millilitres = (
        each.amount.likely * (to_millilitres(each.unit) or math.inf)
        for each in waters
        if each.amount and each.unit
    )
    return sum(millilitres) <= _BRAISED_ML


def boils_cured(pot: Happening, state: ReadingState) -> bool:
    """Whether a joint of ham or corned meat, bought so or cured for days, boils by itself: its water is too
    salty for anything but soup, and for beans or grain that it is there to flavour."""
    meats = [n for n in pot.foods if state.kind(n) in PROTEINS]
    if _of_little_water(pot, state) or set(map(state.kind, pot.foods)) & {"legume", "grain"}:
        return False
    cured = {n for each in state.happened if _cures_for_days(each) for n in each.foods}
    salty = all(n in cured or _CURED & set(state.lines[n].words) for n in meats)
    return bool(meats) and salty and not state.is_soup


def _cures_for_days(each: Happening) -> bool:
    return each.kind in ("brine", "dry_cure") and each.hours is not None and each.hours.likely >= _DAYS_H


def pot_is_poured(pot: Happening, state: ReadingState) -> bool:
    """Whether a pot's water is poured away, as the method says or as nobody needs to say."""
    if pot.drained:
        return True
    if (
        "flour" in set(map(state.kind, pot.foods))
        and pot.extra <= pot.liquid.keys()
        and _of_water_alone(pot, state)
    ):
        return True  # bagels and dumplings are lifted out, said or not
    if pot.same_as is not None:
        return pot_is_poured(pot.same_as, state)
    if boils_cured(pot, state) and pot.eaten is None:
        return True
    if pot.absorbed or pot.extra:
        return False
    if pot.water is not None and _cured_before(pot, state):
        return True
    kinds = set(map(state.kind, pot.foods))
    if pot.eaten is not None and pot.eaten > 0.5:
        return False
    if pot.water is None:
        # Water that the list counts out is meant to stay, but for pasta and eggs, or where it is no broth.
        return (bool(kinds & {"pasta", "egg"}) and len(pot.foods) == 1) or _is_no_broth(pot, state)
    if kinds == {"salty"}:
        return _is_dipped(pot)
    if _cooks_to_a_sauce(pot, state):
        return False
    if "legume" in kinds and kinds & {"vegetable", "salty"}:
        return False  # beans with their roots and onions are a stew, unless it is drained
    return bool(kinds & POURED_WITHOUT_WORD) and kinds <= (
        POURED_WITHOUT_WORD | {"salty"} | SOLIDS - PROTEINS - {"grain"}
    )


_TOO_SALT = 0.011
"""Salt in weights of the water, from which on nobody drinks it; common practice, no source."""


def _is_no_broth(pot: Happening, state: ReadingState) -> bool:
    """ "Boil the beans in the water with the salt": one vegetable and salt alone, or too salt to eat."""
    kinds = set(map(state.kind, pot.liquid))
    if kinds != {"water", "salt"} or state.is_soup or pot.eaten is not None:
        return False
    water_g = grams_in(state, pot.liquid, ("water",))
    foods = set(map(state.kind, pot.foods))
    if water_g < food_grams(pot, state) or not foods <= PROTEINS | POURED_WITHOUT_WORD:
        return False  # a cup of water to braise it in, or what groats drink up
    salt_g = sum([_salt_g(state.lines[n].line) for n in pot.liquid if state.kind(n) == "salt"])
    strong = salt_g >= _TOO_SALT * water_g
    return strong or (len(pot.foods) == 1 and foods <= POURED_WITHOUT_WORD)


def _salt_g(line: Line) -> float:
    """What salt weighs, by the spoon as well; 0 where its line does not say."""
    amount = f"{line.amount.likely:g} {line.unit}" if line.amount is not None and line.unit else ""
    return (salt_grams(amount) or 0.0) if amount else 0.0


def _cooks_to_a_sauce(pot: Happening, state: ReadingState) -> bool:
    """ "Tomatoes in with half a can of water, simmer 12 minutes", longer than it takes to skin them; "carrots
    in with a cup of water, simmer", in less than they weigh."""
    if pot.hours is None or pot.hours.likely <= _SCALD_H or pot.water is None or pot.water.is_salted:
        return False
    said_g = grams_of(pot.water.amount)
    is_little = pot.kind == "simmer" and said_g is not None and said_g < food_grams(pot, state)
    return is_little or all("tomato" in state.lines[n].words for n in pot.foods)


def _is_dipped(pot: Happening) -> bool:
    """ "Dip the seaweed in boiling water for ten seconds": nobody eats that water."""
    short = pot.hours is not None and pot.hours.likely <= _SCALD_H
    return short or (pot.hours is None and pot.clause.has("dip", "plunge", "blanch", "scald"))
