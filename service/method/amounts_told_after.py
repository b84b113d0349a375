"""Amounts of salt that a method tells apart from where it salts: "season to taste; I use half a teaspoon"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import islice

from .amounts_said import ONE
from .clauses import Clause
from .happenings import Water
from .method_words import small_words
from .reading_state import HOT, MOST_HAPPENINGS, ReadingState
from .salt_by_weight import salt_by_weight

_SALTS = frozenset({"salt", "season", "seasoning"})
_NUMBER = (
    r"(?:\d+ \d/\d|\d+/\d|\d*[½¼¾⅓⅔⅛]|\d+(?:[.,]\d+)?|half an?|a quarter(?: of an?)?|an?|one|two|three)"
    r"(?: ?(?:-|–|to|or) ?(?:\d[\d/½¼¾]*|two|three))?"
)
_AMOUNT = (
    rf"{_NUMBER}(?: (?:scant|good|heaped|heaping|level|generous|rounded|small|big|large|full|flat))* ?"
    r"(?:(?:tsp|tbsp)s?(?:\.(?= ?(?-i:[a-z])))?+|(?:tea|table)spoon(?:ful)?s?|grams?|g|pinch(?:es)?)\b"
    r"(?: and an? half)?"
)
_ENDS = (
    r"(?=\s*(?:$|[.,;:)!?–—]|(?:or (?:so|two)|is|was|will|should|does|did|for me|in all|in total|altogether|"
    r"to (?:start|begin)|here|there|of it|(?:of )?(?:(?:the|fine|sea|coarse|kosher|table) )*salt)\b))"
)
_BETWEEN = "|".join(sorted(small_words("told_after"), key=len, reverse=True))
_OF_POTS = re.compile(r"\bwater\b.*\bsalt|\bsalt\w*\b[^.]{0,20}\bwater\b", re.IGNORECASE)
_BEFORE = r"\b(?:salt|season|seasoning)\b"
_MY_HABIT = (
    r"(?:I|we|mine)(?:'d| would)? (?:(?:usually|generally|always|normally|often) )?"
    r"(?:used?|add(?:ed)?|put|took|take|like|need(?:ed|s)?|gave it|give it) (?:(?:in|about|around|roughly) )*"
)
_TOLD = re.compile(
    rf"{_BEFORE}(?:[\s,;:.()–—-]|\b(?:{_BETWEEN})\b)*?\b({_AMOUNT}){_ENDS}"
    rf"|{_BEFORE}.*?[.,;:(–—-] ?{_MY_HABIT}({_AMOUNT}){_ENDS}",
    re.IGNORECASE,
)
_AND_A_HALF = re.compile(r"^(?:an?|one|1) (\w+) and an? half$", re.IGNORECASE)
_LONGEST = 400
"""Characters behind salt in which its amount may be told."""
_REACH = 4
"""Clauses of the next sentence that are looked through for its first."""


def measure_salt(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """Give salt the amount that the method tells by the weight of its food, or apart from it."""
    salt_by_weight(state, clauses)
    _told_behind(state, clauses)


def _told_behind(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """Give salt without an amount the one that the sentence, or the next, tells behind it."""
    vague = [n for n in state.index.of_kinds("salt") if _is_vague(state, n)]
    unsaid = {clause.sentence for clause, text in state.seasoned if not text}
    waters = [(h.clause.method, h.water) for h in state.happened if h.kind in HOT and h.water is not None]
    waters = [(method, water) for method, water in waters if water.strength and not water.salt]
    if len(vague) > 1 or not (vague or unsaid or waters):
        return
    salting = [i for i, c in enumerate(clauses) if not (c.negated or _SALTS.isdisjoint(c.words))]
    for i in salting[:MOST_HAPPENINGS]:
        clause, said = clauses[i], _said(_text_from(clauses, i))
        if not said:
            continue
        if (water := _water_of(waters, clause)) is not None:
            water.salt = f"{said} salt"
        elif vague:
            state.amounts[vague[0]] = [said]
            return
        elif clause.sentence in unsaid:
            state.seasoned = [
                (each, text or f"{said} salt") if each.sentence == clause.sentence else (each, text)
                for each, text in state.seasoned
            ]


def _water_of(waters: Sequence[tuple[int, Water]], clause: Clause) -> Water | None:
    """The pot whose water a clause salts, of those of which nobody has said how much salt they hold."""
    if not _OF_POTS.search(clause.sentence):
        return None
    return next((water for method, water in waters if method >= clause.method), None)


def _is_vague(state: ReadingState, salt: int) -> bool:
    """Whether neither its line nor the method has said how much of a salt there is."""
    return state.lines[salt].line.amount is None and salt not in state.amounts


def _text_from(clauses: Sequence[Clause], i: int) -> str:
    """What a sentence says from a clause on, and the next one of its paragraph."""
    clause = clauses[i]
    rest = clause.sentence[max(clause.sentence.find(clause.text), 0) :]
    return " ".join([rest, *islice(_next_sentence(clauses, i), 1)])[:_LONGEST]


def _next_sentence(clauses: Sequence[Clause], i: int) -> Iterator[str]:
    for later in clauses[i + 1 : i + 1 + _REACH]:
        if later.method == clauses[i].method and later.sentence != clauses[i].sentence:
            yield later.sentence


def _said(text: str) -> str:
    """The amount, as it is written with a figure: "1 tsp"; "" where a text tells none."""
    found = _TOLD.search(text)
    if found is None:
        return ""
    said = next(filter(None, found.groups())).strip()
    if (half := _AND_A_HALF.match(said)) is not None:
        return f"1.5 {half[1]}"
    return ONE.sub("1 ", said)
