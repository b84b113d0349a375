"""Conditional requests: what a caller expects to find, by entity tag (RFC 9110, 13)."""

from __future__ import annotations

from typing import Any

from flask import current_app, request

from ..config import Settings
from ..store.expectations import Condition, PreconditionFailed, PreconditionRequired
from ..store.records import Version

TAG = '"save_0123456789abcdef01234567"'
"""An entity tag, for examples."""


def _header(name: str, description: str, *, required: bool = False) -> dict[str, Any]:
    schema = {"type": "string", "pattern": r"^[\x21-\x7e][\x20-\x7e]{0,500}$"}
    about = {"in": "header", "name": name, "required": required, "schema": schema}
    return {**about, "description": description, "example": TAG}


IF_MATCH = _header("If-Match", "ETag of the version that is changed; * for any.")
REVIEWED = _header("If-Match", "ETag of the version that was reviewed.", required=True)
IF_NONE_MATCH = _header(
    "If-None-Match", "* to save only where there is nothing yet; ETags to save only over another version."
)
IF_CHANGED = _header("If-None-Match", "ETag of the copy that is held; 304 where it still holds.")


def of_save() -> Condition:
    """What the caller of a save expects to stand."""
    settings: Settings = current_app.extensions["saltledger"]
    match = frozenset({"*"}) if request.if_match.star_tag else frozenset(request.if_match.as_set())
    return Condition(
        match=match if "If-Match" in request.headers else None,
        absent=request.if_none_match.star_tag,
        unlike=frozenset(request.if_none_match.as_set(include_weak=True)),
        required=settings.if_match == "required",
    )


def check_reviewed(current: Version) -> None:
    """Make sure that the version If-Match names is the current one.

    Raises PreconditionRequired: it names none; PreconditionFailed: another.
    """
    if "If-Match" not in request.headers:
        raise PreconditionRequired
    if current.etag not in request.if_match:
        raise PreconditionFailed(current.key, current)
