"""The grammar of amounts: numbers in figures and words, mixed numbers, ranges, and how exact they are.

    amount  = {exactness} number [("-" | "to" | "or") number]
    number  = (figures | fraction | mixed | number word) ["dozen"]
    mixed   = whole ["-" | "and" | "&"] fraction

Each function reads at a cursor; it moves the cursor and answers, or leaves it and answers None.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from ..core.spread import Spread
from ..core.tables import Row, load
from ..units.kitchen_units import dimension, find
from .line_tokens import Token

_ARTICLES = frozenset({"a", "an", "the", "another", "each"})
_ONE = frozenset({"a", "an", "another"})
_NO_AMOUNT = frozenset({"little", "bit", "touch", "lot"})
_AND = frozenset({"and", "&", "+"})
_BETWEEN = frozenset({"-", "to", "or"})
_FIGURES = frozenset({"number", "fraction"})
_LEAST_OR_NEXT = 4
"""From here on a whole number over the next is a choice of the two, no fraction."""
_NOTHING = Token("mark", "", "", 0.0, False)
_PADDING = (_NOTHING,) * 4
"""Behind the last token, so that looking ahead needs no care."""
SOFTENERS = frozenset({"a", "just", "at", "very"})
"""Words before a word of exactness ("just under", "at least")."""


class Cursor:
    """A place in a list of tokens."""

    __slots__ = ("_padded", "at", "tokens")

    def __init__(self, tokens: Sequence[Token], at: int = 0) -> None:
        self.tokens = tokens
        self.at = at
        self._padded = (*tokens, *_PADDING)

    def peek(self, ahead: int = 0) -> Token:
        """The token `ahead` of the cursor, at most 3; an empty mark past the end."""
        return self._padded[self.at + ahead]

    @property
    def done(self) -> bool:
        return self.at >= len(self.tokens)

    def take(self, *words: str) -> bool:
        """Step over `words` if they stand here, in any case."""
        for ahead, word in enumerate(words):
            if self.peek(ahead).word != word:
                return False
        self.at += len(words)
        return True

    def rest(self) -> Sequence[Token]:
        return self.tokens[self.at :]


@cache
def _numbers(kind: str) -> dict[str, Spread]:
    """Number words of a kind: "count", "part" or "vague"."""

    def make(row: Row) -> tuple[str, str, Spread]:
        likely = float(row["likely"])
        spread = Spread(float(row["low"] or likely), likely, float(row["high"] or likely))
        return row["word"], row["kind"], spread

    return {word: spread for word, its, spread in load("number_words", make) if its == kind}


def _counts() -> dict[str, Spread]:
    return _numbers("count")


def _parts() -> dict[str, Spread]:
    return _numbers("part")


def part_of_one(token: Token) -> float:
    """What "half" or "quarter" is of one; 0 of any other word."""
    part = _parts().get(token.word)
    return part.likely if part else 0.0


def number_words() -> frozenset[str]:
    """Words that a number can begin with: "two", "half", "dozen"."""
    return frozenset((*_counts(), *_parts()))


@cache
def exactness() -> dict[str, Spread]:
    """Word -> share of the figure that is really meant."""
    return dict(load("amount_words", lambda row: (row["word"], Spread.from_mapping(row))))


def read_amount(cursor: Cursor) -> tuple[Spread, bool] | None:
    """The amount here, and whether it is given as approximate; zero or more, never infinite."""
    start = cursor.at
    first = cursor.peek()
    if first.kind not in _FIGURES and first.word not in _starts():
        return None
    share = read_exactness(cursor)
    amount = _range(cursor)
    if amount is None:
        cursor.at = start
        return None
    share = share or read_exactness(cursor)
    return (amount.times(share), True) if share else (amount, False)


@cache
def _starts() -> frozenset[str]:
    """Words that an amount can begin with."""
    return _ARTICLES | SOFTENERS | {*exactness(), *_counts(), *_parts(), *_numbers("vague")}


def read_exactness(cursor: Cursor) -> Spread | None:
    """Steps over words such as "about" or "a generous"; the share of the figure they mean, or None."""
    table = exactness()
    found: Spread | None = None
    while (first := cursor.peek()).kind != "number":
        ahead = 1 if first.word in SOFTENERS else 0
        said = cursor.peek(ahead).word if ahead else first.word
        share = table.get(said)
        if share is None or (said == "up" and cursor.peek(ahead + 1).word != "to"):
            return found
        # "a generous pinch" keeps its article as the count.
        if ahead and first.word == "a" and not is_numeric(cursor.peek(ahead + 1)):
            return found
        found = share
        cursor.at += ahead + 1
        cursor.take("to") or cursor.take("of") or cursor.take(".")
    return found


def read_number(cursor: Cursor) -> Spread | None:
    """One number here, in figures or words."""
    start = cursor.at
    value = _figures(cursor)
    number = Spread.exact(value) if value is not None else _worded(cursor)
    if number is None:
        cursor.at = start
        return None
    if cursor.peek().word in {"dozen", "doz"}:
        cursor.at += 1
        cursor.take(".")
        cursor.take("of")
        return number.scaled(12)
    return number


def _range(cursor: Cursor) -> Spread | None:
    first = _one_or_the_next(cursor) or read_number(cursor)
    if first is None:
        return None
    start = cursor.at
    if cursor.peek().word not in _BETWEEN:
        return first
    while cursor.peek().word in _BETWEEN:  # "4- to 5-pound"
        cursor.at += 1
    second = read_number(cursor) if is_numeric(cursor.peek()) else None
    if second is None or cursor.peek().text in {"%", "/"}:
        cursor.at = start
        return first
    low, high = sorted((first.likely, second.likely))
    return Spread(low, (low + high) / 2, high)


def _one_or_the_next(cursor: Cursor) -> Spread | None:
    """ "5/6 bay leaves": five or six of them; "3/4 cup" is a fraction."""
    if cursor.peek(1).text != "/":
        return None
    over, under, unit = cursor.peek(), cursor.peek(2), cursor.peek(3)
    figures = over.kind == under.kind == "number" and unit.kind == "word"
    if not figures or over.value < _LEAST_OR_NEXT or under.value != over.value + 1:
        return None
    if dimension(find(unit.text)) == "volume":
        return None
    cursor.at += 3
    return Spread(over.value, over.value + 0.5, under.value)


def _figures(cursor: Cursor) -> float | None:
    token = cursor.peek()
    if token.kind == "fraction":
        cursor.at += 1
        _of_part(cursor)
        return token.value
    if token.kind != "number" or cursor.peek(1).text in {"%", "°"}:
        return None
    simple = _simple_fraction(cursor)
    if simple is not None:
        _of_part(cursor)
        return simple
    cursor.at += 1
    return token.value + (_fraction_after(cursor) if token.value.is_integer() else 0.0)


def _fraction_after(cursor: Cursor) -> float:
    """The fraction that makes the whole number just read a mixed one; 0.0 where there is none."""
    start = cursor.at
    first = cursor.peek()
    joined = first.word
    if joined == "-" or joined in _AND:
        cursor.at += 1
        first = cursor.peek()
    if first.kind == "fraction":
        cursor.at += 1
        return cursor.peek(-1).value
    fraction = _simple_fraction(cursor)
    if fraction is not None and 0 < fraction < 1:
        return fraction
    if joined in {"and", "&"} and cursor.peek().word in _ARTICLES and cursor.peek(1).word in _parts():
        cursor.at += 2
        return _parts()[cursor.peek(-1).word].likely
    cursor.at = start
    return 0.0


def _simple_fraction(cursor: Cursor) -> float | None:
    """ "3/4": two whole numbers and a slash."""
    if cursor.peek(1).text != "/":
        return None
    over, under = cursor.peek(), cursor.peek(2)
    if not (over.kind == under.kind == "number" and under.value):
        return None
    if not (over.value.is_integer() and under.value.is_integer()) or under.value > 64:
        return None
    cursor.at += 3
    return over.value / under.value


def _worded(cursor: Cursor) -> Spread | None:
    """A number in words: "two", "half a", "three quarters of a", "a couple of", "a"."""
    first = cursor.peek()
    word = first.word
    if word in _ARTICLES and (cursor.at == 0 or not first.glued):
        return _after_article(cursor)
    if word in _counts():
        cursor.at += 1
        return Spread.exact(_worded_fraction(cursor, _counts()[word].likely))
    if word in _parts() and not (cursor.peek(1).word in _AND and cursor.peek(2).word in _parts()):
        cursor.at += 1
        _of_a(cursor)
        return _parts()[word]
    return _vague(cursor)


def _after_article(cursor: Cursor) -> Spread | None:
    cursor.at += 1
    word = cursor.peek().word
    if word in _parts() and cursor.peek(1).word not in {"and", "&"}:
        cursor.at += 1
        _of_a(cursor)
        return _parts()[word]
    if cursor.peek(-1).word not in _ONE or word in _NO_AMOUNT:
        return _vague(cursor)
    return _vague(cursor) or Spread.exact(1.0)


def _worded_fraction(cursor: Cursor, whole: float) -> float:
    """ "two thirds", "one and a half"; `whole` itself where neither follows."""
    if cursor.peek().word in _parts() or (cursor.peek().text == "-" and cursor.peek(1).word in _parts()):
        cursor.take("-")
        cursor.at += 1
        part = _parts()[cursor.peek(-1).word].likely
        _of_a(cursor)
        return whole * part
    units = _counts().get(cursor.peek(1).word)
    if whole >= 20 and cursor.peek().text == "-" and units and units.likely < 10:  # "twenty-four"
        cursor.at += 2
        return whole + units.likely
    return whole + _fraction_after(cursor)


def _vague(cursor: Cursor) -> Spread | None:
    amount = _numbers("vague").get(cursor.peek().word)
    if amount:
        cursor.at += 1
        cursor.take("of")
    return amount


def _of_part(cursor: Cursor) -> None:
    """Steps over "of a" or "a" after a fraction in figures; "1/2 of" keeps its "of" for the food."""
    word = cursor.peek().word
    if word in _ONE or (word == "of" and cursor.peek(1).word in _ARTICLES):
        _of_a(cursor)


def _of_a(cursor: Cursor) -> None:
    """Steps over "of a", "of", "a" after a part."""
    cursor.take("of")
    if cursor.peek().word in _ARTICLES:
        cursor.at += 1


def is_numeric(token: Token) -> bool:
    """Whether a number can begin with the token: figures, fractions, number words."""
    return token.kind in _FIGURES or token.word in _counts() or token.word in _parts()
