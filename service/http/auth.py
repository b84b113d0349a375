"""Who may call: API keys and their scopes, and what a caller without a key may do.

A service without keys is open to its own machine and to nobody else; from the first key on, every caller
brings one, and revoking the last key does not open it again. `access` says otherwise in words: `keys` asks
for them from the start, `open` never does.

Every key is looked up in the store on every request, unless the store tells that nobody has changed anything
since. What is remembered beyond that can only close: that there was a key once; and while the store cannot be
asked, keys that it knew a short while ago may go on calculating.
"""

from __future__ import annotations

import re
import time
from hashlib import sha256
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

from flask import Flask, current_app, g, request
from werkzeug.datastructures import WWWAuthenticate
from werkzeug.exceptions import Forbidden, Unauthorized

from .. import store as kept
from ..config import Settings
from ..core.errors import StoreUnavailable
from ..review.chain import Actor
from .api import PUBLIC
from .proxies import is_loopback
from .stores import store

if TYPE_CHECKING:
    from ..store.keys import ApiKey

PAGES = "review"
"""The blueprint of pages for people, which has a login of its own."""

SCOPES = {
    "recipes": frozenset({"save", "review"}),
    "events": frozenset({"save", "review"}),
    "measurements": frozenset({"save", "review"}),
    "reviews": frozenset({"review"}),
}
"""Blueprints that need one of these scopes; all others need `calculate`."""

CHANGING = {"recipes": frozenset({"save"}), "measurements": frozenset({"save", "review"})}
"""The same for requests that change something."""

SIGNING = {"reviews.decide_on_recipe": frozenset({"sign"})}
"""Routes that speak for a person, and the scope that each needs, which no other scope holds."""

CALCULATE = frozenset({"calculate"})

KNOWN_SECONDS = 600.0
"""How long a key that was good goes on calculating while the store cannot be asked."""

REMEMBERED = 1000

_SENT_ON = re.compile(r"forward|^via$|proxy|(^|-)ip$|^x-original|^x-envoy|^(cf|cdn|x-amzn?)-", re.IGNORECASE)
"""Headers that a request carries because something sent it on."""


class Door:
    """What one process remembers of keys: nothing that lets anybody in while the store can be asked."""

    def __init__(self) -> None:
        self.had_keys = False
        self._good: dict[bytes, tuple[float, ApiKey]] = {}

    def remember(self, text: str, key: ApiKey | None) -> None:
        """Keep what the store just said of a key, or that it knows none such."""
        name = _name_of(text)
        self._good.pop(name, None)
        if key is not None:
            self.had_keys = True
            if len(self._good) >= REMEMBERED:
                del self._good[next(iter(self._good))]
            self._good[name] = (time.monotonic(), key)

    def recall(self, text: str) -> ApiKey | None:
        """The key that the store knew less than KNOWN_SECONDS ago."""
        seen, key = self._good.get(_name_of(text), (0.0, None))
        return key if key is not None and time.monotonic() - seen < KNOWN_SECONDS else None


def register(app: Flask) -> None:
    """Ask every request of the app for what its route needs."""
    app.extensions["saltledger-door"] = Door()
    app.before_request(_check)


def actor() -> Actor:
    """Who calls, as it goes on record."""
    key: ApiKey | None = g.get("api_key")
    return Actor("key", key.public_id, key.label) if key else Actor("local")


def is_local() -> bool:
    """Whether the caller is on this machine, and not merely sent on by something on it.

    A web page of another site can be led to this address by its own name; it cannot give our name. Behind a
    proxy, where there is one by the settings, nobody is known to be local.
    """
    settings: Settings = current_app.extensions["saltledger"]
    sent_on = settings.proxies > 0 or any(_SENT_ON.search(name) for name, _ in request.headers)
    return not sent_on and is_loopback(request.remote_addr or "") and is_loopback(_host_name())


def _host_name() -> str:
    try:
        return urlsplit(f"//{request.host}").hostname or ""
    except ValueError:  # a bracket that does not close, and the like
        return ""


def is_open() -> bool:
    """Whether a caller without a key may do everything."""
    return current_app.extensions["saltledger"].access == "open" or is_open_at_home()


def is_open_at_home() -> bool:
    """Whether the caller is on this machine, and the service has no keys and is not told to ask for them."""
    access = current_app.extensions["saltledger"].access
    return access != "keys" and is_local() and not has_keys()


def has_keys() -> bool:
    """Whether there is a key, or was one before it was revoked. Raises StoreUnavailable."""
    door = _door()
    door.had_keys = door.had_keys or (store().exists and store().as_it_stands("any key", kept.keys.any_made))
    return door.had_keys


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
    needed = _needed(blueprint)
    key = _key_of(text, needed)
    if key is None:
        challenge = WWWAuthenticate("bearer", {"error": "invalid_token"})
        raise Unauthorized("This API key is not known, or was revoked.", www_authenticate=challenge)
    if not key.scopes & needed:
        wanted = " or ".join(sorted(needed))
        raise Forbidden(
            f"This API key has the scopes {', '.join(sorted(key.scopes))}; this needs {wanted}, which "
            f"`saltledger keys grant {key.public_id} {min(needed)}` gives it."
        )
    g.api_key = key


def _key_of(text: str, needed: frozenset[str]) -> ApiKey | None:
    """The key that `text` is, as the store says now; while it cannot be asked, as it said for calculating."""
    door = _door()
    try:
        key = _look_up(text) if text and store().exists else None
    except StoreUnavailable:
        known = door.recall(text)
        if known is None or needed != CALCULATE:
            raise
        return known
    door.remember(text, key)
    return key


def _needed(blueprint: str) -> frozenset[str]:
    if request.endpoint in SIGNING:
        return SIGNING[request.endpoint]
    if request.method not in ("GET", "HEAD") and blueprint in CHANGING:
        return CHANGING[blueprint]
    return SCOPES.get(blueprint, CALCULATE)


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


def _door() -> Door:
    found: Door = current_app.extensions["saltledger-door"]
    return found


def _name_of(text: str) -> bytes:
    return sha256(text.encode("utf-8", "replace")).digest()


def _look_up(text: str) -> ApiKey | None:
    return store().as_it_stands(("key", _name_of(text)), lambda connection: kept.keys.check(connection, text))
