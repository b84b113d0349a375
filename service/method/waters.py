"""What a clause says of hot water: how much there is, and the salt in it."""

from __future__ import annotations

import re
from collections.abc import Iterable

from .amounts_said import BY_HAND, ONE, of_salt_alone
from .clause_words import strength_of
from .clauses import Clause
from .happenings import Happening, Water, with_salt
from .left_to_the_cook import grams_in, grams_roughly
from .method_words import HEATS, small_words
from .reading_state import ReadingState
from .weights_told import grams_of, per_litre_g

_BOILS = small_words("boils")
_TILL = frozenset({"before", "after"})
"""Before "boiling" at the beginning these tell when something else is done."""
_LARGE = re.compile(
    r"\b(?:large|big|huge) (?:\w+ )?(?:pot|(?:sauce)?pan|stockpot|kettle|potful) (?:\w+ )?of "
    r"(?:[\w-]+,? ){0,3}water\b|\bplenty of (?:[\w-]+,? ){0,3}water\b",
    re.IGNORECASE,
)
LARGE_POT = "2.5 to 4 l water"
"""What a large pot of water holds; common practice, no source."""


def is_hot(clause: Clause) -> bool:
    if clause.act in HEATS and clause.base != "warm":
        return not (clause.base == "bring" and "down" in clause.words)
    if clause.celsius is not None and clause.act == "hold" and clause.celsius >= _DRAWS_C:
        return clause.words.isdisjoint(_OVENS)  # "let it draw at 85 C"
    if _BOILS.isdisjoint(clause.words):
        return False
    return clause.tokens[0].text not in _TILL or clause.tokens[1].text not in _BOILS


_DRAWS_C = 65.0
"""Heat, C, from which on food cooks in its water while it only stands there."""
_OVENS = frozenset({"oven", "warm"})


def waters(state: ReadingState, clause: Clause) -> dict[int, float]:
    return state.lines_of(clause, ("water",))


def salts_of(state: ReadingState, clause: Clause) -> dict[int, float]:
    return state.lines_of(clause, ("salt",))


_SALTED_G_L = (3.0, 60.0)
"""Salt, g a litre, between which a line of salt may be that of a line of water."""


def salt_beside(state: ReadingState, water: Iterable[int]) -> dict[int, float]:
    """The line of salt that makes the list's water "salted water", where one fits its amount."""
    litres = grams_in(state, water) / 1000
    if litres <= 0:
        return {}
    low, high = (each * litres for each in _SALTED_G_L)
    fit = [
        n
        for n in state.index.of_kinds("salt")
        if n not in state.spoken and low <= (grams_roughly(state.lines[n]) or 0.0) <= high
    ]
    return {fit[0]: 1.0} if fit else {}


def water_for(state: ReadingState, clause: Clause) -> Water | None:
    """Water that no line names, as salty as the clause says."""
    if any(grams_roughly(state.lines[n]) for n in waters(state, clause)):
        return None
    said = state.salt_said(clause)
    strength = strength_of(clause) or ("salted" if said or clause.base == "salt" else "")
    amount = water_told(state, clause) or (LARGE_POT if _LARGE.search(clause.text) else "")
    if says_plain(clause):
        return Water("", "", amount, said_plain=True)
    return Water(strength, salt_of_pot(clause, strength), amount)


def says_plain(clause: Clause) -> bool:
    """ "In unsalted water, for salt toughens it", "boil 20 minutes, no salt needed"."""
    if clause.has("unsalted") or (clause.has("plain") and not salt_amount(clause)):
        return True
    return "salt" in clause.text.lower() and _WITHOUT_SALT.search(clause.text) is not None


_WITHOUT_SALT = re.compile(r"\b(?:no|without(?: any)?|omit(?:ting)? (?:the )?) ?salt\b", re.IGNORECASE)


def salt_of_pot(clause: Clause, strength: str = "") -> str:
    """The salt that a clause puts into a pot: by the litre of its water, or so much in all; "" if unsaid."""
    salt = salt_amount(clause)
    by_litre = per_litre_g(clause.text) if salt or strength else None
    return f"{by_litre:g} g per litre" if by_litre else salt


def water_said(clause: Clause) -> str:
    """The amount of water that a clause gives, as written; "" where it gives none that can be weighed."""
    amount = _SALTED.sub("", amount_said(clause, "water"))
    return amount if amount and grams_of(amount) else ""


