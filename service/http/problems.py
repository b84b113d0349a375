"""Errors over HTTP: the response that carries a problem document, and the problems of HTTP itself."""

from __future__ import annotations

from typing import Any

from flask import Flask, Response, request
from werkzeug.exceptions import HTTPException, MethodNotAllowed, RequestEntityTooLarge

from ..core.checkpoint import WorkStopped
from ..core.documents import json_line
from ..core.errors import Fault
from ..gate import problem_details
from ..gate.problem_details import phrase, problem
from ..store.expectations import PreconditionFailed, PreconditionRequired
from .request_log import request_id

MEDIA_TYPE = "application/problem+json"

DETAILS = {
    404: "There is nothing at this address; see /docs for what there is.",
    405: "This method is not known here.",
    406: "None of the media types in Accept can be given here; leave Accept out to get JSON.",
    414: "The address is too long; shorten the query.",
    429: "Too many requests; wait a little and send again.",
}


def problem_of(error: Exception) -> dict[str, Any]:
    """The problem that any error comes to, those of HTTP among them."""
    match error:
        case HTTPException():
            return _of_http(error)
        case PreconditionFailed() | PreconditionRequired():
            return problem(412 if isinstance(error, PreconditionFailed) else 428, str(error))
    return problem_details.problem_of(error, request_id())


def respond(document: dict[str, Any]) -> Response:
    """The response that carries a problem document."""
    return Response(json_line(document), document["status"], mimetype=MEDIA_TYPE)


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
    detail = own_words or DETAILS.get(status) or error.description or phrase(status)
    if isinstance(error, MethodNotAllowed):
        allowed = ", ".join(sorted(error.valid_methods or ()))
        detail = f"{request.method} is not known here; known: {allowed}."
    if isinstance(error, RequestEntityTooLarge):
        detail = f"The body has more than {request.max_content_length:,} bytes; split the request."
        return problem(status, detail, [Fault("", detail)])
    return problem(status, detail)
