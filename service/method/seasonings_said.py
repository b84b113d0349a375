"""Salt that goes into the dish and stands in no line, as a method says it."""

from __future__ import annotations

import re

from .clause_words import needs_no_salt, strength_of
from .clauses import Clause
from .happenings import Water
from .reading_state import ReadingState
from .waters import amount_said, salt_of_pot

_SEASONS = ("season", "seasoning", "seasonings", "adjust", "correct")
_OF_WATER = re.compile(
    r"\b(?:in|into|to|for) (?:the|your|their|its) (?:pasta|cooking|boiling|potato|noodle) water\b",
    re.IGNORECASE,
)
_BY_THE_LITRE = re.compile(r"\b(?:(?:to|per|for|in) )?(?:each|every|per|a|the) lit(?:re|er)\b", re.IGNORECASE)
_TASTES = frozenset({"taste", "check", "adjust", "correct"})


def seasonings(state: ReadingState, clause: Clause, taken: bool) -> list[tuple[Clause, str]]:
    """Salt that goes into the dish and stands in no line."""
    before = state.seasoned[-1][0] if state.seasoned else None
    tastes = before is not None and before.method == clause.method and before.base in _TASTES
    if tastes and needs_no_salt(clause):
        state.seasoned.pop()  # "taste for salt: the cheese is salty, and I do not usually add any"
    if clause.act in {"discard", "drain", "rinse", "remove"}:
        return []  # "throw it away, it is too salt for soup"
    said = state.salt_said(clause)
    if clause.base == "taste" and (needs_no_salt(clause) or not (said or clause.has(*_SEASONS))):
        return []  # "taste before you salt", "taste the sauce"
    if clause.base in ("adjust", "correct") and not clause.has("seasoning", "seasonings", "salt"):
        return []
    salts_water = clause.base == "salt" and "water" in clause.text and state.pot is None
    forewarns = salts_water or (said is not None and bool(_OF_WATER.search(clause.text)))
    if forewarns and not taken and not clause.negated:
        state.forewarned = Water(strength_of(clause) or "salted", salt_of_pot(clause, "salted"))
        return []  # "I put only half the usual salt in the pasta water", of a pot that comes later
    if said is not None and not taken and _BY_THE_LITRE.search(clause.text):
        state.forewarned = Water("salted", salt_of_pot(clause, "salted"))
        return []  # "the sea can be counterfeited with 35 g of salt to each litre": a water's, and no dish's
    unlisted = clause.act == "season" and not state.index.by_kind.get("salt")
    unnamed = unlisted and not clause.has("water") and _with_nothing(state, clause)
    if clause.base == "season" and clause.has("with") and not clause.has("salt", "seasoning", "salted"):
        unnamed = False  # "season with fish sauce and lime"
    if unnamed and not clause.negated:
        return [(clause, amount_said(clause, "salt"))] if not taken else []
    if said is None or taken or clause.negated or said.prep == "without":
        return []
    return [(clause, amount_said(clause, "salt"))]


def _with_nothing(state: ReadingState, clause: Clause) -> bool:
    """ "Season", "salt the carrots": with no line of the list."""
    salts = clause.base == "salt" and not clause.has("too", "very", "so", "how")
    food = state.solids(clause, direct=True) if salts else {}
    return state.lines_of(clause).keys() <= food.keys()
