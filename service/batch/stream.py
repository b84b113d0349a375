"""Many recipes as a stream: a line that cannot be answered gives its problem and does not end it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import Any

from ..calculator import answer_recipe
from ..core.checkpoint import CallerGone
from ..gate.keyed_lines import key_in, recipe_in
from ..gate.problem_details import problem, problem_of
from ..gate.reading import parse_json

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
