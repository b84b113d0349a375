"""Problem details (RFC 9457): the one shape of every error this service gives."""

from __future__ import annotations

import logging
from collections.abc import Iterable
from http import HTTPStatus
from typing import Any

from flask import Flask, Response, current_app, request
from werkzeug.exceptions import HTTPException, MethodNotAllowed, RequestEntityTooLarge

from ..core.checkpoint import WorkStopped
from ..core.errors import Fault, InvalidRequest, NotFound, StoreUnavailable
from ..gate.reading import MOST_FAULTS, MalformedJson
from .request_log import request_id

MEDIA_TYPE = "application/problem+json"

DETAILS = {
    404: "There is nothing at this address; see /docs for what there is.",
    405: "This method is not known here.",
    406: "None of the media types in Accept can be given here; leave Accept out to get JSON.",
    414: "The address is too long; shorten the query.",
    429: "Too many requests; wait a little and send again.",
}

STORE_AWAY = "The store is not available just now. Nothing was saved; send the request again in a moment."

log = logging.getLogger("saltledger")


class InvalidQuery(InvalidRequest):
    """A query string that cannot be used; the pointers name its parameters."""


def problem(status: int, detail: str, faults: Iterable[Fault] = (), **more: Any) -> dict[str, Any]:
    """A problem document. Its type is about:blank, so `title` is the phrase of the status (RFC 9457)."""
    errors = [{"pointer": fault.pointer, "message": fault.message} for fault in faults]
    if len(errors) > MOST_FAULTS + 1:
        rest = f"There are {len(errors) - MOST_FAULTS} more faults; mend these first."
        errors[MOST_FAULTS:] = [{"pointer": "", "message": rest}]
    return {
        "type": "about:blank",
        "title": _phrase(status),
        "status": status,
        "detail": detail,
        **({"errors": errors} if errors else {}),
        **more,
    }


def problem_of(error: Exception) -> dict[str, Any]:
    """The problem that any error comes to; what was not foreseen is logged, and not told."""
    match error:
        case MalformedJson():
            return problem(400, "The body is not a JSON document that can be read.", error.faults)
        case InvalidRequest():
            in_query = "The query string cannot be used as it stands."
            detail = in_query if isinstance(error, InvalidQuery) else _count(len(error.faults))
            return problem(422, detail, error.faults)
        case NotFound() | WorkStopped():
            return problem(404 if isinstance(error, NotFound) else 503, str(error))
        case HTTPException():
            return _of_http(error)
        case StoreUnavailable():
            return _of_store(error)
    return _unforeseen(error)


def _of_store(error: StoreUnavailable) -> dict[str, Any]:
    # Where the store is, and why it fails, is for those who run it.
    log.warning("the store is not available: %s", error.reason)
    return problem(503, STORE_AWAY)


def _unforeseen(error: Exception) -> dict[str, Any]:
    instance = request_id()
    log.error("unforeseen error %s", instance, exc_info=error)
    return problem(
        500, "Something went wrong here. It is logged under the id in instance.", instance=instance
    )


def respond(document: dict[str, Any]) -> Response:
    """The response that carries a problem document."""
    body = current_app.json.dumps(document) + "\n"
    return Response(body, document["status"], mimetype=MEDIA_TYPE)


def handle(error: Exception) -> Response:
    """The response to an error, with the headers that belong to its status."""
    response = respond(problem_of(error))
    if isinstance(error, WorkStopped):
        response.headers["Retry-After"] = "2"
    if isinstance(error, HTTPException):
        for name, value in error.get_headers(request.environ):
            if name.lower() not in ("content-type", "content-length"):
                response.headers[name] = value
    return response


def register(app: Flask) -> None:
    """Answer every error of the app with a problem (HTTP errors are the Api's to hand on)."""
    app.register_error_handler(Exception, handle)


def _of_http(error: HTTPException) -> dict[str, Any]:
    status = error.code or 500
    own_words = error.description if error.description != type(error).description else None
    detail = own_words or DETAILS.get(status) or error.description or _phrase(status)
    if isinstance(error, MethodNotAllowed):
        allowed = ", ".join(sorted(error.valid_methods or ()))
        detail = f"{request.method} is not known here; known: {allowed}."
    if isinstance(error, RequestEntityTooLarge):
        detail = f"The body has more than {request.max_content_length:,} bytes; split the request."
        return problem(status, detail, [Fault("", detail)])
    return problem(status, detail)


def _count(faults: int) -> str:
    return "The request has a fault." if faults == 1 else f"The request has {faults} faults."


def _phrase(status: int) -> str:
    # 413 and 422 were renamed between Python releases; the answers must not be.
    renamed = {413: "Content Too Large", 422: "Unprocessable Content"}
    return renamed.get(status) or HTTPStatus(status).phrase
