"""How salty the water of pots is, told before there is one: "allow 10 g of salt to the litre"."""

from __future__ import annotations

import re

from .clauses import Clause
from .happenings import Water
from .reading_state import HOT, ReadingState
from .weights_told import per_litre_g

TELLS = frozenset({"allow", "use", "take", "reckon", "count", "calculate", "figure", "need", "want", ""})
"""Bases of verbs that tell how much of something is meant, and do nothing."""
_TO_EACH = re.compile(
    r"\b(?:for|to) (?:each|every|one|a|1) lit(?:re|er)(?: of (?:\w+ )?water)?,? (?:\w+ ){0,4}?"
    r"(\d+(?:[.,]\d+)?) ?g(?:ram(?:me)?s?)?\b(?: of)? (?:\w+ )?salt\b",
    re.IGNORECASE,
)
_LITRES = re.compile(
    r"\b(\d+(?:[.,]\d+)?) ?g(?:ram(?:me)?s?)?\b(?: of)? (?:\w+ )?salt (?:to|for|per|in) (?:every )?"
    r"(\d+(?:[.,]\d+)?) ?l(?:it(?:re|er)s?)?\b",
    re.IGNORECASE,
)
_COOKING_G = 18.0
"""Salt of a litre, g, up to which the water is for boiling in and no brine; common practice, no source."""


def tells_strength(state: ReadingState, clause: Clause) -> bool:
    """Take a clause that only tells how much salt the litre of a pot's water has, of a list that measures
    none; whether it was one."""
    if "salt" not in clause.words or clause.negated or clause.hours or state.solids(clause):
        return False
    if any(n.line.amount is not None for n in state.index.by_kind.get("salt", ())):
        return False
    grams = _grams_a_litre(clause.text)
    if grams is None or grams > _COOKING_G or state.bath_said(clause) is not None:
        return False
    state.forewarned = Water("salted", f"{grams:g} g salt per litre")
    pot = state.latest(HOT)
    if pot is not None and pot is state.pot and pot.water is not None and not pot.water.salt:
        pot.water.salt = state.forewarned.salt  # told behind the boiling
    return True


def _grams_a_litre(text: str) -> float | None:
    if (each := _TO_EACH.search(text)) is not None:
        return float(each[1].replace(",", "."))
    if (told := _LITRES.search(text)) is not None:
        salt, litres = (float(number.replace(",", ".")) for number in told.groups())
        return salt / litres if litres else None
    return per_litre_g(text)
