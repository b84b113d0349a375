"""POST /v1/recipes: many saves in one request, one a line, each answered by a line once it is on disk."""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

from flask import Response, current_app

from ... import store as stored
from ...calculator import costs_of, with_answers
from ...config import Settings
from ...core.checkpoint import CallerGone, watched
from ...core.errors import Fault, InvalidRequest, SaltledgerError
from ...gate.problem_details import problem
from ...gate.reading import load, parse_json
from ...recipe.sub_recipes import named_in
from ...review.fingerprints import fingerprint
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
    from ...store.bulk import Drafted, Kept

MOST_TOGETHER = 64
"""So many lines are answered together, and written in one transaction: nobody else writes meanwhile."""

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
    """The saves of one request: those of new keys written together, all others one by one."""

    def __init__(self) -> None:
        self._by, self._kitchen, self._bench = auth.actor(), kitchen(), workbench()
        settings: Settings = current_app.extensions["saltledger"]
        self._strict = settings.if_match == "required"
        self._asked: list[tuple[int, dict[str, Any]]] = []
        self._pending: list[tuple[int, Drafted]] = []
        self._told: list[dict[str, Any]] = []

    def answers(self, lines: Iterator[Line]) -> Iterator[dict[str, Any]]:
        """What came of each line, in order. Raises CallerGone."""
        number = 0
        for line in lines:
            if not isinstance(line, Waiting):
                number += 1
                self._take(line, number)
            if line is WAITING or len(self._told) + len(self._asked) >= MOST_TOGETHER:
                yield from self._settled()
        yield from self._settled()

    def _take(self, line: bytes | None, number: int) -> None:
        """Read a line, or tell what is wrong with it."""
        if line is None:
            self._told.append(problem(413, TOO_LONG, line=number))
            return
        with self._telling(number):
            asked = load(_line, parse_json(line))
            check_key(asked["key"], "/key")
            self._asked.append((number, asked))

    def _settled(self) -> list[dict[str, Any]]:
        """What came of all lines so far, each saved or refused."""
        asked, self._asked = self._asked, []
        if asked:
            keys = [each["key"] for _, each in asked]
            with store().database.read() as connection:
                known = stored.bulk.known(connection, keys)
            for at, (number, each) in enumerate(asked):
                with self._telling(number, each["key"]):
                    self._save(number, each, known.get(each["key"]), is_again=each["key"] in keys[:at])
            self._write()
        told, self._told = sorted(self._told, key=lambda each: each["line"]), []
        return told

    def _save(self, number: int, asked: dict[str, Any], kept: Kept | None, *, is_again: bool) -> None:
        """Save what a line asks for. is_again: another line since `kept` was looked up had the same key."""
        key, recipe = asked["key"], asked["recipe"]
        if kept is not None and not is_again and _is_unchanged(recipe, kept):
            self._told.append(_answer(number, kept, "unchanged"))
            return
        allow(cost.times(1, "/recipe") for cost in costs_of(recipe))
        with watched(watch_of_request()), _below("/recipe"):
            if kept is not None or is_again or "etag" in asked or any(named_in(recipe)):
                self._save_alone(number, key, recipe, asked.get("etag"))
                return
            drafted = stored.bulk.Drafted(key, self._bench.draft(key, recipe, self._by))
            self._pending.append((number, drafted))

    def _save_alone(self, number: int, key: str, recipe: dict[str, Any], etag: str | None = None) -> None:
        self._write()
        with store().database.read() as connection:
            current = stored.recipes.current(connection, key)
        recipe = with_answers(recipe, current.request if current else {})
        condition = Condition(match=frozenset({etag}) if etag else None, required=self._strict)
        saved = self._bench.save(key, recipe, self._by, condition, self._kitchen)
        what = "new" if saved.is_new else "changed" if saved.changed else "unchanged"
        self._told.append(_answer(number, stored.bulk.kept_of(saved.version), what))

    def _write(self) -> None:
        """Write what is pending, all of it at once."""
        pending, self._pending = self._pending, []
        if not pending:
            return
        try:
            made = stored.bulk.write(self._bench, [each for _, each in pending], self._by, self._kitchen)
        except SaltledgerError as error:
            self._told += [{**problem_of(error), "line": n, "key": each.key} for n, each in pending]
            return
        for (number, each), saved in zip(pending, made, strict=True):
            if saved is not None:
                self._told.append(_answer(number, stored.bulk.kept_of(saved.version), "new"))
                continue
            with self._telling(number, each.key):
                self._save_alone(number, each.key, each.draft.request)

    @contextmanager
    def _telling(self, number: int, key: str | None = None) -> Iterator[None]:
        """Tell what goes wrong with a line as its answer, so that it does not end the stream."""
        try:
            yield
        except CallerGone:
            raise
        except Exception as error:  # problem_of logs what was not foreseen
            named = {} if key is None else {"key": key}
            self._told.append({**problem_of(error), "line": number, **named})


def _is_unchanged(recipe: dict[str, Any], kept: Kept) -> bool:
    """Whether a recipe stands already as it is sent. One in prose may have answers that are kept."""
    if kept.state == "deleted" or kept.stale or "written" in recipe:
        return False
    return kept.content_hash == fingerprint(recipe)


@contextmanager
def _below(pointer: str) -> Iterator[None]:
    """Let faults of a part of a line point into the line."""
    try:
        yield
    except InvalidRequest as refused:
        faults = [Fault(pointer + each.pointer, each.message) for each in refused.faults]
        raise InvalidRequest(faults) from refused


def _answer(number: int, kept: Kept, saved: str) -> dict[str, Any]:
    return {
        "line": number,
        "key": kept.key,
        "saved": saved,
        "version": kept.number,
        "save_id": kept.save_id,
        "calculation_id": kept.calculation_id,
        "sodium_per_serving_mg": {"low": kept.low_mg, "likely": kept.sodium_mg, "high": kept.high_mg},
        "complete": kept.complete,
        "stops": kept.stops,
        "checks": kept.checks,
        "review": review_path(kept.save_id),
    }
