"""Runs over many recipes, from a file or from the store: their parts, and what answers them anywhere."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import IO, TYPE_CHECKING, Any

from ..batch.answers import Answered, AnswerParts, answer_line
from ..batch.compression import Compression
from ..batch.parts import Mark, Part, of_items, of_lines
from ..batch.running import Plan
from ..calculator import answer_recipe
from ..core.errors import SaltledgerError
from ..gate.problem_details import problem_of
from . import own_process

if TYPE_CHECKING:
    from ..store.database import Database

KEYS_AT_ONCE = 500


@dataclass(frozen=True)
class AnswerLines(AnswerParts[bytes | None]):
    """Answers lines, each a recipe or a recipe with its key."""

    def rests_on_here(self) -> str:
        return own_process.rests_on()

    def answers(self, part: Part[bytes | None]) -> Sequence[dict[str, Any]]:
        known = own_process.foods()
        with own_process.kept_recipes():
            return [
                answer_line(line, number, lambda recipe: answer_recipe(recipe, known))
                for number, line in enumerate(part.items, part.first)
            ]


@dataclass(frozen=True)
class AnswerSaved(AnswerParts[str]):
    """Answers saved recipes by their keys, as they would be worked out today; nothing is kept."""

    def rests_on_here(self) -> str:
        return own_process.rests_on_store()

    def answers(self, part: Part[str]) -> Sequence[dict[str, Any]]:
        return [self._answer(key, number) for number, key in enumerate(part.items, part.first)]

    def _answer(self, key: str, number: int) -> dict[str, Any]:
        try:
            with own_process.own_figures_of(key):
                return {"key": key, **own_process.workbench().worked_out_today(key)}
        except SaltledgerError as refused:
            return {**problem_of(refused), "line": number, "key": key}


def of_file(
    source: IO[bytes], compression: Compression, *, total: int | None = None, position: Any = None
) -> Plan[bytes | None, Answered]:
    """The run over the lines of a file. total: its size; position: gives how much of it has been read."""
    rests_on, most_bytes = own_process.rests_on(), own_process.settings().body_bytes

    def parts(after: Mark | None) -> Iterator[Part[bytes | None]]:
        return of_lines(source, most_bytes, after, position)

    about = {"input": "lines", "compression": compression, "release, foods or tables": rests_on}
    return Plan(parts, AnswerLines(compression, rests_on), _as_it_is, about, total)


def of_store(compression: Compression) -> Plan[str, Answered]:
    """The run over the active recipes of the store. Raises StoreUnavailable."""
    from ..store import listing

    rests_on, database = own_process.rests_on_store(), own_process.database()

    def parts(after: Mark | None) -> Iterator[Part[str]]:
        done, last = (int(after["count"]), str(after["key"])) if after else (0, "")
        found = keys(database, last)
        return of_items(found, lambda key, count: {"count": count, "key": key}, done + 1)

    with database.read() as connection:
        total = listing.count(connection)
    about = {"input": "store", "compression": compression, "release, foods, tables or store": rests_on}
    return Plan(parts, AnswerSaved(compression, rests_on), _as_it_is, about, total)


def keys(database: Database, after: str, **which: bool) -> Iterator[str]:
    """The keys of saved recipes that follow `after`, in order, read as they are taken. which: as
    `listing.keys_after` has it."""
    from ..store import listing

    while True:
        with database.read() as connection:
            found = listing.keys_after(connection, after, KEYS_AT_ONCE, **which)
        yield from found
        if len(found) < KEYS_AT_ONCE:
            return
        after = found[-1]


def _as_it_is(answered: Answered) -> Answered:
    return answered
