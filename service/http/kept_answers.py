"""Answers that are kept to be given again: to the same request, while all that they rest on is the same.

A kept answer goes by a hash of the request's bytes and of everything else that its figures stand on: the
code, the tables, the foods, and the caller's own measurements. What else an answer rests on (saved recipes
that it names, words that somebody is being asked about) no hash tells, so a view says each time whether its
answer may be kept. Callers are let in, counted and logged as always.
"""

from __future__ import annotations

import logging
from collections import OrderedDict
from collections.abc import Callable
from functools import wraps
from hashlib import sha256
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING, Any, NamedTuple, Protocol, TypeVar, cast

import numpy as np
import zstandard
from flask import Flask, Response, current_app, g, request

from ..config import Settings
from ..core.assumptions import rows_in_force
from ..core.errors import SaltledgerError
from ..core.tables import tables_sha256
from . import known_foods

if TYPE_CHECKING:
    from redis import Redis

View = TypeVar("View", bound=Callable[..., Any])

EXTENSION = "saltledger-kept-answers"
SHARED_SECONDS = 24 * 3600
"""How long the Redis keeps an answer."""
PREFIX = b"saltledger:answer:"
PACKED_LEVEL = -5
"""Of Zstandard: level 1 would pack a third closer and take three times as long."""

log = logging.getLogger("saltledger")


class Kept(NamedTuple):
    """An answer: its media type, whether that was chosen among several, and its body."""

    media_type: str
    chosen: bool
    body: bytes


class Shelf(Protocol):
    """Where answers are kept, by key."""

    def get(self, key: bytes) -> Kept | None: ...
    def put(self, key: bytes, answer: Kept) -> None: ...


class NoRedisClient(SaltledgerError):
    """Answers are to be kept in Redis, and its client is not installed."""

    def __str__(self) -> str:
        return "SALTLEDGER_ANSWERS_STORE names a Redis; install 'saltledger[redis]', or unset it."


class OwnShelf:
    """Answers of one process, those that were asked for last, of so many bytes in all as they are packed: to
    about a third."""

    def __init__(self, most_bytes: int) -> None:
        self._most, self._held = most_bytes, 0
        self._answers: OrderedDict[bytes, Kept] = OrderedDict()
        self._lock = Lock()  # of what packs and unpacks, too
        self._packer, self._unpacker = zstandard.ZstdCompressor(PACKED_LEVEL), zstandard.ZstdDecompressor()

    def get(self, key: bytes) -> Kept | None:
        with self._lock:
            found = self._answers.get(key)
            if found is None:
                return None
            self._answers.move_to_end(key)
            return found._replace(body=self._unpacker.decompress(found.body))

    def put(self, key: bytes, answer: Kept) -> None:
        with self._lock:
            # A copy: what the packer gives goes on taking up as much room as the whole.
            answer = answer._replace(body=bytes(memoryview(self._packer.compress(answer.body))))
            before = self._answers.pop(key, None)
            self._answers[key] = answer
            self._held += len(answer.body) - (len(before.body) if before else 0)
            while self._held > self._most:
                self._held -= len(self._answers.popitem(last=False)[1].body)


class SharedShelf:
    """Answers of all processes, in a Redis; one that cannot be reached keeps nothing and stops nobody."""

    def __init__(self, redis: Redis, code_sha256: bytes) -> None:
        self._redis, self._is_away = redis, False
        self._prefix = PREFIX + code_sha256

    def get(self, key: bytes) -> Kept | None:
        found = self._asked(lambda: self._redis.get(self._prefix + key))
        if not isinstance(found, bytes):
            return None
        media_type, chosen, body = found.split(b"\n", 2)
        return Kept(media_type.decode(), chosen == b"chosen", body)

    def put(self, key: bytes, answer: Kept) -> None:
        head = f"{answer.media_type}\n{'chosen' if answer.chosen else 'only'}\n".encode()
        self._asked(lambda: self._redis.set(self._prefix + key, head + answer.body, ex=SHARED_SECONDS))

    def _asked(self, ask: Callable[[], Any]) -> Any:
        from redis.exceptions import RedisError  # noqa: PLC0415  # an extra

        try:
            found = ask()
        except RedisError as fault:
            if not self._is_away:
                log.warning("answers cannot be kept for other workers: %s", fault)
            self._is_away = True
            return None
        self._is_away = False
        return found


def register(app: Flask) -> None:
    """Give the app its shelves, this process's own first. Raises NoRedisClient."""
    settings: Settings = app.extensions["saltledger"]
    shelves: list[Shelf] = [OwnShelf(settings.answers_bytes)] if settings.answers_bytes else []
    if settings.answers_store:
        shelves.append(SharedShelf(_redis(settings.answers_store), _code_sha256()))
    app.extensions[EXTENSION] = tuple(shelves)


def _code_sha256() -> bytes:
    """A SHA-256 over the code that answers, so that no other release's answer is taken for its own."""
    digest = sha256(np.__version__.encode())
    for file in sorted(Path(__file__).parents[1].rglob("*.py")):
        digest.update(file.read_bytes())
    return digest.digest()


def _redis(url: str) -> Redis:
    try:
        from redis import from_url  # noqa: PLC0415  # an extra
    except ImportError:
        raise NoRedisClient from None
    client: Redis = from_url(url, socket_timeout=0.2, socket_connect_timeout=0.2)
    return client


def may_be_kept() -> None:
    """Say of the answer to the current request that it rests on nothing that `_key` leaves out."""
    g.may_be_kept = True


def given_again(view: View) -> View:
    """A view whose answers are kept where it says `may_be_kept`, and given again before anything is read."""

    @wraps(view)
    def wrapper(**named: Any) -> Any:
        shelves: tuple[Shelf, ...] = current_app.extensions[EXTENSION]
        if not shelves:
            return view(**named)
        key = _key()
        for at, shelf in enumerate(shelves):
            if (kept := shelf.get(key)) is not None:
                for missed in shelves[:at]:
                    missed.put(key, kept)
                return _response(kept)
        response = view(**named)
        # What it rests on may have changed while it was worked out; then nobody knows what it rests on.
        if g.pop("may_be_kept", False) and response.status_code == 200 and _key() == key:
            kept = Kept(response.mimetype, "Accept" in response.vary, response.get_data())
            for shelf in shelves:
                shelf.put(key, kept)
        return response

    return cast(View, wrapper)


def _response(kept: Kept) -> Response:
    response = Response(kept.body, mimetype=kept.media_type)
    if kept.chosen:
        response.vary.add("Accept")
    return response


def _key() -> bytes:
    """What the answer to the current request goes by: all that it can depend on, each part by its length."""
    own = rows_in_force()
    told = (
        tables_sha256(),
        known_foods.foods().fingerprint,
        "" if own is None else f"own {own.identity}",
        request.path,
        request.environ.get("QUERY_STRING", ""),
        request.headers.get("Accept", ""),
        request.headers.get("Content-Type", ""),
    )
    digest = sha256("".join(f"{len(part)}:{part}" for part in told).encode())
    digest.update(request.get_data())
    return digest.digest()
