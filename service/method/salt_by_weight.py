"""Salt that is told by the weight of the food it is for: "2 % of its weight in salt", "1 tsp per pound"."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from ..units.kitchen_units import find, to_grams
from .clauses import Clause
from .happenings import SOLIDS
from .left_to_the_cook import grams_roughly
from .reading_state import ReadingState
from .weights_told import salt_grams

_SPAN = r"(\d+(?:[.,]\d+)?)\s*(?:(?:-|–|to)\s*(\d+(?:[.,]\d+)?)\s*)?(?:%|per ?cent\b)"
_WEIGHT = r"(?: (?:its|their|the|that|in|of|as|\w+(?:'s|’s)|(?:\w+ )?weight)){0,7}"
_PERCENT = re.compile(
    rf"{_SPAN}{_WEIGHT} ?(?:(?:fine|sea|coarse|kosher|table|pure) )*salt\b(?! (?:brine|solution|water))"
    rf"|\bsalt\b[^.;%]{{0,30}}?{_SPAN} (?:of|by) (?:its|their|the)?(?: \w+){{0,2}} ?weight",
    re.IGNORECASE,
)
_PER = re.compile(
    r"((?:\d[\d./ ]*|half an? |one |an? |[½¼¾] ?)(?:(?:level|heaped|scant|good) )?"
    r"(?:tsps?|teaspoons?|tbsps?|tablespoons?|oz|ounces?|g|grams?)\b)(?: of)?(?: \w+){0,2}?,? ?"
    r"(?:per|/|(?:for|to) (?:each|every|a|the))\s*(?:(\d+) ?)?"
    r"(kg|kilo(?:gram(?:me)?)?s?|lbs?|pounds?|g|grams?)\b",
    re.IGNORECASE,
)


def share_of_weight(text: str) -> tuple[float, float] | None:
    """Salt in weights of the food, from and to: of "2 to 3 % salt", "15 g per kilo"; None where a text gives
    salt by no weight of food."""
    if "%" in text or "per" in text:
        if (found := _PERCENT.search(text)) is not None:
            low = float((found[1] or found[3]).replace(",", ".")) / 100
            high = found[2] or found[4]
            return low, float(high.replace(",", ".")) / 100 if high else low
    found = _PER.search(text)
    unit = find(found[3].lower()) if found else None
    salt_g = salt_grams(found[1]) if found else None
    if found is None or unit is None or not salt_g:
        return None
    share = salt_g / (float(found[2] or 1) * (to_grams(unit) or 1.0))
    return (share, share) if share < _MOST else None


_MOST = 0.6
"""Salt in weights of the food above which it is told by no weight of it."""


def grams_for(state: ReadingState, text: str, foods: Iterable[int]) -> str:
    """The salt that a text tells by the weight of these foods, "27 g" or "20 to 30 g"; "" where it tells none
    or nobody weighs them."""
    shares = share_of_weight(text)
    food_g = sum(grams_roughly(state.lines[n]) or 0.0 for n in foods) if shares else 0.0
    if shares is None or not food_g:
        return ""
    low, high = (f"{share * food_g:.3g}" for share in shares)
    return f"{low} g" if low == high else f"{low} to {high} g"


def salt_by_weight(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """Give salt as much as the method tells by the weight of the food."""
    for clause in clauses:
        if "salt" not in clause.words or clause.negated or share_of_weight(clause.sentence) is None:
            continue
        said = grams_for(state, clause.sentence, _salted_by(state, clause))
        if said:
            _give(state, clause, said)


def _salted_by(state: ReadingState, clause: Clause) -> Iterable[int]:
    """The food that a clause salts: what it names, what a step of the same sentence is of, the main food."""
    named = {n for m in clause.mentions if m.kind == "line" for n in m.lines if state.kind(n) in SOLIDS}
    worked_on = [h.foods for h in state.happened if h.clause.sentence == clause.sentence]
    return named or (worked_on[0] if worked_on else weighed_food(state))


def weighed_food(state: ReadingState) -> Iterable[int]:
    """The meat or fish of a list; where it has none, the food that weighs most."""
    solids = [line.index for line in state.index.lines if line.kind in SOLIDS]
    return state.main_foods() or sorted(solids, key=lambda n: grams_roughly(state.lines[n]) or 0.0)[-1:]


def _give(state: ReadingState, clause: Clause, said: str) -> None:
    """Put an amount where the clause has the salt: in its line, a bath of that sentence, or the dish."""
    vague = [n for n in state.index.of_kinds("salt") if state.lines[n].line.amount is None]
    if len(vague) == 1:
        state.amounts[vague[0]] = [said]
    for bath in state.happened if not vague else ():
        if bath.clause.sentence == clause.sentence and bath.water is not None and bath.water.is_salted:
            bath.water.salt = f"{said} salt"
    state.seasoned = [
        (each, f"{said} salt" if each.sentence == clause.sentence else text) for each, text in state.seasoned
    ]
