"""POST /v1/recipes: many saves in one request, one a line, each answered by a line once it is on disk."""

from __future__ import annotations

import json
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache, partial
from typing import TYPE_CHECKING, Any

from flask import Response, current_app

from ... import store as stored
from ...batch.answers import TOO_LONG
from ...batch.executors import Ahead
from ...calculator import costs_of
from ...config import Settings
from ...core.checkpoint import watched
from ...core.documents import json_line
from ...gate.keyed_lines import check_key
from ...gate.problem_details import problem
from ...gate.reading import load, parse_json
from ...jobs.line_saves import Alone, LineSaves, Plain, Told, below, looked_up, made_ready
from .. import auth, known_foods
from ..examples import SHORT
from ..kitchens import kitchen
from ..line_streams import MEDIA_TYPE, answered, pool
from ..pool_work import PrepareSaves
from ..problems import problem_of
from ..read_ahead import WAITING, Line, Waiting
from ..schemas.saves import BulkLineSchema
from ..stores import store, workbench
from ..watch import allow, watch_of_request
from .saves import blueprint

if TYPE_CHECKING:
    from ...review.overrides import Overrule
    from ...store.bulk import Prepared

MOST_TOGETHER = 64
"""So many lines are answered together, and written in one transaction: nobody else writes meanwhile."""
PREPARED_TOGETHER = 16
"""So many versions are made ready by one process at a time."""
AHEAD = 2
"""Groups that are made ready while one is written."""
FEW = 8
"""Lines for which no other process is troubled, where they come by themselves."""

__all__ = ["blueprint"]

_line = BulkLineSchema()

_Asked = tuple[int, Told | Alone]
"""A line's number, and what it asks for, or is told already."""

EXAMPLE = {"key": "quay-potato-soup", "recipe": SHORT}


@blueprint.route("/v1/recipes", methods=["POST"])
@blueprint.said(
    requestBody={
        "required": True,
        "description": "One save a line: a key, and a recipe as in PUT /v1/recipes/{key}, in either form.",
        "content": {MEDIA_TYPE: {"schema": {"type": "string"}, "example": json.dumps(EXAMPLE) + "\n"}},
    }
)
@blueprint.gives({"type": "string"}, "What came of each line, in order.", MEDIA_TYPE)
@blueprint.fails(406, 408, 413, 415, 507)
def save_recipes() -> Response:
    """Save many recipes, one a line

    Newline-delimited JSON in and out, streamed. A line is an object with `key`, `recipe` and, where it is to
    change a version that you know, its `etag`. Line n of the answer belongs to line n of the request:
    `{"line", "key", "saved": "new", "changed" or "unchanged", "version", "save_id", ...}` once the save is on
    disk, or its problem; the rest go on. Where the connection breaks, send the rest, or all of it again: what
    was saved is answered as unchanged. A recipe that others are made of stands before them. Lines are taken
    as they come: who sends some and waits is answered without ending the body. Where the body breaks off,
    what came whole is saved, and its problem is the last line.
    """
    return answered(lambda lines: map(json_line, _Saving().answers(lines)), "one save")


