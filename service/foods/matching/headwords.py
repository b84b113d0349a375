"""Names as tables key them: "chicken breast" fits a food whose last word is breast and that has chicken."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Generic, TypeVar

from .folding import fold

T = TypeVar("T")

_BREAKS = frozenset({"in", "with", "on", "for", "from", "without"})


class Phrase:
    """A food as named. heads: the words it can be headed by; named: its own words; beside: texts that stand
    with it (preparations), whose words count too."""

    __slots__ = ("_words", "beside", "heads", "named")

    def __init__(self, heads: tuple[str, ...], named: frozenset[str], beside: tuple[str, ...] = ()) -> None:
        self.heads = heads
        self.named = named
        self.beside = beside
        self._words: frozenset[str] | None = None

    @classmethod
    def of_line(cls, food_words: str, beside: Iterable[str] = ()) -> Phrase:
        """From a line: its food's words, and texts that stand beside them."""
        words = fold(food_words)
        until = next((at for at, word in enumerate(words) if word in _BREAKS and at), len(words))
        heads = words[-1:] if until == len(words) else (words[until - 1], words[-1])
        return cls(heads, frozenset(words), tuple(beside))

    @property
    def words(self) -> frozenset[str]:
        """All its words."""
        if self._words is None:
            self._words = self.named.union(*map(fold, self.beside))
        return self._words

    @classmethod
    @lru_cache(maxsize=4096)
    def of_name(cls, name: str) -> Phrase:
        """From a dataset's name, "Head noun, qualifier, qualifier"; kept, since recipes share their foods."""
        first = fold(name.partition(",")[0].partition("(")[0])
        return cls(tuple(first[-1:]), frozenset(fold(name)))


@dataclass(frozen=True, slots=True)
class Fit(Generic[T]):
    """A row that fits a phrase. key: the words of its key, all of them found there."""

    row: T
    key: frozenset[str]

    @property
    def words(self) -> int:
        """How many words of the key were found."""
        return len(self.key)


class HeadTable(Generic[T]):
    """Rows by the names they are kept under."""

    def __init__(self, keyed: Iterable[tuple[str, T]]) -> None:
        """keyed: names divided by "|", and the row."""
        self._by_head: dict[str, list[tuple[frozenset[str], T]]] = {}
        for names, row in keyed:
            for name in names.split("|"):
                words = fold(name)
                if words:
                    self._by_head.setdefault(words[-1], []).append((frozenset(words), row))

    def fits(self, phrase: Phrase) -> Iterator[Fit[T]]:
        """Every row that fits, in the order of the table."""
        for head in phrase.heads:
            for needed, row in self._by_head.get(head, ()):
                if needed <= phrase.named or needed <= phrase.words:
                    yield Fit(row, needed)

    def best(self, phrase: Phrase) -> T | None:
        """The row with the most words found; the first of equals."""
        found = self.best_fit(phrase)
        return found.row if found else None

    def best_fit(self, phrase: Phrase) -> Fit[T] | None:
        """The fit of that row."""
        return max(self.fits(phrase), key=lambda fit: fit.words, default=None)
