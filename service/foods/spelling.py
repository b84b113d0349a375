"""Misspelt words: the word of a vocabulary that is meant, if one is near enough."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

from rapidfuzz import process
from rapidfuzz.distance import DamerauLevenshtein

SHORTEST = 5
"""Letters in the shortest word that is taken for a misspelling: shorter ones are too near to each other."""

LONG = 8
"""From this length on, two slips are forgiven rather than one."""


class Speller:
    """Corrects words by a vocabulary; it holds that the first letter is right."""

    def __init__(self, vocabulary: Iterable[str]) -> None:
        self._by_start: dict[tuple[str, int], list[str]] = {}
        for word in sorted(vocabulary):
            if len(word) >= SHORTEST - 1 and word.isalpha():
                self._by_start.setdefault((word[0], len(word)), []).append(word)
        self.nearest = lru_cache(maxsize=4096)(self._nearest)

    def _nearest(self, word: str) -> str | None:
        if len(word) < SHORTEST or not word.isalpha():
            return None
        slips = 2 if len(word) >= LONG else 1
        lengths = range(len(word) - slips, len(word) + slips + 1)
        near = [each for length in lengths for each in self._by_start.get((word[0], length), ())]
        found = process.extractOne(word, near, scorer=DamerauLevenshtein.distance, score_cutoff=slips)
        return found[0] if found else None
