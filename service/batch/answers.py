"""What is done with a part of a batch: its answers as lines, ready to be written."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from ..core.documents import json_line
from ..core.errors import SaltledgerError
from ..gate.problem_details import problem
from .compression import Compression, packed
from .parts import Mark, Part
from .stream import is_problem

T = TypeVar("T")

LOST = (
    "The process that worked this recipe out came to its end each time, as where memory runs out. Look at "
    "what is unusual about the recipe, and send it by itself."
)


@dataclass(frozen=True, slots=True)
class Answered:
    """The lines of a part, ready to be written, and what is told of them: how many, with how many problems,
    how to go on after them, and how far the run has come."""

    body: bytes
    items: int
    problems: int
    mark: Mark
    reached: int


class OtherData(SaltledgerError):
    """A process that would answer otherwise than the one that asked it."""

    def __str__(self) -> str:
        return (
            "A worker has another release, other foods or other tables than this machine, or its store keeps "
            "other foods. Install the same release everywhere and start the workers anew."
        )


@dataclass(frozen=True)
class AnswerParts(ABC, Generic[T]):
    """Answers the items of parts, each by a line, as `executors.Work`.

    rests_on: what figures rest on where the run was begun; a process in which that is other is refused.
    """

    compression: Compression
    rests_on: str

    def __call__(self, part: Part[T]) -> Answered:
        """Raises OtherData."""
        if self.rests_on_here() != self.rests_on:
            raise OtherData
        return self._told(part, self.answers(part))

    @abstractmethod
    def rests_on_here(self) -> str:
        """What figures rest on in this process."""

    @abstractmethod
    def answers(self, part: Part[T]) -> Sequence[dict[str, Any]]:
        """The answer or problem of each item."""

    def _told(self, part: Part[T], answers: Sequence[dict[str, Any]]) -> Answered:
        body = packed(b"".join(map(json_line, answers)), self.compression)
        return Answered(body, len(answers), sum(map(is_problem, answers)), part.mark, part.reached)

    def apart(self, part: Part[T]) -> list[Part[T]]:
        return part.apart()

    def joined(self, results: Sequence[Answered]) -> Answered:
        last = results[-1]
        body = b"".join(each.body for each in results)
        items, problems = sum(each.items for each in results), sum(each.problems for each in results)
        return Answered(body, items, problems, last.mark, last.reached)

    def lost(self, part: Part[T]) -> Answered:
        return self._told(part, [problem(500, LOST, line=part.first)])
