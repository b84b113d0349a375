"""The log, one JSON object a line, and the ids that requests go by.

No recipe text, no secrets, no control characters stand in it. What an error was about may be a caller's text,
so of an exception only its kind and its place in the code are written, except at level debug.
"""

from __future__ import annotations

import json
import logging
import re
import sys
import traceback
from datetime import UTC, datetime
from typing import Any
from uuid import uuid4

NAME = "saltledger"
REQUESTS = logging.getLogger(f"{NAME}.requests")

REQUEST_ID_HEADER = "X-Request-ID"

_PLAIN = re.compile(r"[A-Za-z0-9][A-Za-z0-9._:-]{0,127}", re.ASCII)


class JsonLines(logging.Formatter):
    """A record as one line of JSON; the dictionary `extra={"fields": …}` gives its own fields."""

    def format(self, record: logging.LogRecord) -> str:
        document: dict[str, Any] = {
            "time": datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds"),
            "level": record.levelname.lower(),
            "message": record.getMessage(),
            **getattr(record, "fields", {}),
        }
        if record.exc_info and record.exc_info[1] is not None:
            document["error"] = self._error(record.exc_info[1])
        # DEL is the one control character that JSON in ASCII leaves as it is.
        return json.dumps(document, separators=(",", ":"), default=str).replace("\x7f", "\\u007f")

    def _error(self, error: BaseException) -> dict[str, Any]:
        frames = traceback.extract_tb(error.__traceback__)
        told = {"kind": type(error).__name__, "at": [f"{at.filename}:{at.lineno} {at.name}" for at in frames]}
        if logging.getLogger(NAME).isEnabledFor(logging.DEBUG):
            told["text"] = str(error)
        return told


def configure(level: str) -> None:
    """Write requests to standard output and all else to standard error, from `level` on."""
    for name, stream in ((NAME, sys.stderr), (REQUESTS.name, sys.stdout)):
        logger = logging.getLogger(name)
        logger.handlers = [logging.StreamHandler(stream)]
        logger.handlers[0].setFormatter(JsonLines())
        logger.propagate = False
    logging.getLogger(NAME).setLevel(level.upper())


def request_line(
    *,
    request_id: str,
    method: str | None,
    route: str | None,
    status: int,
    seconds: float,
    key: str | None,
    sent: int,
    reason: str | None = None,
) -> None:
    """Log one request. route: its rule, since a path may tell of recipes; sent: bytes of the answer."""
    fields = {
        "request_id": request_id,
        "method": method,
        "route": route,
        "status": status,
        "duration_ms": round(seconds * 1000, 2),
        "key": key,
        "bytes": sent,
        **({"reason": reason} if reason else {}),
    }
    level = logging.ERROR if status == 500 else logging.WARNING if status > 500 else logging.INFO
    REQUESTS.log(level, "request", extra={"fields": fields})


def new_request_id() -> str:
    """An id that no other request has; a URI reference, as `instance` of a problem asks for."""
    return f"urn:uuid:{uuid4()}"


def taken_request_id(given: str | None) -> str:
    """The id that was given, or a new one where none was or it has other characters than ids have."""
    return given if given and _PLAIN.fullmatch(given) else new_request_id()
