"""Another row of the same food: the cooked, canned, unsalted ... one."""

from __future__ import annotations

from functools import lru_cache

from .folding import Words
from .qualifiers import content, earns, wanted
from .row_index import RowIndex, best

MOVED = 0.2
"""What speaks against a sibling, next to the row that a name stands for."""

OWN_WORD = 1.0
"""What a sibling earns by each word that it shares with the row it is to replace."""


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
        weights = dict.fromkeys(content(own), OWN_WORD) | {word: earns(word) for word in asked}
        found = best(index.score(weights), self._named_alike(code, asked), 1)
        return (index.codes[found[0]], MOVED) if found else (code, sum(map(earns, missing)))

    def _named_alike(self, code: str, asked: Words) -> list[int]:
        """Places of the rows with those states in which the same words name the food."""
        index = self._index
        identity = set(content(index.naming(index.places[code])))
        places = index.having((*identity, *wanted(asked))).tolist()
        return [place for place in places if set(content(index.naming(place))) == identity]
