"""Lines that differ in their leading number alone: read once with one number, and given every other.

Only where the number can mean nothing but the line's whole quantity: it stands first, in plain figures, no
other number or article follows, and the quantity that was read is that number, no more and no less.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

from ..core.remembered import Remembered
from ..core.spread import Spread
from .amounts import is_numeric
from .line import Line
from .line_tokens import tokenize

MOST_TEMPLATES = 16_384
_NUMBERED = re.compile(r"(\d{1,6}(?:\.\d{1,5})?)( [^\d]+)")
_PROBE = "2"
_ARTICLES = frozenset({"a", "an"})
NO_TEMPLATE = Line("")
"""What stands for words that give none."""


class LineTemplates:
    """What lines said with one number, by all that stands behind it."""

    def __init__(self, read: Callable[[str], Line]) -> None:
        self._read = read
        self._known: Remembered[Line] = Remembered(MOST_TEMPLATES)

    def line(self, text: str) -> Line | None:
        """The line that a text says, by what it said with another number; None where it has to be read."""
        found = _NUMBERED.fullmatch(text)
        if found is None:
            return None
        number, words = found.groups()
        template = self._known.find(words, lambda: self._template(words))
        if template is NO_TEMPLATE:
            return None
        return replace(template, text=text, amount=Spread.exact(float(number)))

    def _template(self, words: str) -> Line:
        if any(is_numeric(token) or token.word in _ARTICLES for token in tokenize(words)):
            return NO_TEMPLATE
        line = self._read(_PROBE + words)
        is_plain = line.amount == Spread.exact(float(_PROBE)) and not line.measures and line.package is None
        return line if is_plain else NO_TEMPLATE
