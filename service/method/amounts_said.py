"""Which lines a method speaks of, and the amounts that it gives where the list gives none."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import TYPE_CHECKING

from ..lines import read_line
from ..units.kitchen_units import to_grams, to_millilitres
from .clause_words import goal, is_denied
from .clauses import Clause
from .happenings import SOLIDS
from .listed import ListedLine
from .mention import Mention
from .numbers_said import number_at

if TYPE_CHECKING:
    from .happenings import Happening
    from .reading_state import ReadingState

ONE = re.compile(r"^(?:the|a|an)\s", re.IGNORECASE)
BY_HAND = re.compile(r"\b(?:(?:hand|palm|fist)fuls?|sprinkling|dusting)\b", re.IGNORECASE)
_PINCH = re.compile(r"\b(?:pinch|dash)", re.IGNORECASE)
_PINCH_OF_LINE = 0.02
"""The share that a pinch is of a line of salt that is measured, more or less."""
_OF_POTS = frozenset({"water", "brine", "pot", "same"})
_POT_SALT = 15.0
"""Salt of a line, g or ml, from which on it may be a pot's."""


def is_a_pinch(said: str) -> bool:
    """Whether an amount of salt in words is no more than a pinch or two."""
    return _PINCH.search(said) is not None


_TASTES = frozenset({"taste", "check", "adjust", "correct"})
_BEFORE_TASTED = frozenset({"for", "the"})


def _only_tasted(state: ReadingState, clause: Clause, salt: int) -> bool:
    """ "Taste for salt", "mash and check the salt": what asks after salt that is in something already, and
    gives none of the list's; but "salt", of no amount, seasons too."""
    if state.lines[salt].line.amount is None:
        return False
    if clause.base in _TASTES:
        return True
    texts, at = clause.tokens, next((m.i for m in clause.mentions if salt in m.lines), 0) - 1
    while at > 0 and texts[at].text in _BEFORE_TASTED:
        at -= 1
    return at >= 0 and texts[at].text in _TASTES


def note_spoken(state: ReadingState, clause: Clause) -> None:
    """Which lines a clause speaks of, their heading, and the amounts that it gives."""
    mentions, throws = clause.mentions, clause.act == "discard" or "discarding" in clause.words
    meant: set[int] = set()
    for m in mentions:
        if m.kind == "line" and not is_denied(clause, m):
            meant.update(m.lines if len(m.lines) < 2 and not m.amount else state.nearest(m, clause))
    for line in meant:
        again = state.spoken.get(line)
        if again and clause.act == "season" and _is_of_a_pot(state, line):
            continue  # "season with salt", once the tablespoon has gone into the water
        if again and state.kind(line) == "salt" and _only_tasted(state, clause, line):
            continue
        state.spoken[line] = state.spoken.get(line, 0) + 1
        if not throws:
            state.last_spoken[line] = state.turn
    for m in reversed(mentions):
        if len(m.lines) == 1:
            state.section = state.lines[m.lines[0]].heading
            break
    note_amounts(state, clause)


def over_that_of_line(clause: Clause, mention: Mention, listed: ListedLine) -> float:
    """The amount in the words of a mention over that of a line; 1 where they cannot be compared."""
    amount = listed.line.amount
    if mention.amount is None or amount is None or mention.amount[0] < 0:
        return 1.0
    since, (begin, end) = clause.tokens[0].start, mention.amount
    text = clause.text[clause.tokens[begin].start - since : clause.tokens[end - 1].end - since]
    text = _SOME_OF.sub("", text) if " of the " in text else text  # "one of the tablespoons of salt"
    said = read_line(ONE.sub("1 ", text) + " x")
    if said.amount is None or not amount.likely:
        return 1.0
    sizes = (1.0, 1.0) if said.unit == listed.line.unit else (size_of(said.unit), size_of(listed.line.unit))
    part = said.amount.likely * sizes[0] / (amount.likely * sizes[1]) if all(sizes) else 1.0
    if _LEVEL < part < 1.0 and not _HEAPED.isdisjoint(listed.text.lower().split()):
        return 1.0  # "the 2 spoons of salt", of "2 heaped tbsp"
    return round(part, 4)


_SOME_OF = re.compile(r"\bof the (?=\w*spoon|cup)", re.IGNORECASE)
_HEAPED, _LEVEL = frozenset({"heaped", "heaping", "rounded", "generous"}), 0.7


def _is_of_a_pot(state: ReadingState, line: int) -> bool:
    """Whether a line is of more salt than a dish is seasoned with."""
    amount, unit = state.lines[line].line.amount, state.lines[line].line.unit
    return state.kind(line) == "salt" and amount is not None and amount.likely * size_of(unit) >= _POT_SALT


