"""The dataset's own names as an index: which rows have a word, and how far their other words put them off.

A row costs for each of its words, most in the part that names the food; a word that is asked for gives its
cost back and a boost on top. So one addition a word scores all rows.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from .folding import Words
from .name_parts import GROUP, Places, ReadNames, costs_of, name_words, naming_words, read_names
from .qualifiers import boost, content, qualifiers, wanted

Scores = NDArray[np.float32]

PART_COSTS = (1.5, 0.5, 0.3, 0.05)
"""What an unasked word costs in the part that names the food, the next, later ones, and the group's."""


MOVED = 0.2
"""What speaks against a sibling, next to the row that a name stands for."""

OWN_WORD = 1.0
"""What a sibling gains by each word that it shares with the row it is to replace."""


class RowIndex:
    """Rows by the words of their names. codes: the rows' codes; names: their names, in the same order.

    places: each code's place. heads: words that alone name a food.
    """

    def __init__(self, names: Mapping[str, str]) -> None:
        self.codes = tuple(names)
        self.names = tuple(names.values())
        self.places = {code: place for place, code in enumerate(self.codes)}
        read = read_names(self.names)
        self.heads, self._numbers = read.heads, read.numbers
        self._rows, word_of, costs = _by_word(read)
        self._refunds = costs.astype(np.float32)
        self._starts: list[int] = np.searchsorted(word_of, np.arange(len(self._numbers) + 1)).tolist()
        put_off = read.put_off + [costs_of("codes").get(code[:2], 0.0) for code in self.codes]
        self._base = -(np.bincount(self._rows, costs, len(self.codes)) + put_off).astype(np.float32)

    @property
    def vocabulary(self) -> Iterable[str]:
        return self._numbers.keys()

    def __contains__(self, word: object) -> bool:
        return word in self._numbers

    def score(self, weights: Mapping[str, float]) -> Scores:
        """Each row's score, shape (rows,): what its words gain it, less what its other words cost."""
        scores = self._base.copy()
        for word, weight in weights.items():
            places, refunds = self._postings(word)
            scores[places] += refunds + np.float32(weight)
        return scores

    def having(self, words: Iterable[str]) -> Places:
        """Places of the rows that have all of the words, ascending."""
        found: Places | None = None
        for word in words:
            those = self._postings(word)[0]
            found = those if found is None else np.intersect1d(found, those, assume_unique=True)
        return np.empty(0, np.int64) if found is None else found

    def beginning(self, letters: str) -> list[str]:
        """The words that begin with those letters, the word itself first."""
        return sorted(word for word in self._numbers if word.startswith(letters))

    def words_of(self, place: int) -> Words:
        """The words of the row at a place."""
        return name_words(self.names[place])

    def naming(self, place: int) -> Words:
        """The words that name the food of the row at a place."""
        return naming_words(self.names[place])

    def _postings(self, word: str) -> tuple[Places, Scores]:
        number = self._numbers.get(word)
        if number is None:
            return self._rows[:0], self._refunds[:0]
        span = slice(self._starts[number], self._starts[number + 1])
        return self._rows[span], self._refunds[span]


def _by_word(read: ReadNames) -> tuple[Places, Places, NDArray[np.float64]]:
    """Rows, word numbers and costs in the order of words, then rows; each word of a row once."""
    order = np.argsort(read.word_of, kind="stable")
    row_of, word_of, place_of = read.row_of[order], read.word_of[order], read.place_of[order]
    # A word may stand in a name twice; only the first counts.
    first = np.ones(len(order), bool)
    first[1:] = (np.diff(row_of) != 0) | (np.diff(word_of) != 0)
    row_of, word_of, place_of = row_of[first], word_of[first], place_of[first]
    return row_of, word_of, _word_costs(read.numbers)[place_of, word_of]


def _word_costs(numbers: Mapping[str, int]) -> NDArray[np.float64]:
    """What each word costs unasked, by place and number: shape (places, words)."""
    table = np.repeat(np.array(PART_COSTS)[:, None], len(numbers), axis=1)
    for word, qualifier in qualifiers().items():
        if word in numbers:
            table[: GROUP + 1, numbers[word]] = qualifier.row_cost
    return table


def best(scores: Scores, among: Sequence[int] | None = None, count: int = 4) -> Sequence[int]:
    """Places of the highest scores, highest first, ties in the order of rows."""
    if among is None:
        floor = np.partition(scores, -count)[-count] if len(scores) > count else -np.inf
        among = np.flatnonzero(scores >= floor).tolist()
    return sorted(among, key=lambda place: (-scores[place], place))[:count]


class Siblings:
    """Rows of one food in their several states."""

    def __init__(self, index: RowIndex) -> None:
        self._index = index
        self.find = lru_cache(maxsize=4096)(self._find)

    def _find(self, code: str, asked: Words) -> tuple[str, float]:
        """The row of the food `code` that has the states asked for, and how short it falls of them."""
        index = self._index
        own = index.words_of(index.places[code])
        missing = [word for word in wanted(asked) if word not in own]
        if not missing:
            return code, 0.0
        weights = dict.fromkeys(content(own), OWN_WORD) | {word: boost(word) for word in asked}
        found = best(index.score(weights), self._named_alike(code, asked), 1)
        return (index.codes[found[0]], MOVED) if found else (code, sum(map(boost, missing)))

    def _named_alike(self, code: str, asked: Words) -> list[int]:
        """Places of the rows with those states in which the same words name the food."""
        index = self._index
        identity = set(content(index.naming(index.places[code])))
        places = index.having((*identity, *wanted(asked))).tolist()
        return [place for place in places if set(content(index.naming(place))) == identity]