class _Saving:
    """The saves of one request, in groups: the versions of a group are made ready, in other processes where
    there are some, while the groups before it are written."""

    def __init__(self) -> None:
        settings: Settings = current_app.extensions["saltledger"]
        self._settings, self._by, self._pool = settings, auth.actor(), pool()
        self._strict = settings.if_match == "required"
        self._saves = LineSaves(
            workbench(), self._by, kitchen(), problem_of, self._strict, lambda: watched(watch_of_request())
        )
        self._asked: list[_Asked] = []
        self._groups: deque[list[_Line]] = deque()

    def answers(self, lines: Iterator[Line]) -> Iterator[dict[str, Any]]:
        """What came of each line, in order. Raises CallerGone, and what reading raised once all lines that
        came whole before it are answered."""
        ahead, number = Ahead(lines), 0
        while came := ahead.take(1):
            (line,) = came
            if not isinstance(line, Waiting):
                number += 1
                self._asked.append((number, self._read(line, number)))
            if line is WAITING or len(self._asked) >= MOST_TOGETHER:
                yield from self._begin(is_last=line is WAITING)
        yield from self._begin(is_last=True)
        ahead.end()

    def _read(self, line: bytes | None, number: int) -> Told | Alone:
        """What a line asks for, or what is wrong with it."""
        if line is None:
            return Told(problem(413, TOO_LONG, line=number))
        with self._saves.telling(number) as told:
            asked = load(_line, parse_json(line))
            check_key(asked["key"], "/key")
            return Alone(asked["key"], asked["recipe"], asked.get("etag"))
        return Told(told)

    def _begin(self, *, is_last: bool) -> Iterator[dict[str, Any]]:
        """Take up a group; answer those whose turn has come. is_last: no line has come after it as yet."""
        asked, self._asked = self._asked, []
        keys = [each.key for _, each in asked if isinstance(each, Alone)]
        if not self._in_hand.isdisjoint(keys):
            yield from self._settled(0)
        if keys:
            by_itself = is_last and not self._groups and len(keys) <= FEW
            self._groups.append(self._taken_up(asked, apart=not by_itself))
        elif asked:
            self._groups.append([_told(number, told) for number, told in asked if isinstance(told, Told)])
        yield from self._settled(0 if is_last else AHEAD)

    @property
    def _in_hand(self) -> set[str]:
        return {line.key for group in self._groups for line in group if line.key}

    def _settled(self, most: int) -> Iterator[dict[str, Any]]:
        """The answers of the oldest groups, until no more than so many are left."""
        while len(self._groups) > most:
            yield from self._saves.settle([(line.number, line.entry()) for line in self._groups.popleft()])

    def _taken_up(self, asked: Sequence[_Asked], *, apart: bool) -> list[_Line]:
        """What is to be done about each line of a group; apart: first versions are made ready elsewhere."""
        saves = [(number, each) for number, each in asked if isinstance(each, Alone)]
        with store().database.read() as connection:
            found = looked_up(connection, saves, strict=self._strict)
            reaching = stored.override_records.reaching(connection)
        lines = {number: _told(number, each) for number, each in asked if isinstance(each, Told)}
        ready: list[tuple[int, Plain]] = []
        for (number, save), each in zip(saves, found, strict=True):
            match each:
                case Told():
                    lines[number] = _told(number, each)
                case Alone():
                    lines[number] = _Line(number, partial(self._allowed, number, each), save.key)
                case Plain():
                    ready.append((number, each))
        for start in range(0, len(ready), PREPARED_TOGETHER):
            part = ready[start : start + PREPARED_TOGETHER]
            made = self._made_ready(tuple(save for _, save in part), reaching, apart=apart)
            for at, (number, plain) in enumerate(part):
                lines[number] = _Line(number, partial(_made, made, at, number, plain.key), plain.key)
        return [lines[number] for number, _ in asked]

    def _allowed(self, number: int, alone: Alone) -> Told | Alone:
        """A save that goes by itself, unless it costs more than one may."""
        with self._saves.telling(number, alone.key) as told:
            allow(cost.times(1, "/recipe") for cost in costs_of(alone.recipe))
            return alone
        return Told(told)

    def _made_ready(
        self, saves: tuple[Plain, ...], reaching: list[Overrule], *, apart: bool
    ) -> Callable[[], list[Any]]:
        """What gives versions made ready, or the problems with them."""
        if apart and self._pool is not None:
            work, pool = PrepareSaves(self._settings, self._by, reaching), self._pool
            future = pool.submit(work, saves)
            return cache(lambda: pool.result(work, saves, future))
        return cache(lambda: self._made_here(saves, reaching))

    def _made_here(self, saves: tuple[Plain, ...], reaching: list[Overrule]) -> list[Any]:
        ready = made_ready(saves, self._by, reaching, known_foods.foods(), self._saves.bench.unmapped)
        found: list[Any] = []
        for save, make in zip(saves, ready, strict=True):
            with self._saves.telling(0) as told, below("/recipe"):
                allow(cost.times(1, "/recipe") for cost in costs_of(save.recipe))
                with watched(watch_of_request()):
                    found.append(make())
                continue
            found.append(told)
        return found


@dataclass(frozen=True, slots=True)
class _Line:
    """A line of a group. entry: gives what is to be done about it, when its turn has come."""

    number: int
    entry: Callable[[], Told | Alone | Prepared]
    key: str = ""


def _told(number: int, told: Told) -> _Line:
    return _Line(number, lambda: told)


def _made(made: Callable[[], list[Any]], at: int, number: int, key: str) -> Told | Prepared:
    """One of several versions that were made ready together, or the problem with it."""
    found: Prepared | dict[str, Any] = made()[at]
    if isinstance(found, dict):
        return Told({**found, "line": number, "key": key})
    return found
