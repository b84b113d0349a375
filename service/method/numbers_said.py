"""Numbers in prose: "1 1/2", "2½", "two", "twenty five"."""

from __future__ import annotations

from collections.abc import Sequence, Set
from functools import cache

from ..core.tables import rows
from .prose_tokens import Token

_FRACTIONS = {"½": 0.5, "¼": 0.25, "¾": 0.75, "⅓": 1 / 3, "⅔": 2 / 3, "⅛": 0.125}
_TENS = frozenset({20.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0, 90.0})
_MOST = 1e6  # the largest number that is read as one


@cache
def _counts() -> dict[str, float]:
    words = (row for row in rows("number_words") if row["kind"] != "vague" or row["word"] == "couple")
    known = {row["word"]: float(row["likely"]) for row in words}
    ones = {word: value for word, value in known.items() if value < 10 and value == int(value)}
    tens = {word: value for word, value in known.items() if value in _TENS}
    both = {f"{ten}-{one}": tens[ten] + ones[one] for ten in tens for one in ones}
    both |= {f"{one}-and-{ten}": tens[ten] + ones[one] for ten in tens for one in ones}
    both |= {f"{one}-and-a-half": ones[one] + 0.5 for one in ones}
    return both | known


@cache
def number_words() -> frozenset[str]:
    """Words and signs that a number may begin with, but for figures."""
    return frozenset({*_FRACTIONS, *_counts()})


def is_number(word: str) -> bool:
    """Whether a number begins with a word."""
    return word[0].isdecimal() or word in number_words()


def number_at(tokens: Sequence[Token], i: int) -> tuple[float, int] | None:
    """The number that begins at word i ("1 1/2", "2½", "two"), and where it ends."""
    text = tokens[i].text
    if text in _FRACTIONS:
        return _FRACTIONS[text], i + 1
    if text[0].isdecimal():
        value, j = _figure(text), i + 1
        if j < len(tokens) and value == int(value):
            after = tokens[j].text
            if after in _FRACTIONS:
                return value + _FRACTIONS[after], j + 1
            if "/" in after and after[0].isdecimal():
                return value + _figure(after), j + 1
            behind = tokens[j + 1].text if j + 1 < len(tokens) else ""
            if after in ("-", "and") and (behind in _FRACTIONS or ("/" in behind and behind[0].isdecimal())):
                part = _FRACTIONS.get(behind) or _figure(behind)
                return value + part, j + 2  # "1-1/2", "1 and 1/2"
            if (
                after == "and"
                and j + 2 < len(tokens)
                and tokens[j + 1].text == "a"
                and tokens[j + 2].text == "half"
            ):
                return value + 0.5, j + 3
        return value, j
    if text in _counts():
        value, j = _counts()[text], i + 1
        if value in _TENS and j < len(tokens) and 0 < _counts().get(tokens[j].text, 0) < 10:
            return value + _counts()[tokens[j].text], j + 1  # "twenty five"
        if j + 2 < len(tokens) and [t.text for t in tokens[j : j + 3]] == ["and", "a", "half"]:
            return value + 0.5, j + 3
        return value, j
    return None


def _figure(text: str) -> float:
    if "/" in text:
        above, _, below = text.partition("/")
        return _figure(above) / max(_figure(below), 1.0)
    parts = text.split(",")
    if len(parts) == 2 and len(parts[1]) != 3:
        text = text.replace(",", ".")
    try:
        return min(float(text.replace(",", "")), _MOST)
    except ValueError:
        return min(float(text.replace(",", "").split(".")[0] or 0), _MOST)


def has_figures(words: Set[str]) -> bool:
    """Whether a sentence of these words has a number in it, in words or as a fraction."""
    return not number_words().isdisjoint(words)
