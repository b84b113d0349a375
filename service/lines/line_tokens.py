"""Cuts the text of a line into numbers, words and marks, in time proportional to its length."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator
from functools import cache
from typing import Literal, NamedTuple

from ..core.tables import rows

Kind = Literal["number", "fraction", "word", "mark"]

_TOKEN = re.compile(
    r"(\s*)(?:"
    r"(\d+(?:[.,]\d+)*|(?<![\w.])\.\d+)"  # a number
    r"|([¼½¾⅐-⅞↉])"  # a fraction
    r"|([^\W\d_]+(?:['&-][^\W\d_]+)*)"  # a word
    r"|(\S))"  # a mark
)
_ODD = re.compile(r"[`\[\]{}\0]")
"""What of ASCII has a plainer mark."""
_SAME = str.maketrans(
    {
        "⁄": "/", "∕": "/", "／": "/", "‐": "-", "‑": "-", "‒": "-", "–": "-", "—": "-", "−": "-", "―": "-",
        "’": "'", "‘": "'", "ʼ": "'", "`": "'", "“": '"', "”": '"', "″": '"', "，": ",", "×": "x", "✕": "x",
        "®": None, "™": None, "©": None, "\u200b": None, "\u200e": None, "\u200f": None, "\ufeff": None,
        "\u00ad": None, "[": "(", "]": ")", "{": "(", "}": ")", "（": "(", "）": ")", "\0": " ",
    }
)  # fmt: skip
_THOUSANDS = re.compile(r"\d{1,3}(?:,\d{3})+(?:\.\d+)?")
_LARGEST = 1e9
"""No kitchen counts so far; a larger figure is read as a word."""


class Token(NamedTuple):
    """One piece of a line. word: its text in lower case. glued: no space stands before it."""

    kind: Kind
    text: str
    word: str
    value: float
    glued: bool


def tokenize(text: str) -> list[Token]:
    """The tokens of `text`; any text at all gives some, none raises."""
    plain = text
    if not text.isascii():
        plain = unicodedata.normalize("NFC", text).translate(_SAME)
    elif _ODD.search(text):
        plain = text.translate(_SAME)
    tokens: list[Token] = []
    for space, number, fraction, word, mark in _TOKEN.findall(plain.rstrip()):
        glued = not space and bool(tokens)
        if word:
            if "-" in word and word.partition("-")[0].lower() in _number_words():
                tokens += _split(word, glued)
            else:
                tokens.append(Token("word", word, word.lower(), 0.0, glued))
        elif mark:
            tokens.append(Token("mark", mark, mark, 0.0, glued))
        elif number:
            tokens.append(_number("number", number, glued))
        else:
            tokens.append(_number("fraction", fraction, glued))
    return tokens


@cache
def _number_words() -> frozenset[str]:
    return frozenset(row["word"] for row in rows("number_words"))


def _split(piece: str, glued: bool) -> Iterator[Token]:
    """The tokens of "one-half" or "eight-ounce"; "half-and-half" is a food and stays whole."""
    if piece.lower().endswith("-and-half"):
        yield Token("word", piece, piece.lower(), 0.0, glued)
        return
    for part in re.split("(-)", piece):
        yield Token("mark" if part == "-" else "word", part, part.lower(), 0.0, glued)
        glued = True


def text_of(tokens: Iterable[Token]) -> str:
    """The text that tokens stand for, single-spaced, as written."""
    return "".join(_spaced(tokens)).strip()


def _spaced(tokens: Iterable[Token]) -> Iterator[str]:
    for token in tokens:
        if not token.glued:
            yield " "
        yield token.text


def _number(kind: Kind, piece: str, glued: bool) -> Token:
    if kind == "fraction":
        return Token(kind, piece, piece, unicodedata.numeric(piece), glued)
    value = _value(piece)
    return Token("word" if value is None else kind, piece, piece, value or 0.0, glued)


def _value(digits: str) -> float | None:
    """What `digits` mean, with decimal point or comma and thousands; None where that is no sane number."""
    if "," in digits:
        digits = digits.replace(",", "" if _THOUSANDS.fullmatch(digits) else ".")
    try:
        value = float(digits)
    except ValueError:
        return None
    return value if value < _LARGEST else None
