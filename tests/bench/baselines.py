"""What there is without a matcher of one's own: SQLite FTS5's bm25 and rapidfuzz's WRatio over all names.

Both get the food words that our reader found in the line, never the raw line.
"""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Callable, Mapping

from rapidfuzz import fuzz, process, utils

from .scoring import Answer

Search = Callable[[str], Answer]


def full_text(names: Mapping[str, str]) -> Search:
    """bm25 over an FTS5 index in memory; any of the words may match; nothing found = no match."""
    index = sqlite3.connect(":memory:")
    index.execute(
        "CREATE VIRTUAL TABLE foods USING fts5(code UNINDEXED, name, tokenize = 'porter unicode61')"
    )
    index.executemany("INSERT INTO foods VALUES (?, ?)", names.items())
    ask = "SELECT code FROM foods WHERE foods MATCH ? ORDER BY bm25(foods) LIMIT 3"

    def search(words: str) -> Answer:
        terms = re.findall(r"\w+", words)
        if not terms:
            return Answer(None)
        query = " OR ".join(f'"{term}"' for term in terms)
        return _answer([code for (code,) in index.execute(ask, (query,))])

    return search


def full_scan(names: Mapping[str, str]) -> Search:
    """The best WRatio over every name, names made lower case once beforehand; it always finds something."""
    prepared = {code: utils.default_process(name) for code, name in names.items()}

    def search(words: str) -> Answer:
        found = process.extract(utils.default_process(words), prepared, scorer=fuzz.WRatio, limit=3)
        return _answer([code for _, _, code in found])

    return search


def _answer(codes: list[str]) -> Answer:
    return Answer(codes[0], tuple(codes[1:])) if codes else Answer(None)
