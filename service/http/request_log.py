"""One line in the log for each request, when its answer has been given; and the id that request goes by."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import partial
from time import perf_counter

from flask import Flask, Response, g, has_request_context, request

from ..core.logs import REQUEST_ID_HEADER, new_request_id, request_line, taken_request_id


def request_id() -> str:
    """The id of the request that is being answered; a new one where there is none."""
    if not has_request_context():
        return new_request_id()
    if "request_id" not in g:
        g.request_id = taken_request_id(request.headers.get(REQUEST_ID_HEADER))
    found: str = g.request_id
    return found


def register(app: Flask) -> None:
    """Log the app's requests. To be registered before what else looks at responses."""

    @app.before_request
    def start() -> None:
        g.log_began = perf_counter()

    @app.after_request
    def note(response: Response) -> Response:
        response.headers[REQUEST_ID_HEADER] = request_id()
        sent = _Count()
        response.response = sent.counted(response.response)
        response.call_on_close(partial(_log, response.status_code, sent, _subject()))
        return response


class _Count:
    """How many bytes went through."""

    def __init__(self) -> None:
        self.bytes = 0

    def counted(self, parts: Iterable[bytes] | Iterable[str]) -> list[bytes] | Iterator[bytes]:
        if isinstance(parts, list):  # as it is, so that its length stays known
            self.bytes = sum(len(part) for part in parts)
            return parts
        return self._each(parts)

    def _each(self, parts: Iterable[bytes] | Iterable[str]) -> Iterator[bytes]:
        try:
            for part in parts:
                self.bytes += len(part)
                yield part  # type: ignore[misc]
        finally:
            close = getattr(parts, "close", None)
            if close is not None:
                close()


def _subject() -> dict[str, object]:
    key = g.get("api_key")
    return {
        "request_id": request_id(),
        "method": request.method,
        "route": request.url_rule.rule if request.url_rule else None,
        "key": key.label if key else None,
        "began": g.get("log_began", perf_counter()),
    }


def _log(status: int, sent: _Count, subject: dict[str, object]) -> None:
    began = subject.pop("began", perf_counter())
    request_line(status=status, sent=sent.bytes, seconds=perf_counter() - began, **subject)  # type: ignore
