"""What a quantity is made of: units as spelled, measures, sums of one kind."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cache, lru_cache

from rapidfuzz import process
from rapidfuzz.distance import DamerauLevenshtein

from ..core.spread import Spread
from ..units.kitchen_units import LONGEST_SPELLING, dimension, find, spellings, to_grams, to_millilitres
from .amounts import Cursor, read_amount
from .line import Measure
from .vocabulary import role, sizes

SLIPS = 2
"""Letters that may be wrong in the name of a spoon."""

EACH = "each"
"""Flag of a quantity that holds for each of several foods ("1 tsp each salt and pepper")."""

_JOINTS = frozenset({"and", "&"})
_SIGNS = frozenset({"#", '"'})
SIZED = frozenset({"mass", "volume"})
"""Dimensions that weigh or fill."""


@dataclass(slots=True)
class Quantity:
    """What is read of a quantity so far; see `lines.line.Line` for the fields."""

    amount: Spread | None = None
    unit: str | None = None
    package: Measure | None = None
    measures: list[Measure] = field(default_factory=list)
    size: str = ""
    manner: list[str] = field(default_factory=list)
    flags: set[str] = field(default_factory=set)


def read_unit(cursor: Cursor) -> str | None:
    """The unit spelled here, its points stepped over, or None."""
    start = cursor.at
    if cursor.peek().text == "-" and cursor.peek().glued:
        cursor.at += 1
    token = cursor.peek()
    if token.kind == "word" or token.text in _SIGNS:
        most = LONGEST_SPELLING if token.word in _first_words() else 1
        for count in range(most, 0, -1):
            unit = _spelled(cursor, count)
            if unit:
                return unit
    cursor.at = start
    return None


def _spelled(cursor: Cursor, count: int) -> str | None:
    """The unit that the next `count` words spell, stepped over with their points."""
    start = cursor.at
    words: list[str] = []
    for _ in range(count):
        words.append(cursor.peek().text)
        cursor.at += 1
        if cursor.peek().text == ".":
            cursor.at += 1
        if cursor.done:
            break
    unit = (find(" ".join(words)) or _misspelt(words)) if len(words) == count else None
    # "1 rib roast", "2 cups cake flour": the count is part of the food's name.
    named = cursor.peek().word in role("not_after_unit") and dimension(unit) == "count"
    if unit and (not named or _tells_how(cursor, unit)):
        return unit
    cursor.at = start
    return None


def _tells_how(cursor: Cursor, unit: str) -> bool:
    """ "4 slices roast pork": the word says how the food is that follows."""
    return unit in role("told_after_cut") and cursor.peek().word == "roast" and cursor.peek(1).kind == "word"


def _misspelt(words: list[str]) -> str | None:
    """The spoon that is misspelt here ("tahlespoon"); other units are too near to foods."""
    word = words[0].lower()
    return _nearest_spoon(word) if len(words) == 1 and len(word) >= len("teaspoon") - 1 else None


@lru_cache(maxsize=2048)
def _nearest_spoon(word: str) -> str | None:
    near = process.extractOne(word, _spoons(), scorer=DamerauLevenshtein.distance, score_cutoff=SLIPS)
    return spellings()[near[0]] if near and near[0][0] == word[0] else None


@cache
def _spoons() -> tuple[str, ...]:
    return tuple(name for name in spellings() if "spoon" in name and len(name) >= len("teaspoon"))


def read_measure(cursor: Cursor) -> Measure | None:
    """An amount with a unit here, or None."""
    start = cursor.at
    amount = read_amount(cursor)
    if amount is not None:
        skip_sizes(cursor)
        unit = read_unit(cursor)
        if unit:
            return Measure(amount[0], unit)
    cursor.at = start
    return None


def read_sized(cursor: Cursor) -> Measure | None:
    """An amount of weight, volume or length here, or None."""
    start = cursor.at
    measure = read_measure(cursor)
    if measure and (dimension(measure.unit) in SIZED or dimension(measure.unit) == "length"):
        return measure
    cursor.at = start
    return None


def skip_sizes(cursor: Cursor) -> str:
    """Steps over size words; the last of them."""
    size = ""
    while cursor.peek().word in size_starts():
        two = f"{cursor.peek().word}-{cursor.peek(1).word}"
        if two in sizes():
            size, ahead = sizes()[two], 2
        elif cursor.peek().word in sizes():
            size, ahead = sizes()[cursor.peek().word], 1
        else:
            break
        cursor.at += ahead
        cursor.take(".")
        if cursor.peek().word in {"to", "or", "-"} and cursor.peek(1).word in sizes():
            cursor.at += 1
    return size


@cache
def size_starts() -> frozenset[str]:
    """Words that a size can begin with: "medium", the "extra" of "extra large"."""
    return frozenset(sizes()) | frozenset(word.partition("-")[0] for word in sizes())


def add(quantity: Quantity, measure: Measure, sign: float = 1.0) -> bool:
    """Adds `measure` to the quantity where both are of one kind; whether it could be done."""
    share = in_units(measure.unit, quantity.unit)
    if share is None or quantity.amount is None or quantity.package is not None:
        return False
    was, more = quantity.amount, measure.amount.scaled(share)
    if sign < 0:
        if more.likely > was.likely:
            return False
        more = Spread(-more.likely, -more.likely, -more.likely)
    low = max(0.0, was.low + more.low)
    quantity.amount = Spread(low, was.likely + more.likely, was.high + more.high)
    return True


def holds_for_each(cursor: Cursor) -> bool:
    """Whether "each" stands here before a list of foods, so that the quantity is that of each of them."""
    return cursor.peek().word == EACH and any(token.word in _JOINTS for token in cursor.rest())


def in_units(unit: str | None, base: str | None) -> float | None:
    """How many `base` make one `unit`; None where they are not of one kind."""
    if unit is None or base is None:
        return None
    if unit == base:
        return 1.0
    for size in (to_grams, to_millilitres):
        over, under = size(unit), size(base)
        if over and under:
            return over / under
    return None


@cache
def _first_words() -> frozenset[str]:
    """Words that begin a spelling of several words."""
    return frozenset(spelled.split()[0] for spelled in spellings() if " " in spelled)
