"""Who may call: API keys and their scopes, and what a caller without a key may do.

A service without keys is open to its own machine and to nobody else; from the first key on, every caller
brings one. `access` says otherwise in words: `keys` asks for them from the start, `open` never does.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import TYPE_CHECKING, TypeVar
from urllib.parse import urlsplit

from flask import Flask, current_app, g, request
from werkzeug.datastructures import WWWAuthenticate
from werkzeug.exceptions import Forbidden, Unauthorized

from .. import store as kept
from ..config import Settings
from ..loopback import is_loopback
from .api import PUBLIC
from .stores import store

if TYPE_CHECKING:
    from ..store.keys import ApiKey

PAGES = "review"
"""The blueprint of pages for people, which has a login of its own."""

SCOPES = {
    "recipes": frozenset({"save", "review"}),
    "events": frozenset({"save", "review"}),
    "reviews": frozenset({"review"}),
}
"""Blueprints that need one of these scopes; all others need `calculate`."""

CHANGING = {"recipes": frozenset({"save"})}
"""The same for requests that change something."""

KNOWN_SECONDS = 2.0
"""How long a worker trusts what it looked up: so soon does revoking a key take effect."""

REMEMBERED = 1000

T = TypeVar("T")


class Lookups:
    """What was looked up a moment ago, so that a busy caller's key is not read on every request."""

    def __init__(self) -> None:
        self._found: dict[str, tuple[float, object]] = {}

    def remember(self, name: str, look_up: Callable[[], T]) -> T:
        """What `look_up` gives, or gave less than KNOWN_SECONDS ago."""
        known = self._found.get(name)
        if known is not None and time.monotonic() - known[0] < KNOWN_SECONDS:
            return known[1]  # type: ignore[return-value]
        if len(self._found) >= REMEMBERED:
            self._found.clear()
        found = look_up()
        self._found[name] = (time.monotonic(), found)
        return found


def register(app: Flask) -> None:
    """Ask every request of the app for what its route needs."""
    app.extensions["saltledger-lookups"] = Lookups()
    app.before_request(_check)


def caller() -> str:
    """Who calls, as it is written beside what they save."""
    key: ApiKey | None = g.get("api_key")
    return key.label if key else "local"


def is_local() -> bool:
    """Whether the caller is on this machine, and not merely sent on by something on it.

    A web page of another site can be led to this address by its own name; it cannot give our name.
    """
    forwarded = "Forwarded" in request.headers or "X-Forwarded-For" in request.headers
    name = urlsplit(f"//{request.host}").hostname or ""
    return not forwarded and is_loopback(request.remote_addr or "") and is_loopback(name)


def is_open() -> bool:
    """Whether a caller without a key may do everything."""
    access = current_app.extensions["saltledger"].access
    return access == "open" or (access == "loopback" and not has_keys() and is_local())


def has_keys() -> bool:
    """Whether there is at least one key that opens."""
    if not store().exists:
        return False
    return _lookups().remember("", _any_active)


def _check() -> None:
    blueprint = request.blueprint or (request.endpoint or "").split(".")[0]
    if request.endpoint is None or blueprint in {*PUBLIC, PAGES, "static"}:
        return
    text = _presented()
    if text is not None:
        _admit(text, blueprint)
    elif not is_open():
        raise Unauthorized(_how_to_come_in(), www_authenticate=WWWAuthenticate("bearer"))


def _admit(text: str, blueprint: str) -> None:
    key = _lookups().remember(text, lambda: _look_up(text)) if store().exists else None
    if key is None:
        challenge = WWWAuthenticate("bearer", {"error": "invalid_token"})
        raise Unauthorized("This API key is not known, or was revoked.", www_authenticate=challenge)
    needed = _needed(blueprint)
    if not key.scopes & needed:
        wanted = " or ".join(sorted(needed))
        raise Forbidden(f"This API key has the scopes {', '.join(sorted(key.scopes))}; this needs {wanted}.")
    g.api_key = key


def _needed(blueprint: str) -> frozenset[str]:
    if request.method not in ("GET", "HEAD") and blueprint in CHANGING:
        return CHANGING[blueprint]
    return SCOPES.get(blueprint, frozenset({"calculate"}))


def _presented() -> str | None:
    given = request.headers.get("Authorization")
    if given is None:
        return None
    scheme, _, text = given.partition(" ")
    if scheme.lower() != "bearer":
        raise Unauthorized(
            "Send the API key as Authorization: Bearer and the key.",
            www_authenticate=WWWAuthenticate("bearer"),
        )
    return text.strip()


def _how_to_come_in() -> str:
    settings: Settings = current_app.extensions["saltledger"]
    if settings.access == "loopback" and not has_keys():
        return (
            "Without keys this service answers its own machine only, under the name localhost or 127.0.0.1. "
            "Make a key with `saltledger keys create` and send it as Authorization: Bearer."
        )
    return "An API key is needed: send it as Authorization: Bearer and the key."


def _lookups() -> Lookups:
    found: Lookups = current_app.extensions["saltledger-lookups"]
    return found


def _any_active() -> bool:
    with store().database.read() as connection:
        return kept.keys.any_active(connection)


def _look_up(text: str) -> ApiKey | None:
    with store().database.read() as connection:
        return kept.keys.check(connection, text)
