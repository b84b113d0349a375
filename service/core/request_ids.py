"""The id of a request: taken from its X-Request-ID where that is plain, otherwise made here."""

from __future__ import annotations

import re
from uuid import uuid4

HEADER = "X-Request-ID"

_PLAIN = re.compile(r"[A-Za-z0-9][A-Za-z0-9._:-]{0,127}", re.ASCII)


def new_id() -> str:
    """An id that no other request has; a URI reference, as `instance` of a problem asks for."""
    return f"urn:uuid:{uuid4()}"


def taken(given: str | None) -> str:
    """The id that was given, or a new one where none was or it has other characters than ids have."""
    return given if given and _PLAIN.fullmatch(given) else new_id()
