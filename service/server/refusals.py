"""What the server itself refuses before the app sees it, in the app's own form: problem details."""

from __future__ import annotations

import json
from http import HTTPStatus
from typing import Any

from gunicorn.http import errors

from ..core.logs import REQUEST_ID_HEADER, request_line
from ..gate.problem_details import problem
from ..http.headers import ALWAYS
from ..http.problems import MEDIA_TYPE

STATUSES: tuple[tuple[type[Exception], int], ...] = (
    (errors.LimitRequestLine, 414),
    (errors.LimitRequestHeaders, 431),
    (errors.ExpectationFailed, 417),
    (errors.UnsupportedTransferCoding, 501),
    (errors.InvalidHTTPVersion, 505),
    (errors.ForbiddenProxyRequest, 403),
    (errors.ConfigurationProblem, 500),
    (errors.InvalidResponseHeader, 500),
    (errors.InvalidResponseHeaderName, 500),
    (errors.ParseException, 400),
)

DETAILS = {
    400: "The request is not HTTP as it can be read here: its first line or a header is malformed.",
    403: "The request was not taken from where it came.",
    408: "The request did not come in time; send it again, faster.",
    414: "The address is too long; shorten the query.",
    417: "Of Expect only 100-continue is known; leave it out.",
    431: "The headers are too long or too many; send fewer cookies and shorter headers.",
    500: "Something went wrong here.",
    501: "The body's Transfer-Encoding is not known here; send it chunked or with a Content-Length.",
    503: "The service is busy just now; send the request again in a moment.",
    505: "This version of HTTP is not spoken here; use HTTP/1.1.",
}


def log_refusal(client: Any, request: Any, status: int, reason: str, request_id: str) -> None:
    """Log a request that the app did not see; where it came from is said, since nothing else is known."""
    request_line(
        request_id=request_id,
        method=getattr(request, "method", None),
        route=None,
        status=status,
        seconds=0.0,
        key=None,
        sent=0,
        reason=f"{reason[:200]} (from {client[0] if isinstance(client, tuple) else 'a socket'})",
    )


def status_of(fault: Exception) -> int:
    """The status that a fault of the server comes to."""
    return next((status for kind, status in STATUSES if isinstance(fault, kind)), 500)


def response(status: int, request_id: str) -> bytes:
    """The whole response to a request that is refused; the connection ends with it."""
    more = {"instance": request_id} if status == 500 else {}
    document = problem(status, DETAILS[status], (), **more)
    body = json.dumps(document, separators=(",", ":")).encode() + b"\n"
    headers = {
        "Content-Type": MEDIA_TYPE,
        "Content-Length": str(len(body)),
        "Connection": "close",
        "Cache-Control": "no-store",
        REQUEST_ID_HEADER: request_id,
        **({"Retry-After": "2"} if status == 503 else {}),
        **ALWAYS,
    }
    head = "".join(f"{name}: {value}\r\n" for name, value in headers.items())
    return f"HTTP/1.1 {status} {HTTPStatus(status).phrase}\r\n{head}\r\n".encode("latin-1") + body
