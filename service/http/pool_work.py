"""What lines of a request are worked out by, here or in the processes of `line_pool`: plain values alone."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from ..batch.answers import LOST, answer_line
from ..batch.parts import Part
from ..calculator import answer_recipe, costs_of
from ..config import Settings
from ..core.checkpoint import CallerGone, watched
from ..core.documents import json_line
from ..foods.dataset import bundled
from ..gate.problem_details import problem, problem_of
from ..jobs.line_saves import Plain, below, made_ready
from ..recipe import work_budget
from ..recipe.sub_recipes import named_in
from .watch import RequestWatch

if TYPE_CHECKING:
    from ..review.chain import Actor
    from ..review.overrides import Overrule
    from ..store.bulk import Prepared

Document = dict[str, Any]


class _NeedsStore(CallerGone):
    """A recipe that is made of saved ones; it passes all that would make a problem of it."""


@dataclass(frozen=True)
class AnswerWatched:
    """Answers lines, each of which may cost as much, and take as long, as it may alone.

    A line that names saved recipes is given back as it is (None for its answer): only a process with the
    store can answer it.
    """

    settings: Settings

    def __call__(self, part: Part[bytes | None]) -> list[bytes | None]:
        return [self._answered(line, number) for number, line in enumerate(part.items, part.first)]

    def _answered(self, line: bytes | None, number: int) -> bytes | None:
        def answer(recipe: Document) -> Document:
            if any(named_in(recipe)):
                raise _NeedsStore
            work_budget.allow(costs_of(recipe), self.settings.work_ms)
            with watched(RequestWatch(self.settings)):
                return answer_recipe(recipe)

        try:
            return json_line(answer_line(line, number, answer))
        except _NeedsStore:
            return None

    def apart(self, part: Part[bytes | None]) -> list[Part[bytes | None]]:
        return part.apart()

    def joined(self, results: Sequence[list[bytes | None]]) -> list[bytes | None]:
        return [line for lines in results for line in lines]

    def lost(self, part: Part[bytes | None]) -> list[bytes | None]:
        return [json_line(problem(500, LOST, line=part.first))]


@dataclass(frozen=True)
class PrepareSaves:
    """Makes saves ready to be written; a problem stands in the place of one that cannot be."""

    settings: Settings
    by: Actor
    reaching: list[Overrule]

    def __call__(self, part: tuple[Plain, ...]) -> list[Prepared | Document]:
        ready = made_ready(part, self.by, self.reaching, bundled())
        return [self._prepared(save.recipe, make) for save, make in zip(part, ready, strict=True)]

    def _prepared(self, recipe: Document, make: Any) -> Prepared | Document:
        try:
            work_budget.allow((cost.times(1, "/recipe") for cost in costs_of(recipe)), self.settings.work_ms)
            with watched(RequestWatch(self.settings)), below("/recipe"):
                made: Prepared = make()
                return made
        except Exception as error:  # one bad line must not end the stream; problem_of logs what is ours
            return problem_of(error)

    def apart(self, part: tuple[Plain, ...]) -> list[tuple[Plain, ...]]:
        return [(save,) for save in part]

    def joined(self, results: Sequence[list[Prepared | Document]]) -> list[Prepared | Document]:
        return [each for result in results for each in result]

    def lost(self, part: tuple[Plain, ...]) -> list[Prepared | Document]:
        return [problem(500, LOST)]
