"""A line and its food together, as the ways of weighing ask for them."""

from __future__ import annotations

from collections.abc import Iterator

from ...lines.line import Line
from ...units.kitchen_units import Cup
from ..food import Food
from ..matching.headwords import Phrase
from . import typical

_LONGEST_BESIDE = 4
"""Words of a preparation that tell of the food; what is longer is a remark ("not garlic cloves, just …")."""

_DRIED = frozenset({"dried"})


class WeighedLine:
    """A line and a food together; what is looked up of them is made once, when it is first asked for."""

    __slots__ = ("_forms", "_phrase", "cup", "food", "line")

    def __init__(self, line: Line, food: Food | None, cup: Cup) -> None:
        self.line = line
        self.food = food
        self.cup = cup
        self._phrase: Phrase | None = None
        self._forms: frozenset[str] | None = None

    @property
    def phrase(self) -> Phrase:
        """The food by the line's words."""
        if self._phrase is None:
            beside = (each for each in self.line.preparation if each.count(" ") < _LONGEST_BESIDE)
            self._phrase = Phrase.of_line(self.line.food_words, beside)
        return self._phrase

    @property
    def forms(self) -> frozenset[str]:
        """What the line says of the food's form."""
        if self._forms is None:
            # "broccoli florets" names a form last; the "whole" of "whole milk" is none.
            last = self.line.food_words.rpartition(" ")[2]
            words = " ".join((last, *self.line.preparation)).replace("-", " ").split()
            self._forms = typical.forms_in(words) - self._own_forms
        return self._forms

    @property
    def _own_forms(self) -> frozenset[str]:
        """Forms that are the food's very make, and so say nothing of how its cup is filled: dried thyme."""
        is_dried = self.food is not None and ", dried" in self.food.name
        return _DRIED if is_dried else frozenset()

    @property
    def is_cooked_food(self) -> bool:
        """Whether both line and food are cooked, so that the food's own cup is one of the cooked."""
        return self.food is not None and "cooked" in self.forms and ", cooked" in self.food.name

    def phrases(self) -> Iterator[Phrase]:
        """The food by the line's words, then by its name in the dataset."""
        yield self.phrase
        if self.food:
            yield self.dataset_name

    @property
    def dataset_name(self) -> Phrase:
        """The food by its name in the dataset."""
        return Phrase.of_name(self.food.name if self.food else "")
