"""Everyday names of foods (seed_foods/common_names.csv), found inside a line's words."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from ..tables import rows
from .words import Words, fold


@dataclass(frozen=True, slots=True)
class Name:
    """An everyday name, its words folded, and the code of the food it stands for."""

    words: Words
    code: str


class NameIndex:
    """Names by their rarest word, so that those inside a line are found without a scan."""

    def __init__(self, names: Iterable[tuple[str, str]]) -> None:
        made = [Name(words, code) for text, code in names if (words := fold(text))]
        self.by_words: dict[Words, Name] = {}
        counts: dict[str, int] = {}
        for name in made:
            self.by_words.setdefault(name.words, name)
            for word in set(name.words):
                counts[word] = counts.get(word, 0) + 1
        self.words = frozenset(counts)
        self._by_word: dict[str, list[Name]] = {}
        for name in made:
            rarest = min(name.words, key=lambda word: (counts[word], word))
            self._by_word.setdefault(rarest, []).append(name)

    def inside(self, words: frozenset[str]) -> list[Name]:
        """Names all of whose words are among `words`."""
        return [
            name
            for word in sorted(words)
            for name in self._by_word.get(word, ())
            if words.issuperset(name.words)
        ]


@cache
def common_names() -> NameIndex:
    """The everyday names that come with the service."""
    return NameIndex((name, row["code"]) for row in rows("common_names") for name in row["names"].split("|"))