def water_told(state: ReadingState, clause: Clause) -> str:
    """The amount of water that a clause gives, or that of the last bath: "the same amount of water"."""
    if (said := water_said(clause)) or "same" not in clause.words or not _AS_MUCH.search(clause.text):
        return said
    return next((h.water.amount for h in reversed(state.happened) if h.water and h.water.amount), "")


_AS_MUCH = re.compile(r"\bthe same (?:amount|quantity|volume|measure) of (?:\w+ ){0,2}water\b", re.IGNORECASE)


_SALTED = re.compile(
    r"\b(?:(?:lightly|well|generously|heavily|slightly|very|properly|strongly|highly)[ -])?salt(?:ed|y),? ",
    re.IGNORECASE,
)
"""What makes "3 litres of salted water": the salt is counted by itself."""


def lies_in_mixture(state: ReadingState) -> bool:
    """Whether some food lies already in what was stirred last."""
    return any(not state.mixture.lines.keys().isdisjoint(each.liquid) for each in state.happened)


def salt_into_pot(state: ReadingState, pot: Happening) -> None:
    """ "Add the salt to the water and boil the potatoes in it": what was stirred into water goes along."""
    mixture = state.mixture
    kinds = set(map(state.kind, mixture.lines)) if not mixture.closed else set()
    watery = mixture.water is not None or "water" in kinds
    if not (watery and (mixture.salt or "salt" in kinds) and kinds <= _IN_SALTED_WATER):
        return
    if lies_in_mixture(state):
        return  # that was the pot of another food
    pot.liquid |= mixture.shares()
    if mixture.water is not None:
        pot.water = mixture.water
        with_salt(pot, mixture)
    mixture.closed = True


_IN_SALTED_WATER = frozenset({"water", "salt", "oil", "herb", "spice"})
_FURTHER = frozenset({"cold", "ice", "iced", "icy", "ice-cold", "more", "another", "further", "cool"})
"""Words of water that thins and cools what salt was dissolved in hot."""


def with_more_water(state: ReadingState, water: Water | None, clause: Clause, salt: str) -> Water:
    """The water of a mixture, with what a clause adds: "a quart of hot water … then a quart of ice water"."""
    said = water_told(state, clause)
    if water is None:
        return Water(salt=salt, amount=said)
    first, more = grams_of(water.amount) if water.amount else None, grams_of(said) if said else None
    if first and more and clause.act in ("put", "mix") and not _FURTHER.isdisjoint(clause.words):
        water.amount = f"{(first + more) / 1000:.3g} l water"
    return water


def is_pinch(clause: Clause) -> bool:
    """Whether a clause speaks of so little salt that no pot is salted with it."""
    return clause.has("pinch", "pinches", "dash")


def salt_amount(clause: Clause) -> str:
    """The amount of salt that a clause gives; "" where it gives none that can be weighed ("a handful")."""
    amount = amount_said(clause, "salt")
    return amount if amount and grams_of(amount) and not BY_HAND.search(amount) else ""


def amount_said(clause: Clause, word: str) -> str:
    """The amount of something that a clause gives, as written: "2 tbsp salt"; "" where it gives none."""
    since = clause.tokens[0].start
    for mention in clause.mentions:
        if (
            not mention.amount
            or mention.amount[0] < 0
            or not clause.tokens[mention.j - 1].text.endswith(word)
        ):
            continue
        first, last = clause.tokens[mention.amount[0]], clause.tokens[mention.j - 1]
        if first.start > last.start:  # "salt, 1/2 tsp each"
            behind = clause.text[first.start - since : clause.tokens[mention.amount[1] - 1].end - since]
            return f"{behind} {last.text}"
        said = ONE.sub("1 ", clause.text[first.start - since : last.end - since])
        return of_salt_alone(clause, mention, said)
    return ""


def water_alone(state: ReadingState, clause: Clause) -> Water | None:
    """The water that food is laid in, where only the method names it."""
    mention = state.water_of(clause)
    if mention is None or mention.kind != "water" or mention.prep == "from":
        return None
    said = state.salt_said(clause)
    strength = strength_of(clause) or ("salted" if said else "")
    return Water(strength, salt_amount(clause) if said else "", water_told(state, clause))


def water_of_salt(state: ReadingState, clause: Clause, liquid: dict[int, float]) -> Water | None:
    """ "Soak the beans overnight with a spoon of salt": in water, of which it says nothing."""
    if clause.base != "soak" or not set(map(state.kind, liquid)) <= {"salt"}:
        return None
    said = state.salt_said(clause)
    return Water("salted", salt_amount(clause) if said else "") if liquid or said else None
