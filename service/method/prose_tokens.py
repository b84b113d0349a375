"""Prose as words with their places, and its sentences."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

from .method_words import singular

_LETTERS = "[A-Za-zÀ-ÖØ-öø-ÿ]+"
_WORD = re.compile(
    rf"w/o\b|w/(?=\s|[a-z])|{_LETTERS}(?:['’\-]{_LETTERS})*(?![^\W\d_])|\d+(?:[.,]\d+)*(?:/\d+)?"
    r"|[^\W\d_]+(?:['’\-][^\W\d_]+)*|[½¼¾⅓⅔⅛]|[^\w\s]"
)
"""Words, numbers and marks; those of Latin letters first, which are found fast."""
_SPELT_OUT = {"w/": "with", "w/o": "without"}
_WHOLE = frozenset({"everything", "all", "ingredients"})
"""Behind these "but" leaves something out."""
_ENDS = frozenset(".!?;")
_SHORT = frozenset(
    {
        "approx",
        "tbsp",
        "tbs",
        "tsp",
        "oz",
        "lb",
        "lbs",
        "min",
        "mins",
        "hr",
        "hrs",
        "c",
        "st",
        "no",
        "temp",
        "g",
        "ml",
        "incl",
        "etc",
        "e",
        "i",
        "vs",
        "ca",
    }
)
MOST_WORDS = 120
"""Words of the longest sentence that is read in one go; a longer one is cut there."""


class Token(NamedTuple):
    """A word, number or mark: its text in lower case, its stem, and its place in the paragraph."""

    text: str
    stem: str
    start: int
    end: int


_token = tuple.__new__
"""Makes a token of its four parts, at half the cost of calling the class."""


@lru_cache(maxsize=1 << 14)
def _word(said: str) -> tuple[str, str]:
    """A word as it is compared, and its stem."""
    word = said.lower()
    word = _SPELT_OUT.get(word, word)
    if word.endswith(("'s", "’s")):
        word = word[:-2]  # "the duck's skin"
    return word, singular(word)


def tokenize(text: str) -> list[Token]:
    found: list[Token] = []
    end = 0
    for said in _WORD.findall(text):
        word, stem = _word(said)
        if word == "but" and found and found[-1].text in _WHOLE:
            word = stem = "except"
        start = text.find(said, end)  # nothing between two words is a part of one
        end = start + len(said)
        found.append(_token(Token, (word, stem, start, end)))
    return found


def sentences(text: str) -> list[list[Token]]:
    """The words of each sentence of a paragraph."""
    found: list[list[Token]] = []
    current: list[Token] = []
    tokens = tokenize(text)
    for i, token in enumerate(tokens):
        current.append(token)
        if token.text not in _ENDS and len(current) < MOST_WORDS:
            continue
        ends = token.text in _ENDS and not (
            token.text == "."
            and i > 0
            and tokens[i - 1].text in _SHORT
            and i + 1 < len(tokens)
            and not text[tokens[i + 1].start].isupper()
        )
        ends = ends and not (i + 1 < len(tokens) and tokens[i + 1].text == ")")
        if ends or len(current) >= MOST_WORDS:
            found.append(current)
            current = []
    if current:
        found.append(current)
    return found
