"""Misspelt words: the word of a vocabulary that is meant, if one is near enough."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache

from rapidfuzz import process
from rapidfuzz.distance import DamerauLevenshtein

SHORTEST = 5
"""Letters in the shortest word that is taken for a misspelling: shorter ones are too near to each other."""

LONG = 8
"""From this length on, two slips are forgiven rather than one."""

_DOUBLED = re.compile(r"(.)\1+")


class Speller:
    """Corrects words by vocabularies, the first before the next; it holds that the first letter is right.

    Letters doubled or not ("vannila", "carot") are the commonest slip, and are right before any other.
    """

    def __init__(self, *vocabularies: Iterable[str]) -> None:
        tiers = [sorted(filter(str.isalpha, words)) for words in vocabularies]
        self._tiers = [
            ({_undoubled(word): word for word in reversed(words)}, _by_start(words)) for words in tiers
        ]
        self.nearest = lru_cache(maxsize=4096)(self._nearest)

    def _nearest(self, word: str) -> str | None:
        """The nearest word that is near enough; of words as near the first of the alphabet."""
        if len(word) < SHORTEST or not word.isalpha():
            return None
        slips = 2 if len(word) >= LONG else 1
        for undoubled, tier in self._tiers:
            if same := undoubled.get(_undoubled(word)):
                return same
            near = [each for length in _lengths(word, slips) for each in tier.get((word[0], length), ())]
            found = process.extractOne(word, near, scorer=DamerauLevenshtein.distance, score_cutoff=slips)
            if found:
                return found[0]
        return None


def _undoubled(word: str) -> str:
    return _DOUBLED.sub(r"\1", word)


def _lengths(word: str, slips: int) -> range:
    return range(max(len(word) - slips, SHORTEST - 1), len(word) + slips + 1)


def _by_start(vocabulary: Iterable[str]) -> dict[tuple[str, int], list[str]]:
    """Words by first letter and length."""
    found: dict[tuple[str, int], list[str]] = {}
    for word in vocabulary:
        found.setdefault((word[0], len(word)), []).append(word)
    return found
