"""Problem details (RFC 9457): the one shape of every error, over HTTP or in a line of a batch."""

from __future__ import annotations

import logging
from collections.abc import Iterable
from http import HTTPStatus
from typing import Any

from ..core.checkpoint import WorkStopped
from ..core.errors import Fault, InvalidRequest, NotFound, StoreUnavailable
from ..core.logs import new_request_id
from .reading import MOST_FAULTS, MalformedJson

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
        "title": phrase(status),
        "status": status,
        "detail": detail,
        **({"errors": errors} if errors else {}),
        **more,
    }


def problem_of(error: Exception, instance: str | None = None) -> dict[str, Any]:
    """The problem that an error comes to; what was not foreseen is logged, and not told.

    instance: the id under which it is logged, a new one where None.
    """
    match error:
        case MalformedJson():
            return problem(400, "The body is not a JSON document that can be read.", error.faults)
        case InvalidRequest():
            in_query = "The query string cannot be used as it stands."
            detail = in_query if isinstance(error, InvalidQuery) else _count(len(error.faults))
            return problem(422, detail, error.faults)
        case NotFound() | WorkStopped():
            return problem(404 if isinstance(error, NotFound) else 503, str(error))
        case StoreUnavailable():
            # Where the store is, and why it fails, is for those who run it.
            log.warning("the store is not available: %s", error.reason)
            return problem(503, STORE_AWAY)
    return _unforeseen(error, instance or new_request_id())


def _unforeseen(error: Exception, instance: str) -> dict[str, Any]:
    log.error("unforeseen error %s", instance, exc_info=error)
    return problem(
        500, "Something went wrong here. It is logged under the id in instance.", instance=instance
    )


def _count(faults: int) -> str:
    return "The request has a fault." if faults == 1 else f"The request has {faults} faults."


def phrase(status: int) -> str:
    """The words of a status, the same under every Python."""
    # 413 and 422 were renamed between Python releases; the answers must not be.
    renamed = {413: "Content Too Large", 422: "Unprocessable Content"}
    return renamed.get(status) or HTTPStatus(status).phrase
