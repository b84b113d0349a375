"""Searches foods by the words of their names, the last of which may be half typed."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from .folding import Words, fold
from .match_scoring import FOOD_WORD, HEAD_WORD, Chooser
from .name_parts import Places
from .row_index import RowIndex, best

SHORTEST_PREFIX = 2
"""Letters from which on the last word may be the beginning of one."""


def search(query: str, limit: int, chooser: Chooser) -> tuple[str, ...]:
    """Codes of the foods that fit best, best first, at most `limit`; none where nothing fits.

    First what the words mean in a kitchen, then rows that have all of the words, generic ones first, then
    what else is near.
    """
    asked = fold(query)
    found = dict.fromkeys(code for code in _found(asked, limit, chooser) if code)
    return tuple(found)[:limit]


def _found(asked: Words, limit: int, chooser: Chooser) -> Iterator[str | None]:
    meant = chooser.choose(asked, ())
    yield meant.code
    yield from _having_all(asked, limit, chooser)
    yield from meant.others


def _having_all(asked: Words, limit: int, chooser: Chooser) -> Iterator[str]:
    """Rows that have all of the words, or words that begin with the last; misspelt words are corrected."""
    if not asked:
        return
    index = chooser.index
    *whole, last = dict.fromkeys((*map(chooser.spelled, asked[:-1]), asked[-1]))
    begun = index.beginning(last) if len(last) >= SHORTEST_PREFIX else [last]
    begun = begun or [chooser.spelled(last)]
    places = _union(begun, index)
    if whole:
        places = np.intersect1d(places, index.having(whole))
    weights = dict.fromkeys((*whole, *begun), FOOD_WORD) | {last: HEAD_WORD}
    yield from (index.codes[place] for place in best(index.score(weights), places.tolist(), limit))


def _union(words: list[str], index: RowIndex) -> Places:
    return np.unique(np.concatenate([index.having((word,)) for word in words]))
