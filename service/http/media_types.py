"""Answers on the wire: bytes that depend on the request alone, in the media type the caller asks for."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from typing import Any, TypeVar

from flask import Flask, Response, request
from flask.json.provider import DefaultJSONProvider
from werkzeug.exceptions import NotAcceptable

from ..core.documents import json_bytes, json_line

T = TypeVar("T")
Renderers = Mapping[str, Callable[[T], str | bytes]]
"""By media type, what turns an answer (or that which it is made of) into text, or its bytes in UTF-8."""


class SteadyJson(DefaultJSONProvider):
    """JSON as `core.json_bytes` writes it."""

    def dumps(self, obj: Any, **kwargs: Any) -> str:
        return json_bytes(obj).decode()


def as_json(document: dict[str, Any]) -> bytes:
    return json_line(document)


JSON: Renderers[dict[str, Any]] = {"application/json": as_json}


def negotiate(media_types: Collection[str]) -> str:
    """The media type to answer in: what Accept likes best, the first on a tie or where it says nothing.

    Raises NotAcceptable (406).
    """
    if not request.accept_mimetypes:
        return next(iter(media_types))
    best = request.accept_mimetypes.best_match(list(media_types))
    if best is None:
        raise NotAcceptable
    return best


def respond(document: dict[str, Any]) -> Response:
    """The response that carries `document` as JSON."""
    return respond_as(document, JSON)


def respond_as(subject: T, renderers: Renderers[T]) -> Response:
    """The response that carries `subject` in the media type that was asked for."""
    media_type = negotiate(renderers)
    response = Response(renderers[media_type](subject), mimetype=media_type)
    if len(renderers) > 1:
        response.vary.add("Accept")
    return response


def respond_kept(document: dict[str, Any]) -> Response:
    """As `respond`, for an answer a caller may keep: with an entity tag, 304 where it still holds."""
    response = respond(document)
    response.cache_control.no_cache = True
    response.add_etag()
    response.make_conditional(request)
    return response


def register(app: Flask) -> None:
    """Make the app write JSON so."""
    app.json = SteadyJson(app)
