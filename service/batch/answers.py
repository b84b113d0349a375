"""Many recipes answered: line by line, or by parts whose answers are lines that are ready to be written.

A line that cannot be answered gives its problem and ends nothing.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from ..calculator import answer_recipe
from ..core.checkpoint import CallerGone
from ..core.documents import json_line
from ..core.errors import SaltledgerError
from ..gate.keyed_lines import key_in, recipe_in
from ..gate.problem_details import problem, problem_of
from ..gate.reading import parse_json
from .compression import Compression, packed
from .parts import Mark, Part

T = TypeVar("T")

LOST = (
    "The process that worked this recipe out came to its end each time, as where memory runs out. Look at "
    "what is unusual about the recipe, and send it by itself."
)

TOO_LONG = "The line is too long; a line may be as long as the body of one request."

Answer = Callable[[dict[str, Any]], dict[str, Any]]
"""From a schema-checked recipe to its answer."""


def answer_each(lines: Iterable[bytes | None], answer: Answer = answer_recipe) -> Iterator[dict[str, Any]]:
    """The answer to each line, or its problem (which alone has `line`), in order. None: a line too long.

    Raises CallerGone, since nobody reads on then.
    """
    for number, line in enumerate(lines, 1):
        yield answer_line(line, number, answer)


def answer_line(line: bytes | None, number: int, answer: Answer = answer_recipe) -> dict[str, Any]:
    """The answer to the recipe in `line`, or the problem with it; either with the line's `key`, if it has
    one. None: a line too long. Raises CallerGone."""
    if line is None:
        return problem(413, TOO_LONG, line=number)
    named: dict[str, str] = {}
    try:
        document = parse_json(line)
        if (key := key_in(document)) is not None:
            named = {"key": key}
        return {**named, **answer(recipe_in(document))}
    except CallerGone:
        raise
    except Exception as error:  # one bad line must not end the stream; problem_of logs what is ours
        return {**problem_of(error), "line": number, **named}


def is_problem(answered: dict[str, Any]) -> bool:
    """Whether a line was answered by its problem."""
    return "line" in answered


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
