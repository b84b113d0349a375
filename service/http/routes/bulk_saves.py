"""POST /v1/recipes: many saves in one request, one a line, each answered by a line once it is on disk."""

from __future__ import annotations

import json
import time
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

from flask import Response, current_app

from ...calculator import costs_of, with_answers
from ...config import Settings
from ...core.checkpoint import CallerGone, watched
from ...core.errors import Fault, InvalidRequest, SaltledgerError
from ...gate.problem_details import problem
from ...gate.reading import load, parse_json
from ...recipe.sub_recipes import named_in
from ...store.expectations import Condition
from .. import auth
from ..examples import SHORT
from ..kitchens import kitchen
from ..line_streams import MEDIA_TYPE, TOO_LONG, answered
from ..problems import problem_of
from ..read_ahead import WAITING, Line, Waiting
from ..saved_documents import review_path
from ..schemas.saves import BulkLineSchema
from ..stores import store, workbench
from ..watch import allow, watch_of_request
from .saves import blueprint, check_key

if TYPE_CHECKING:
    from ...store.bulk import Drafted
    from ...store.records import Version

MOST_PENDING = 64
"""So many recipes are written in one transaction, which nobody else can write in meanwhile."""

PENDING_SECONDS = 0.5
"""So long a recipe waits at the most for others to be written with it."""

__all__ = ["blueprint"]

_line = BulkLineSchema()

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
    was saved is answered as unchanged. A recipe that others are made of stands before them.
    """
    return answered(lambda lines: _Saving().answers(lines), "one save")


class _Saving:
    """The saves of one request: those of new keys gathered and written together, all others one by one."""

    def __init__(self) -> None:
        self._by, self._kitchen, self._bench = auth.actor(), kitchen(), workbench()
        settings: Settings = current_app.extensions["saltledger"]
        self._strict = settings.if_match == "required"
        self._pending: list[tuple[int, Drafted]] = []
        self._told: list[dict[str, Any]] = []
        self._since = 0.0

    def answers(self, lines: Iterator[Line]) -> Iterator[dict[str, Any]]:
        """What came of each line, in order. Raises CallerGone."""
        number = 0
        for line in lines:
            if not isinstance(line, Waiting):
                number += 1
                self._take(line, number)
            if line is WAITING or self._is_due():
                yield from self._settled()
        yield from self._settled()

    def _is_due(self) -> bool:
        if len(self._told) + len(self._pending) >= MOST_PENDING:
            return True
        return bool(self._told or self._pending) and time.monotonic() - self._since > PENDING_SECONDS

    def _settled(self) -> list[dict[str, Any]]:
        """What came of all lines so far, once what is pending is written."""
        self._write()
        told, self._told = sorted(self._told, key=lambda each: each["line"]), []
        return told

    def _take(self, line: bytes | None, number: int) -> None:
        if not self._told and not self._pending:
            self._since = time.monotonic()
        key = None
        try:
            if line is None:
                self._told.append(problem(413, TOO_LONG, line=number))
                return
            asked = load(_line, parse_json(line))
            key = asked["key"]
            check_key(key, "/key")
            allow(cost.times(1, "/recipe") for cost in costs_of(asked["recipe"]))
            with watched(watch_of_request()), _below("/recipe"):
                self._save(asked, number)
        except CallerGone:
            raise
        except Exception as error:  # one bad line must not end the stream; problem_of logs what is ours
            named = {} if key is None else {"key": key}
            self._told.append({**problem_of(error), "line": number, **named})

    def _save(self, asked: dict[str, Any], number: int) -> None:
        from ...store import bulk  # noqa: PLC0415  # a service that only calculates needs no store

        key, recipe = asked["key"], asked["recipe"]
        with store().database.read() as connection:
            is_known = bool(bulk.known(connection, [key]))
        if is_known or "etag" in asked or any(key == each.key for _, each in self._pending):
            self._save_alone(key, recipe, number, asked.get("etag"))
            return
        if any(named_in(recipe)):
            self._write()
        self._pending.append((number, bulk.Drafted(key, self._bench.draft(key, recipe, self._by))))

    def _save_alone(self, key: str, recipe: dict[str, Any], number: int, etag: str | None = None) -> None:
        self._write()
        with store().database.read() as connection:
            from ...store import recipes  # noqa: PLC0415

            current = recipes.current(connection, key)
        recipe = with_answers(recipe, current.request if current else {})
        condition = Condition(match=frozenset({etag}) if etag else None, required=self._strict)
        saved = self._bench.save(key, recipe, self._by, condition, self._kitchen)
        what = "new" if saved.is_new else "changed" if saved.changed else "unchanged"
        self._told.append(_answer(number, saved.version, what))

    def _write(self) -> None:
        """Write what is pending, all of it at once."""
        from ...store import bulk  # noqa: PLC0415

        pending, self._pending = self._pending, []
        if not pending:
            return
        try:
            made = bulk.write(self._bench, [each for _, each in pending], self._by, self._kitchen)
        except SaltledgerError as error:
            self._told += [{**problem_of(error), "line": n, "key": each.key} for n, each in pending]
            return
        for (number, each), saved in zip(pending, made, strict=True):
            if saved is not None:
                self._told.append(_answer(number, saved.version, "new"))
            else:
                self._save_alone(each.key, each.draft.request, number)


@contextmanager
def _below(pointer: str) -> Iterator[None]:
    """Let faults of a part of a line point into the line."""
    try:
        yield
    except InvalidRequest as refused:
        raise InvalidRequest(
            Fault(pointer + each.pointer, each.message) for each in refused.faults
        ) from refused


def _answer(number: int, version: Version, saved: str) -> dict[str, Any]:
    sodium = version.answer["sodium"]
    severities = [each["severity"] for each in version.answer.get("notices", ())]
    return {
        "line": number,
        "key": version.key,
        "saved": saved,
        "version": version.number,
        "save_id": version.save_id,
        "calculation_id": version.answer["id"],
        "sodium_per_serving_mg": sodium["per_serving_mg"],
        "complete": sodium.get("complete"),
        "stops": severities.count("stop"),
        "checks": severities.count("check"),
        "review": review_path(version.save_id),
    }
