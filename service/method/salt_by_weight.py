"""Salt that is told by the weight of the food it is for: "2 % of its weight in salt", "1 tsp per pound"."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from ..lines import read_line
from ..units.kitchen_units import find, to_grams
from .clauses import Clause
from .happenings import SOLIDS
from .left_to_the_cook import grams_roughly
from .reading_state import MOST_HAPPENINGS, ReadingState

_SPAN = r"(\d+(?:[.,]\d+)?)\s*(?:(?:-|–|to)\s*(\d+(?:[.,]\d+)?)\s*)?(?:%|per ?cent\b)"
_WEIGHT = r"(?: (?:its|their|the|that|in|of|as|\w+(?:'s|’s)|(?:\w+ )?weight)){0,7}"
_PERCENT = re.compile(
    rf"{_SPAN}{_WEIGHT} ?(?:(?:fine|sea|coarse|kosher|table|pure) )*salt\b(?! (?:brine|solution|water))"
    rf"|\bsalt\b[^.;%]{{0,30}}?{_SPAN} (?:of|by) (?:its|their|the)?(?: [\w'’]+){{0,2}} ?weight",
    re.IGNORECASE,
)
_PER = re.compile(
    r"((?:\d[\d./ ]*|half an? |one |an? |[½¼¾] ?)(?:(?:level|heaped|scant|good) )?"
    r"(tsps?|teaspoons?|tbsps?|tablespoons?|oz|ounces?|g|grams?)\b)(?: of)?(?: \w+){0,2}?,? ?"
    r"(?:per|/|(?:for|to) (?:each|every|a|the))\s*(?:(\d+) ?)?"
    r"(kg|kilo(?:gram(?:me)?)?s?|lbs?|pounds?|g|grams?)\b",
    re.IGNORECASE,
)


class SaltRate(NamedTuple):
    """Salt by the weight of food: so many of a unit a gram of it, from one figure to another, told at a place
    of its text."""

    per_gram: tuple[float, ...]
    unit: str
    start: int

    def of(self, state: ReadingState, foods: Iterable[int]) -> str:
        """The amount for these foods: "20 to 30 g", "4.5 tsp"; "" where nobody weighs them."""
        food_g = sum(grams_roughly(state.lines[n]) or 0.0 for n in foods)
        ends = " to ".join(f"{each * food_g:.3g}" for each in self.per_gram)
        return f"{ends} {self.unit}" if food_g else ""


def rate_told(text: str) -> SaltRate | None:
    """The salt that a text tells by the weight of food: of "2 to 3 % salt", "1 tsp per pound"."""
    if ("%" in text or "per" in text) and (percent := _PERCENT.search(text)) is not None:
        shares = [float(each.replace(",", ".")) / 100 for each in percent.groups() if each]
        return SaltRate(tuple(shares), "g", percent.start())
    found = _PER.search(text)
    unit = find(found[4].lower()) if found else None
    told = read_line(f"{found[1]} salt") if found else None
    if found is None or unit is None or told is None or told.amount is None or unit == told.unit:
        return None
    food_g = float(found[3] or 1) * (to_grams(unit) or 1.0)
    return SaltRate((told.amount.likely / food_g,), found[2], found.start())


def rate_of_line(text: str) -> SaltRate | None:
    """The rate at which a line gives salt; None where it gives it in all: "5 tsp salt (1 tsp a pound)"."""
    rate = rate_told(text)
    return None if rate is None or any(map(str.isdecimal, text[: rate.start])) else rate


def salt_by_weight(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """Give salt as much as the method tells by the weight of the food, or for each piece of it."""
    salting = [clause for clause in clauses if "salt" in clause.words and not clause.negated]
    for clause in salting[:MOST_HAPPENINGS]:
        if not _EACH.isdisjoint(clause.words) and (pieces := _pieces(state, clause)) > 1:
            _times(state, clause, pieces)
        elif (rate := rate_told(clause.sentence)) is not None:
            foods = _salted_by(state, clause)
            if said := rate.of(state, foods):
                _give(state, clause, said, foods)


def _salted_by(state: ReadingState, clause: Clause) -> Iterable[int]:
    """The food that a clause salts: what it names, what a step of the same sentence is of, the main food."""
    named = {n for m in clause.mentions if m.kind == "line" for n in m.lines if state.kind(n) in SOLIDS}
    worked_on = [h.foods for h in state.happened if h.clause.sentence == clause.sentence]
    return named or (worked_on[0] if worked_on else weighed_food(state))


def weighed_food(state: ReadingState) -> Iterable[int]:
    """The meat or fish of a list; where it has none, the food that weighs most."""
    solids = [line.index for line in state.index.lines if line.kind in SOLIDS or line.kind == "flour"]
    return state.main_foods() or sorted(solids, key=lambda n: grams_roughly(state.lines[n]) or 0.0)[-1:]


_EACH = frozenset({"each", "every", "per"})


def _pieces(state: ReadingState, clause: Clause) -> float:
    """How many "each steak" or "per chop" are, of a line that counts them; 1 where none does."""
    for mention in clause.mentions:
        before = clause.tokens[mention.i - 1].text if mention.i else ""
        if mention.kind == "line" and len(mention.lines) == 1 and before in _EACH:
            line = state.lines[mention.lines[0]]
            counts = line.kind in SOLIDS and line.line.unit is None and line.line.amount is not None
            return line.line.amount.likely if counts and line.line.amount else 1.0
    return 1.0


def _times(state: ReadingState, clause: Clause, pieces: float) -> None:
    """Take what a clause says of salt for each piece as often as there are pieces."""
    for salt, amounts in state.amounts.items():
        if state.kind(salt) == "salt":
            state.amounts[salt] = [
                _multiplied(said, pieces) if said in clause.text else said for said in amounts
            ]
    state.seasoned = [
        (each, _multiplied(text, pieces) if each is clause and text else text)
        for each, text in state.seasoned
    ]


def _multiplied(said: str, times: float) -> str:
    """An amount in words, times so many; as it is where it gives no figure."""
    line = read_line(said if "salt" in said else f"{said} salt")
    if line.amount is None or line.unit is None:
        return said
    return f"{line.amount.likely * times:.3g} {line.unit}" + (" salt" if "salt" in said else "")


def _give(state: ReadingState, clause: Clause, said: str, foods: Iterable[int]) -> None:
    """Put an amount where the clause has the salt: in its line, a bath of that sentence, or the dish."""
    vague = [n for n in state.index.of_kinds("salt") if state.lines[n].line.amount is None]
    if len(vague) == 1:
        state.amounts[vague[0]] = [said]
        state.strewn.get(vague[0], set()).difference_update(foods)  # that is the salt which they are given
    for bath in state.happened if not vague else ():
        if bath.clause.sentence == clause.sentence and bath.water is not None and bath.water.is_salted:
            bath.water.salt = f"{said} salt"
    state.seasoned = [
        (each, f"{said} salt" if each.sentence == clause.sentence else text) for each, text in state.seasoned
    ]
