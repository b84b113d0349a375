"""Figures in prose: how hot, how thick, how small something is cut."""

from __future__ import annotations

from collections.abc import Iterable, Sequence, Set
from functools import cache
from itertools import pairwise

from ..core.tables import rows
from .method_words import small_words
from .numbers_said import number_words
from .phrases_in_words import phrases_of
from .prose_tokens import Token
from .times_and_sizes import Span, range_at

_CM = {"cm": 1.0, "centimetre": 1.0, "centimeter": 1.0, "mm": 0.1, "millimetre": 0.1, "millimeter": 0.1,
       "inch": 2.54, "in": 2.54, '"': 2.54, "″": 2.54, "”": 2.54}  # fmt: skip
_LENGTHS = frozenset(_CM)


def has_temperature(words: Set[str]) -> bool:
    """Whether a sentence of these words may give a temperature in words."""
    return not _heat_words().isdisjoint(words)


@cache
def _heat_words() -> frozenset[str]:
    """The words that a temperature in words begins with."""
    return frozenset(phrases_of("method_temperatures"))


_DEGREES = small_words("degree")


def has_degrees(words: Set[str]) -> bool:
    """Whether a sentence of these words may give a temperature in degrees."""
    return not _DEGREES.isdisjoint(words)


def has_sizes(stems: Iterable[str]) -> bool:
    """Whether a sentence of words with these stems may give a length."""
    return not _LENGTHS.isdisjoint(stems)


def _says(tokens: Sequence[Token], i: int, words: Sequence[str]) -> bool:
    """Whether the words of a phrase stand at word i, of which the first is known to."""
    n = len(words)
    if n == 1:
        return True
    if i + n > len(tokens) or tokens[i + 1].text != words[1]:
        return False
    return n == 2 or [token.text for token in tokens[i : i + n]] == list(words)


def temperature(tokens: Sequence[Token]) -> float | None:
    """The first temperature in a sentence, in °C."""
    worded = phrases_of("method_temperatures")
    for i, token in enumerate(tokens):
        for words, row in worded.get(token.text, ()):
            if _says(tokens, i, words):
                return float(row["celsius"])
        if token.text[0].isdecimal() and (span := range_at(tokens, i)) and span.j < len(tokens):
            found = _degrees(tokens, span)
            if found is not None:
                return found
    return None


def _degrees(tokens: Sequence[Token], span: Span) -> float | None:
    j = span.j
    marked = tokens[j].text in ("°", "º", "˚") or tokens[j].stem in ("degree", "deg")
    j += marked
    unit = tokens[j].text if j < len(tokens) else ""
    if unit in ("f", "fahrenheit") or (marked and unit not in ("c", "celsius") and span.likely > 260):
        return round((span.likely - 32) / 1.8, 1)
    if unit in ("c", "celsius", "centigrade") or marked:
        return span.likely if -30 <= span.likely <= 400 else None
    return None


_INTO = frozenset({"in", "into"})
_PARTS = frozenset({"two", "half", "halves", "three", "thirds", "four", "quarters", "wedges", "chunks"})


def cut_cm(tokens: Sequence[Token]) -> float | None:
    """How thick pieces are of which only the cut is said: "grated", "thinly sliced"."""
    goes = {i for i, (a, b) in enumerate(pairwise(tokens)) if a.text == "round" and b.text in _ROUND_WHAT}
    cut = (token for i, token in enumerate(tokens) if i not in goes)  # "pack the salt round the chicken"
    words = {word for token in cut for word in (token.text, token.stem)}
    found = next((cm for cm, said in _cuts() if not said.isdisjoint(words)), None)
    if found is not None and any(a.text in _INTO and b.text in _PARTS for a, b in pairwise(tokens)):
        return None  # "slice in two"
    return found


_ROUND_WHAT = frozenset({"the", "it", "them", "all", "each", "your", "this"})


@cache
def cut_words() -> frozenset[str]:
    """All words of cuts."""
    return frozenset().union(*(said for _, said in _cuts()))


@cache
def _cuts() -> tuple[tuple[float, frozenset[str]], ...]:
    """How thick pieces are, cm, with the words of their cut, in the order of the table."""
    cuts = (row for row in rows("usual_thickness") if row["kind"] == "cut")
    return tuple((float(row["cm"]), frozenset(row["words"].split("|"))) for row in cuts)


def thickness_cm(tokens: Sequence[Token]) -> float | None:
    """The least length in cm that a sentence gives a piece: "2 cm dice", "1/2-inch slices"."""
    found: list[float] = []
    numbers, end = number_words(), 0
    for i, token in enumerate(tokens):
        if i < end:
            continue  # the "1/4" of "1 1/4 inches"
        if token.text == "half" and i + 2 < len(tokens) and tokens[i + 1].text in ("a", "an"):
            if half := _CM.get(tokens[i + 2].stem):
                found.append(half / 2)  # "half a centimetre"
            continue
        if not (token.text[0].isdecimal() or token.text in numbers):
            continue
        span = range_at(tokens, i)
        if span is None or span.j >= len(tokens):
            continue
        end = span.j
        j = end + (tokens[span.j].text == "-")
        if [token.text for token in tokens[j : j + 2]] in (["of", "an"], ["of", "a"]):
            j += 2  # "3/4 of an inch"
        if j >= len(tokens):
            continue
        size = _CM.get(tokens[j].stem)
        if tokens[j].text == "in" and tokens[j].start != tokens[j - 1].end:
            size = None
        if size and 0.01 <= span.likely * size <= 60:
            found.append(span.likely * size)
    return min(found) if found else None
