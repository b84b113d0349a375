"""The second source as a calculation sees it: kept foods, and whom to tell of words that nobody knows.

A calculation never asks the network. What is not kept is not known now; whoever is told may find out.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from ..food import Food
from ..matching.everyday_names import everyday_names
from ..matching.folding import Words
from ..matching.match_scoring import Choice, MatchScorer
from ..matching.row_index import RowIndex
from .kept import KeptFood

ASKING = {
    "waiting": "FoodData Central is being asked for it; it counts as soon as it is known.",
    "found": "FoodData Central has foods that may be meant; choose one as its food.",
    "nothing": "FoodData Central has no such food either.",
    "failed": "FoodData Central is out of reach just now and is asked again later.",
}
"""Where asking for words may stand, and the sentence that says so."""


class KeptFoods:
    """Kept foods. Never changes: another set is another object.

    matched: those that lines may be mapped to. offered: those that can only be named by their codes, until a
    person has chosen one. by_code: both. names: of the matched ones, by code.
    """

    def __init__(self, matched: Iterable[KeptFood] = (), offered: Iterable[KeptFood] = ()) -> None:
        fit = {each.code: each for each in matched}
        self.by_code: Mapping[str, KeptFood] = {each.code: each for each in offered} | fit
        self.names = {code: each.name for code, each in fit.items()}

    @cached_property
    def foods(self) -> Mapping[str, Food]:
        """The foods as calculations take them, by code."""
        return {code: each.food() for code, each in self.by_code.items()}

    @cached_property
    def scorer(self) -> MatchScorer:
        """What chooses among the matched ones."""
        return MatchScorer(
            RowIndex(self.names),
            everyday_names(),
            lambda code: self.foods[code].per_100g("NA"),
            lambda code: self.foods[code].group_code,
        )

    def choose(self, asked: Words, told: Words) -> Choice:
        """The matched food for a line's words, as `MatchScorer.choose` has it; none where none is kept."""
        if not self.names:
            return Choice(None, 0.0, (), "no food of the second source is kept")
        return self.scorer.choose(asked, told)

    def over(self, pinned: Iterable[KeptFood]) -> KeptFoods:
        """These foods with others in the place of those of the same codes; what is pinned is matched too."""
        pins = {each.code: each for each in pinned}
        if not pins:
            return self
        matched = {code: self.by_code[code] for code in self.names} | pins
        return KeptFoods(matched.values(), self.by_code.values())


def _nowhere(words: str) -> str:
    return ""


@dataclass(frozen=True, slots=True, eq=False)
class SecondSource:
    """Kept foods, and what is told of words that no food fits.

    unknown: takes what a line calls its food, and gives where asking for it stands, one of ASKING or ''.
    offered: the codes of kept foods that a look-up of these words found, nearest first.
    """

    kept: KeptFoods = field(default_factory=KeptFoods)
    unknown: Callable[[str], str] = _nowhere
    offered: Callable[[str], Sequence[str]] = lambda _: ()

    @property
    def is_closed(self) -> bool:
        """Whether nobody is told of words that no food fits."""
        return self.unknown is _nowhere

    def pinned(self, pins: Iterable[KeptFood]) -> SecondSource:
        """The same with certain releases of some foods in place of those that are kept today."""
        return SecondSource(self.kept.over(pins), self.unknown, self.offered)
