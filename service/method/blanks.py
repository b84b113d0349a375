"""Runs of blanks, which are read as one, and the places that words have in the text with all of them."""

from __future__ import annotations

import re
from collections.abc import Sequence

_RUN = re.compile("  +")


def single_blanks(texts: tuple[str, ...]) -> tuple[str, ...]:
    """Texts with one blank for every run of them."""
    if not any("  " in text for text in texts):
        return texts
    return tuple([_RUN.sub(" ", text) for text in texts])


def places_before(text: str, places: Sequence[int]) -> list[int]:
    """Where places of a text of single blanks are in the text as it was written."""
    if "  " not in text:
        return list(places)
    left: list[int] = []
    begin = 0
    for run in _RUN.finditer(text):
        left += range(begin, run.start() + 1)
        begin = run.end()
    left += range(begin, len(text) + 1)
    return [left[place] for place in places]
