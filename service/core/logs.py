"""The log: one JSON object a line. No recipe text, no secrets, no control characters.

What an error was about may be a caller's text, so of an exception only its kind and its place in the code are
written, except at level debug.
"""

from __future__ import annotations

import json
import logging
import sys
import traceback
from datetime import UTC, datetime
from typing import Any

NAME = "saltledger"
REQUESTS = logging.getLogger(f"{NAME}.requests")


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