def size_of(unit: str | None) -> float:
    """The size of a unit, to compare amounts of one food; 1 for pieces, 0 where it is not known."""
    return (to_grams(unit) or to_millilitres(unit) or 0.0) if unit else 1.0


def _salted_pot(state: ReadingState, clause: Clause) -> Happening | None:
    """The pot of whose water a clause speaks with its salt."""
    pot = state.happened[-1] if state.happened and "water" in clause.words else state.pot
    near = pot is not None and (
        pot.clause.sentence == clause.sentence
        or (pot is state.attention and pot.clause.method == clause.method)
    )
    return pot if near else None


def _seasons_food(state: ReadingState, clause: Clause) -> bool:
    """ "Season the steak", and not "season with cumin"."""
    return not clause.has("with") and any(state.kind(n) in SOLIDS for m in clause.mentions for n in m.lines)


def _strew(state: ReadingState, clause: Clause, salts: Iterable[int]) -> None:
    foods = {n for m in clause.mentions for n in m.lines if state.kind(n) in SOLIDS}
    if not foods and clause.sentence == state.last_sentence:
        foods = set(state.last_foods)  # "halve the chicken, season with salt"
    for salt in salts:
        state.strewn.setdefault(salt, set()).update(foods)


def note_amounts(state: ReadingState, clause: Clause) -> None:
    """Amounts of salt that the method gives where the list gives none, and whether it gives salt without."""
    dry = not clause.negated and _OF_POTS.isdisjoint(clause.words)
    if dry and (clause.base == "salt" or (clause.base == "season" and _seasons_food(state, clause))):
        _strew(state, clause, state.index.of_kinds("salt"))
    for mention in clause.mentions if dry and "salt" in clause.words else ():
        named = mention.kind == "line" and "salt" in {t.stem for t in clause.tokens[mention.i : mention.j]}
        if named and mention.amount is None and not is_denied(clause, mention):
            _strew(state, clause, [n for n in mention.lines if state.kind(n) == "salt"])
    for mention in clause.mentions:
        if mention.kind != "line" or mention.amount is None or goal(clause, mention):
            continue
        said_salt = clause.tokens[mention.j - 1].stem == "salt"
        for line in state.nearest(mention, clause):
            if state.kind(line) == "salt" and not said_salt:
                continue  # "a pinch of nutmeg", of a line of salt, pepper and nutmeg
            if state.kind(line) not in ("salt", "savoury"):
                continue
            first, last = clause.tokens[mention.amount[0]], clause.tokens[mention.amount[1] - 1]
            since = clause.tokens[0].start
            said = clause.text[first.start - since : last.end - since]
            if state.lines[line].line.amount is not None:
                pinch = state.kind(line) == "salt" and is_a_pinch(said)
                part = _PINCH_OF_LINE if pinch else state.share(clause, mention, line)
                if 0.0 < part < 1.0:
                    state.parts.setdefault(line, {})[state.turn] = part
            else:
                if state.kind(line) == "salt" and BY_HAND.search(said):
                    continue  # "a handful" says no more than that there is salt
                said = of_salt_alone(clause, mention, ONE.sub("1 ", said))
                pot = _salted_pot(state, clause)
                if clause.base in _MEASURES_IT:
                    state.strewn.pop(line, None)  # "season the chops. Use half a teaspoon of salt"
                state.amounts.setdefault(line, []).append(said)
                if pot is not None and line in pot.liquid:
                    pot.measured[line] = said


_MEASURES_IT = frozenset({"use", "need", "want", "allow", "take"})
_AND_PEPPER = re.compile(
    r"(?:and|&) (?:the )?(?:(?:freshly|coarsely|fresh|ground|milled|cracked|black|white) ){0,3}pepper\b"
)
_PINCHES = re.compile(r"\b(?:pinch\w*|dash\w*|twist\w*|grind\w*)\b", re.IGNORECASE)


def of_salt_alone(clause: Clause, mention: Mention, said: str) -> str:
    """What an amount comes to of salt where it is of salt and pepper together: "2 tablespoons of salt and
    pepper" half of it; "1 tsp salt and pepper", which may mean that much of each, half of it to all."""
    if mention.amount is None or "pepper" not in clause.words or clause.has("each", "apiece"):
        return said
    behind = " ".join(token.text for token in clause.tokens[mention.j : mention.j + 5])
    if not _AND_PEPPER.match(behind) or _PINCHES.search(said):
        return said
    first = mention.amount[0]
    value, end = number_at(clause.tokens, first) or (1.0, first + 1)
    end += clause.tokens[end].text in ("a", "an")  # "half a teaspoon"
    at = said.lower().find(clause.tokens[end].text)
    if at < 0 or not clause.tokens[end].text.isalpha():
        return said
    together = any(token.text == "of" for token in clause.tokens[first : mention.j])
    return f"{value / 2:g} {said[at:]}" if together else f"{value / 2:g} to {value:g} {said[at:]}"
