"""Household measures as USDA writes them, read into amount, unit and form."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache


@dataclass(frozen=True, slots=True)
class Household:
    """A measure of one food and what it weighs, without refuse: label as written, grams > 0."""

    label: str
    grams: float

    @property
    def amount(self) -> float:
        """How many of `unit` weigh `grams`: 0.5 for ".5 cup, slices"; 1 where the label has no number."""
        return parse(self.label)[0]

    @property
    def unit(self) -> str:
        """The unit's words, lower case: "cup", "fl oz", "large", "slice"."""
        return parse(self.label)[1]

    @property
    def form(self) -> str:
        """What follows the unit, lower case: "chopped", "(8 fl oz)"; often ''."""
        return parse(self.label)[2]


@lru_cache(maxsize=4096)
def parse(label: str) -> tuple[float, str, str]:
    """Amount, unit and form of a label.

    >>> parse(".5 cup, slices")
    (0.5, 'cup', 'slices')
    >>> parse("1 large (2-1/4 per lb)")
    (1.0, 'large', '(2-1/4 per lb)')
    """
    head, _, form = re.sub(r"\s*,?\s*\(", ", (", label.lower().strip(), count=1).partition(",")
    number, unit = re.fullmatch(r"(\d*\.?\d+)?\s*(.*)", head, re.DOTALL).groups()  # type: ignore[union-attr]
    return float(number or 1), unit.strip(), form.strip()
