"""GET /v1/events: what happened to recipes, for a CMS that wants to learn of a sign-off."""

from __future__ import annotations

import time
from threading import BoundedSemaphore
from typing import TYPE_CHECKING, Any

from flask import Flask, Response, current_app

from ... import store as kept
from ...config import Settings
from ...store.records import Event
from .. import media_types
from ..api import Blueprint
from ..schemas.events import EventsAnswerSchema, EventsQuerySchema
from ..stores import store

if TYPE_CHECKING:
    from ...store.database import Database

LOOK_EVERY_SECONDS = 0.25

blueprint = Blueprint("events", __name__, description="What happened to saved recipes.")


@blueprint.route("/v1/events")
@blueprint.asks(EventsQuerySchema)
@blueprint.gives(EventsAnswerSchema, "What happened.")
@blueprint.fails(406, 503)
def list_events(query: dict[str, Any]) -> Response:
    """Follow what happens: saves, overrules, sign-offs

    Keep the highest `id` you have seen and ask with it as `after`; nothing is missed and nothing comes twice.
    With `wait` the answer comes as soon as something happens, or empty when the seconds are over. Where many
    callers wait already it comes at once; then ask again after a moment. `kind` and `key` choose among them.
    """
    found = _wait_for(store().database, query)
    with store().database.read() as connection:
        earliest, latest = kept.event_feed.ends(connection)
    told = {"events": [_document(each) for each in found], "earliest_id": earliest, "latest_id": latest}
    response = media_types.respond(told)
    response.headers["Cache-Control"] = "no-store"
    return response


def register(app: Flask) -> None:
    """Keep at least half of a worker's threads free of those who wait."""
    settings: Settings = app.extensions["saltledger"]
    app.extensions["saltledger-waiting"] = BoundedSemaphore(max(1, settings.threads // 2))


def _wait_for(database: Database, query: dict[str, Any]) -> list[Event]:
    found = _after(database, query)
    waiting: BoundedSemaphore = current_app.extensions["saltledger-waiting"]
    if found or not query["wait"] or not waiting.acquire(blocking=False):
        return found
    try:
        deadline = time.monotonic() + query["wait"]
        while not found and time.monotonic() < deadline:
            time.sleep(LOOK_EVERY_SECONDS)
            found = _after(database, query)
        return found
    finally:
        waiting.release()


def _after(database: Database, query: dict[str, Any]) -> list[Event]:
    with database.read() as connection:
        return kept.event_feed.after(
            connection,
            query["after"],
            query["limit"],
            kinds=query.get("kind", ()),
            key=query.get("key"),
        )


def _document(event: Event) -> dict[str, Any]:
    return {"id": event.id, "kind": event.kind, "created_at": event.created_at, **event.payload}
