"""The second source as a calculation sees it: foods that are kept, and whom to tell of words that nobody knows.

A calculation never asks the network. What is not kept is not known now; whoever is told may find out.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from ..choosing import Choice, Chooser
from ..food import Food
from ..names import everyday_names
from ..row_index import RowIndex
from ..words import Words
from .kept import KeptFood


class KeptFoods:
    """Kept foods by code. Never changes: another set is another object."""

    def __init__(self, kept: Iterable[KeptFood] = ()) -> None:
        self.by_code: Mapping[str, KeptFood] = {each.code: each for each in kept}
        self.names = {code: each.name for code, each in self.by_code.items()}

    def __len__(self) -> int:
        return len(self.by_code)

    @cached_property
    def foods(self) -> Mapping[str, Food]:
        return {code: each.food() for code, each in self.by_code.items()}

    @cached_property
    def chooser(self) -> Chooser:
        return Chooser(RowIndex(self.names), everyday_names())

    def choose(self, asked: Words, told: Words) -> Choice:
        """The kept food for a line's words, as `Chooser.choose` tells it; none where nothing is kept."""
        if not self.by_code:
            return Choice(None, 0.0, (), "no food of the second source is kept")
        return self.chooser.choose(asked, told)

    def over(self, pinned: Iterable[KeptFood]) -> KeptFoods:
        """These foods with others in the place of those of the same codes."""
        pins = {each.code: each for each in pinned}
        return KeptFoods({**self.by_code, **pins}.values()) if pins else self


@dataclass(frozen=True, slots=True, eq=False)
class SecondSource:
    """Kept foods, and what is told of words that no food fits.

    unknown: takes what a line calls its food, and gives a sentence on where asking for it stands, '' for none.
    """

    kept: KeptFoods = field(default_factory=KeptFoods)
    unknown: Callable[[str], str] = lambda _: ""

    def pinned(self, pins: Iterable[KeptFood]) -> SecondSource:
        """The same with certain releases of some foods in place of those that are kept today."""
        return SecondSource(self.kept.over(pins), self.unknown)
