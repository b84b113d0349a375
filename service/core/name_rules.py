"""Rules over the names of foods: one syntax for every table that sorts foods or lines by their words.

A row of such a table has some of these columns; one that a table lacks, or a blank cell, leaves all names in:

- groups: food groups, each by the first two figures of its code, parted by blanks;
- words: words and phrases parted by |, of which one stands in the name, whole or in the plural (s, es);
- but_for: phrases that are struck from the name before `words` are looked for;
- unless: words and phrases that must not stand in the name.

Names are compared in lower case. The first row that fits counts, unless a module takes all that fit.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Generic, TypeVar

from .remembered import Remembered
from .tables import Row, load

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class NameRule:
    """The names that a row is about; None: the cell is blank."""

    groups: frozenset[str]
    words: re.Pattern[str] | None
    but_for: re.Pattern[str] | None
    unless: re.Pattern[str] | None

    @classmethod
    def of(cls, row: Row) -> NameRule:
        patterns = (words_pattern(row.get(column, "")) for column in ("words", "but_for", "unless"))
        return cls(frozenset(row.get("groups", "").split()), *patterns)

    @property
    def has_figures(self) -> bool:
        """Whether figures stand in any of its words."""
        patterns = (each.pattern for each in (self.words, self.but_for, self.unless) if each)
        return any(map(str.isdigit, "".join(patterns)))

    def fits(self, name: str, group_code: str = "") -> bool:
        """Whether a name in lower case, of a food in a group (its code; "": in none), is among them."""
        if self.groups and group_code[:2] not in self.groups:
            return False
        if self.unless is not None and self.unless.search(name):
            return False
        return self.words is None or self.says(self.but_for.sub(" ", name) if self.but_for else name)

    def says(self, text: str) -> bool:
        """Whether one of the words stands in a text in lower case, whatever else the rule asks."""
        return self.words is not None and self.words.search(text) is not None


MOST_NAMES = 8192
"""Names whose rules a table remembers."""

_NUMBER = re.compile(r"(?<!\S)\d+(?:[.,/]\d+)*(?!\S)")


@dataclass(frozen=True, slots=True, eq=False)
class NameRules(Generic[T]):
    """The rules of a table in its order, each with what its row makes of a name that fits.

    What fits a name is looked for once; where no rule has figures in it, names that differ in their numbers
    alone ("3 eggs", "4 eggs") are one.
    """

    rows: tuple[tuple[NameRule, T], ...]
    _numbered: bool = field(init=False, repr=False)
    _fitting: Remembered[tuple[T, ...]] = field(default_factory=lambda: Remembered(MOST_NAMES), repr=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "_numbered", any(rule.has_figures for rule, _ in self.rows))

    @classmethod
    def of(cls, table: str, make: Callable[[Row], T]) -> NameRules[T]:
        """The rules of seed_foods/`table`.csv. Raises BrokenTable where `make` raises for a row."""
        return cls(load(table, lambda row: (NameRule.of(row), make(row))))

    def all(self, name: str, group_code: str = "") -> tuple[T, ...]:
        """What every row makes of a name that it fits, in the order of the table."""
        lowered = name.lower() if self._numbered else _NUMBER.sub("0", name.lower())
        return self._fitting.find(
            (lowered, group_code[:2]),
            lambda: tuple(made for rule, made in self.rows if rule.fits(lowered, group_code)),
        )

    def first(self, name: str, group_code: str = "") -> T | None:
        """What the first row that fits makes of a name; None where none fits."""
        return next(iter(self.all(name, group_code)), None)


def words_pattern(cell: str) -> re.Pattern[str] | None:
    """A pattern for any word of a cell (parted by |), whole or in the plural; None where it is blank."""
    # Longest first, so that a phrase is taken whole before a word that begins it.
    words = sorted((re.escape(word) for word in cell.split("|") if word), key=len, reverse=True)
    return re.compile(rf"\b(?:{'|'.join(words)})(?:s|es)?\b") if words else None
