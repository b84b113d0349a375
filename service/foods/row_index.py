"""The dataset's own names as an index: which rows have a word, and how far other words put them off.

Names run "Head noun, qualifier, qualifier". A row costs for each of its words, most in the part that names
the food; a word that is asked for gives its cost back and earns on top. So one addition a word scores all
rows.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from functools import cache

import numpy as np
from numpy.typing import NDArray

from ..tables import rows
from .qualifiers import qualifiers
from .words import Words, fold

Costs = NDArray[np.float32]
Places = NDArray[np.int64]

PART_COSTS = (1.5, 0.5, 0.3)
"""What an unasked word costs in the part that names the food, the next one, and any later one."""

BRAND_COST = 2.5
_BRAND = re.compile(r"\b(?!USDA|DHA|ARA|NFS|RTF|UPC|II?I?\b)[A-Z][A-Z'’]{2,}")
_GROUP_PART = 3
"""The place, behind those of PART_COSTS, of a head that says only the group of foods."""


@cache
def _costs(kind: str) -> Mapping[str, float]:
    return {row["value"]: float(row["cost"]) for row in rows("name_groups") if row["kind"] == kind}


class RowIndex:
    """Names of foods by their words. codes: the rows' codes; names: their names; both in one order."""

    def __init__(self, names: Mapping[str, str]) -> None:
        self.codes = tuple(names)
        self.names = tuple(names.values())
        self.places = {code: place for place, code in enumerate(self.codes)}
        self._numbers: dict[str, int] = {}
        self._split: dict[str, tuple[int, ...]] = {}
        row_of, word_of, part_of = self._flattened()
        order = np.argsort(word_of, kind="stable")
        row_of, word_of, part_of = row_of[order], word_of[order], part_of[order]
        # A word may stand in a name twice; only the first counts.
        first = np.append(True, (np.diff(row_of) != 0) | (np.diff(word_of) != 0))[: len(row_of)]
        self._rows, word_of = row_of[first], word_of[first]
        costs = self._word_costs()[part_of[first], word_of]
        self._refunds = costs.astype(np.float32)
        self._starts: list[int] = np.searchsorted(word_of, np.arange(len(self._numbers) + 1)).tolist()
        self._base = -np.bincount(self._rows, costs, len(self.codes)).astype(np.float32)
        self._base -= np.array([_put_off(code, name) for code, name in names.items()], np.float32)

    @property
    def vocabulary(self) -> Iterable[str]:
        return self._numbers.keys()

    def __contains__(self, word: object) -> bool:
        return word in self._numbers

    def score(self, weights: Mapping[str, float]) -> Costs:
        """Each row's score, shape (rows,): what its words earn, less what its other words cost."""
        scores = self._base.copy()
        for word, weight in weights.items():
            rows_, refunds = self._postings(word)
            scores[rows_] += refunds + np.float32(weight)
        return scores

    def having(self, words: Iterable[str]) -> Places:
        """Places of the rows that have all of the words, ascending."""
        found: Places | None = None
        for word in words:
            those = self._postings(word)[0]
            found = those if found is None else np.intersect1d(found, those)
        return np.empty(0, np.int64) if found is None else found

    def words_of(self, place: int) -> Words:
        """The words of the row at a place."""
        return tuple(word for _, text in placed_parts(self.names[place]) for word in row_words(text))

    def _postings(self, word: str) -> tuple[Places, Costs]:
        number = self._numbers.get(word)
        if number is None:
            return self._rows[:0], self._refunds[:0]
        span = slice(self._starts[number], self._starts[number + 1])
        return self._rows[span], self._refunds[span]

    def _flattened(self) -> tuple[Places, Places, Places]:
        """Every word of every row: its row, its number, its part."""
        numbers: list[int] = []
        spans: list[tuple[int, int, int]] = []
        for row, name in enumerate(self.names):
            for part, text in placed_parts(name):
                words = self._split.get(text)
                if words is None:
                    words = self._split[text] = self._numbered(text)
                numbers += words
                spans.append((row, part, len(words)))
        table = np.array(spans, np.int64).reshape(-1, 3)
        length = table[:, 2]
        return np.repeat(table[:, 0], length), np.array(numbers, np.int64), np.repeat(table[:, 1], length)

    def _numbered(self, text: str) -> tuple[int, ...]:
        number = self._numbers
        return tuple(number.setdefault(word, len(number)) for word in row_words(text))

    def _word_costs(self) -> NDArray[np.float64]:
        """What each word costs in each part, shape (parts, words)."""
        known = qualifiers()
        table = np.empty((_GROUP_PART + 1, len(self._numbers)))
        table[:_GROUP_PART] = np.array(PART_COSTS)[:, None]
        table[_GROUP_PART] = 0.05
        for word, number in self._numbers.items():
            if word in known:
                table[:, number] = known[word].row_cost
        return table


def placed_parts(name: str) -> list[tuple[int, str]]:
    """The comma-parted texts of a name and their place: 0 = names the food, 3 = says only the group."""
    parts = name.split(", ")
    first = 1 if len(parts) > 1 and parts[0].lower() in _costs("head") else 0
    return [(_GROUP_PART if at < first else min(at - first, 2), text) for at, text in enumerate(parts)]


def row_words(text: str) -> Words:
    """The folded words of a part of a name, and those they imply, each once."""
    known = qualifiers()
    words = dict.fromkeys(word for word in fold(text) if word not in ("and", "of", "or", "the", "a"))
    for word in tuple(words):
        if word in known and known[word].implies:
            words[known[word].implies] = None
    return tuple(words)


def _put_off(code: str, name: str) -> float:
    head = name.partition(", ")[0].lower()
    brand = BRAND_COST if _BRAND.search(name) else 0.0
    return brand + _costs("head").get(head, 0.0) + _costs("codes").get(code[:2], 0.0)


def best(scores: Costs, among: Places | None = None, count: int = 4) -> Sequence[int]:
    """Places of the highest scores, highest first, ties in the order of rows."""
    chosen = scores if among is None else scores[among]
    if not len(chosen):
        return ()
    floor = np.partition(chosen, -count)[-count] if len(chosen) > count else chosen.min()
    near = np.flatnonzero(chosen >= floor)
    places = near if among is None else among[near]
    ordered = sorted(places.tolist(), key=lambda place: (-scores[place], place))
    return ordered[:count]
