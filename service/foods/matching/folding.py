"""Words of food names, folded so that the ways of writing one word come out alike.

Spellings that mean the same stand in seed_foods/name_words.csv; plurals and accents are folded by rule.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping, Sequence
from functools import cache, lru_cache

from ...core.tables import rows

Words = tuple[str, ...]

_WORD = re.compile(r"\d+(?:\.\d+)?%?|[^\W\d_]+")
_ELIDED = re.compile(r"\b[dl]'(?=\w)")
"""The article of "gousse d'ail"."""
_PERCENT = re.compile(r"(?<=\d)\s+(?:%|percent\b|per cent\b)")


@lru_cache(maxsize=8192)
def fold(text: str) -> Words:
    """The words of a text: lower case, without accents, in the singular, one spelling for each meaning."""
    return fold_once(text)


def fold_once(text: str) -> Words:
    """The same, not remembered: of a text that is not to come again."""
    words = _bare(text)
    return words if phrases().keys().isdisjoint(words) else _replaced(words, phrases())


def _bare(text: str) -> Words:
    plain = text.lower() if text.isascii() else _without_accents(text)
    if "'" in plain:
        plain = _ELIDED.sub("", plain).replace("'s", "s").replace("'", "")
    if "%" in plain or "percent" in plain or "per cent" in plain:
        plain = _PERCENT.sub("%", plain)
    return tuple(map(singular, _WORD.findall(plain)))


def _without_accents(text: str) -> str:
    parts = unicodedata.normalize("NFKD", text.casefold())
    return "".join(c for c in parts if not unicodedata.combining(c)).replace("\u2019", "'")


@lru_cache(maxsize=16384)
def singular(word: str) -> str:
    """The singular of a word: as seed_foods/singular_words.csv has it, else by its ending."""
    if known := _singulars().get(word):
        return known
    if len(word) < 4 or not word.endswith("s") or word.endswith(("ss", "us")):
        return word
    if word.endswith("leaves"):  # "bayleaves"
        return word[:-3] + "f"
    if word.endswith("ies"):
        return word[:-3] + "y"
    return word[:-2] if word.endswith(("oes", "shes", "ches", "xes", "sses")) else word[:-1]


@cache
def _singulars() -> Mapping[str, str]:
    return {
        plural: row["singular"] or plural
        for row in rows("singular_words")
        for plural in row["words"].split("|")
    }


@cache
def phrases() -> Mapping[str, tuple[tuple[Words, Words], ...]]:
    """Spellings and what they are folded to, longest first, by their first word."""
    found: dict[str, list[tuple[Words, Words]]] = {}
    for row in rows("name_words"):
        for spelling in row["words"].split("|"):
            words = _bare(spelling)
            found.setdefault(words[0], []).append((words, tuple(row["means"].split())))
    return {first: tuple(sorted(those, key=lambda pair: -len(pair[0]))) for first, those in found.items()}


def _replaced(words: Words, table: Mapping[str, Sequence[tuple[Words, Words]]]) -> Words:
    done: list[str] = []
    at = 0
    while at < len(words):
        for spelling, means in table.get(words[at], ()):
            if words[at : at + len(spelling)] == spelling:
                done += means
                at += len(spelling)
                break
        else:
            done.append(words[at])
            at += 1
    return tuple(done)
