"""Runs that save the recipes of a file: made ready in any process, written by the one that began the run."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import IO, TYPE_CHECKING, Any

from ..batch.answers import LOST, TOO_LONG, Answered, OtherData
from ..batch.compression import Compression, packed
from ..batch.parts import Mark, Part, of_lines
from ..batch.running import Plan
from ..core.assumptions import local_rows
from ..core.documents import json_line
from ..core.errors import InvalidRequest
from ..gate.keyed_lines import KeyedLineSchema, check_key
from ..gate.problem_details import problem, problem_of
from ..gate.reading import load, parse_json
from ..review.chain import Actor
from . import own_process
from .line_saves import Alone, Entry, LineSaves, Plain, Told, below, looked_up, made_ready

if TYPE_CHECKING:
    from ..evidence.local import Local
    from ..review.overrides import Overrule

BY, KITCHEN = Actor("local"), "open"
"""Who saves, and whose recipes they are then: as of a caller without a key."""

_line = KeyedLineSchema()


Wanted = Told | Alone | Plain


@dataclass(frozen=True, slots=True)
class Ready:
    """The lines of a part, with what is still to be done about each."""

    entries: list[Entry]
    mark: Mark
    reached: int


@dataclass(frozen=True, slots=True)
class Prepare:
    """Makes the versions of parts ready, as `executors.Work`.

    reaching: overrules of other recipes that reach them; own: the kitchen's own figures.
    """

    rests_on: str
    reaching: list[Overrule]
    own: Local | None

    def __call__(self, part: Part[Wanted]) -> Ready:
        """Raises OtherData."""
        if own_process.rests_on() != self.rests_on:
            raise OtherData
        with local_rows(self.own):
            entries = [
                (number, self._entry(number, each)) for number, each in enumerate(part.items, part.first)
            ]
        return Ready(entries, part.mark, part.reached)

    def _entry(self, number: int, wanted: Wanted) -> Any:
        if not isinstance(wanted, Plain):
            return wanted
        try:
            with below("/recipe"):
                (make,) = made_ready([wanted], BY, self.reaching, own_process.foods())
                return make()
        except Exception as error:  # one bad line must not end the run; problem_of logs what is ours
            return Told({**problem_of(error), "line": number, "key": wanted.key})

    def apart(self, part: Part[Wanted]) -> list[Part[Wanted]]:
        return part.apart()

    def joined(self, results: Sequence[Ready]) -> Ready:
        last = results[-1]
        return Ready([entry for each in results for entry in each.entries], last.mark, last.reached)

    def lost(self, part: Part[Wanted]) -> Ready:
        told = Told(problem(500, LOST, line=part.first))
        return Ready([(part.first, told)], part.mark, part.reached)


def of_file(
    source: IO[bytes], compression: Compression, *, total: int | None = None, position: Any = None
) -> Plan[Any, Ready]:
    """The run that saves the lines of a file. total: its size; position: gives how much of it has been read.

    Raises StoreUnavailable.
    """
    from ..store import override_records

    rests_on, most_bytes = own_process.rests_on(), own_process.settings().body_bytes
    saves = LineSaves(own_process.workbench(), BY, KITCHEN, problem_of)
    with own_process.database().read() as connection:
        reaching = override_records.reaching(connection)

    def parts(after: Mark | None) -> Iterator[Part[Any]]:
        return map(_looked_up, of_lines(source, most_bytes, after, position))

    def finish(ready: Ready) -> Answered:
        answers = saves.settle(ready.entries)
        body = packed(b"".join(map(json_line, answers)), compression)
        problems = sum("saved" not in each for each in answers)
        return Answered(body, len(answers), problems, ready.mark, ready.reached)

    work = Prepare(rests_on, reaching, own_process.figures_of_kitchen(KITCHEN))
    about = {"input": "lines to be saved", "compression": compression, "release, foods or tables": rests_on}
    return Plan(parts, work, finish, about, total)


def _looked_up(part: Part[bytes | None]) -> Part[Wanted]:
    """What is to be done about each line, by what stands under its key.

    A part before this one may still be under way: where both save one key, the later finds that out when it
    is written.
    """
    read = [(number, _read(line, number)) for number, line in enumerate(part.items, part.first)]
    saves = [(number, each) for number, each in read if isinstance(each, Alone)]
    with own_process.database().read() as connection:
        found = iter(looked_up(connection, saves))
    items = tuple(next(found) if isinstance(each, Alone) else each for _, each in read)
    return Part(part.first, items, part.mark, part.reached)


def _read(line: bytes | None, number: int) -> Told | Alone:
    """What a line asks for, or what is wrong with it."""
    if line is None:
        return Told(problem(413, TOO_LONG, line=number))
    try:
        asked = load(_line, parse_json(line))
        check_key(asked["key"], "/key")
    except InvalidRequest as error:
        return Told({**problem_of(error), "line": number})
    return Alone(asked["key"], asked["recipe"])
