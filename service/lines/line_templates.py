"""Lines that differ in their leading number alone: read once with one number, and given every other.

Only where the number can mean nothing but the line's whole quantity: it stands first, in plain figures, no
other number or article follows, and the quantity that was read is that number, no more and no less.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache

from ..core.remembered import Remembered
from ..core.spread import Spread
from .amounts import number_words
from .line import Line

MOST_TEMPLATES = 16_384
_NUMBERED = re.compile(r"(\d{1,6}(?:\.\d{1,5})?)( [^\d]+)")
_WORD = re.compile(r"[^\W\d_]+")
_ARTICLES = frozenset({"a", "an"})
NO_TEMPLATE = Line("")
"""What stands for words that give none."""


class LineTemplates:
    """What lines said with one number, by all that stands behind it."""

    def __init__(self, read: Callable[[str], Line]) -> None:
        self._read = read
        self._known: Remembered[Line] = Remembered(MOST_TEMPLATES)

    def line(self, text: str) -> Line:
        """The line that a text says: by what it said with another number, or read where that may differ."""
        found = _NUMBERED.fullmatch(text)
        if found is None:
            return self._read(text)
        number, words = found.groups()
        amount, template = Spread.exact(float(number)), self._known.get(words)
        if template is not None and template is not NO_TEMPLATE:
            return template.with_amount(text, amount)
        line = self._read(text)
        if template is None:
            self._known.keep(words, line if _is_plain(line, amount, words) else NO_TEMPLATE)
        return line


def _is_plain(line: Line, amount: Spread, words: str) -> bool:
    """Whether a line would say the same with any other number."""
    if not amount.likely or line.amount != amount or line.measures or line.package is not None:
        return False  # of nothing, a dozen is nothing too
    told = _WORD.findall(words.lower())
    return _telling().isdisjoint(told) and not any(map(str.isnumeric, words))


@cache
def _telling() -> frozenset[str]:
    """Words that a number, or the one thing, may be told by."""
    return _ARTICLES | number_words()
