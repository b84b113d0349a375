"""Asks FoodData Central's public web API, so that nothing it does can hurt us.

Every answer is bounded in size and in time, kept (fresh for a stated time, stale where the source fails),
asked for again with growing pauses, and no longer asked for while the source keeps failing. The key travels
in a header alone: no address, log, error or kept answer has it.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from typing import Any, TypeVar

import pybreaker
import requests
from requests.adapters import HTTPAdapter
from requests_cache import CachedSession
from requests_cache.backends.base import BaseCache
from requests_cache.backends.sqlite import SQLiteCache
from urllib3.util.retry import Retry

from ...core.errors import SaltledgerError
from ..matching.folding import fold
from .kept import PREFIX, KeptFood
from .translation import UnusableFood, kept_food

KEY_HEADER = "X-Api-Key"
DATA_TYPES = ("Foundation", "SR Legacy", "Survey (FNDDS)")
"""The kinds of foods that are asked for: analysed or compiled by the department, not copied from packets."""

NEAREST = 8
"""How many foods a search brings."""

LARGEST_BYTES = 2 * 1024 * 1024
"""An answer that is larger is not read to its end; eight foods in full take a tenth of it."""

RETRIED = (429, 500, 502, 503, 504)
LONGEST_WORDS = 120

T = TypeVar("T")


class OutOfReach(SaltledgerError):
    """The second source gave no answer that can be used; reason: in words, without addresses or keys."""

    def __init__(self, reason: str) -> None:
        self.reason = reason
        super().__init__(reason)

    def __str__(self) -> str:
        return f"FoodData Central {self.reason}."


@dataclass(frozen=True, slots=True, kw_only=True)
class Manners:
    """How the source is asked; times in seconds.

    connect, read: the longest wait for a connection and between two bytes; whole: for one answer. tries: in
    all. pause: the first pause between tries, which doubles; longest_pause: of any, also of one that the
    source asks for. failures: how many in a row before it is left alone for `rest`. fresh_days: how long an
    answer is taken from the cache unasked; stale_days: how long it may then serve where the source fails.
    """

    connect: float = 3.05
    read: float = 10.0
    whole: float = 20.0
    tries: int = 3
    pause: float = 0.5
    longest_pause: float = 20.0
    failures: int = 5
    rest: float = 120.0
    fresh_days: float = 30.0
    stale_days: float = 365.0


class _Unfinished(requests.RequestException):
    """An answer that was not read to its end, by our own bounds."""


class _BoundedAdapter(HTTPAdapter):
    """Reads an answer to its end within bounds of size and time, or gives it up."""

    def __init__(self, manners: Manners) -> None:
        self._whole = manners.whole
        super().__init__(
            max_retries=Retry(
                total=manners.tries - 1,
                status_forcelist=RETRIED,
                allowed_methods=("GET",),
                backoff_factor=manners.pause,
                backoff_jitter=manners.pause,
                backoff_max=manners.longest_pause,
                retry_after_max=int(manners.longest_pause),
                raise_on_status=False,
                redirect=0,
            )
        )

    def send(self, request: requests.PreparedRequest, **options: Any) -> requests.Response:  # type: ignore[override]
        deadline = time.monotonic() + self._whole
        response = super().send(request, **{**options, "stream": True})
        response._content = b"".join(_bounded(response, deadline))
        response._content_consumed = True
        return response


def _bounded(response: requests.Response, deadline: float) -> Iterator[bytes]:
    """The body in pieces. Raises _Unfinished, with the connection closed."""
    size = 0
    for piece in response.iter_content(16 * 1024):
        size += len(piece)
        if size > LARGEST_BYTES or time.monotonic() > deadline:
            response.close()
            raise _Unfinished("sent more than a look-up may hold, or sent it too slowly")
        yield piece


def open_session(cache: str, manners: Manners) -> CachedSession:
    """A session that keeps answers in `cache`: the path of an SQLite file, or a redis:// URL.

    Raises OutOfReach: the cache is Redis, and its client is not installed.
    """
    stale = int(timedelta(days=manners.stale_days).total_seconds())
    session = CachedSession(
        backend=_backend(cache, stale),
        expire_after=timedelta(days=manners.fresh_days),
        allowable_codes=(200,),
        allowable_methods=("GET",),
        ignored_parameters=(KEY_HEADER,),
        stale_if_error=stale,
    )
    for scheme in ("https://", "http://"):
        session.mount(scheme, _BoundedAdapter(manners))
    return session


def _backend(cache: str, stale: int) -> BaseCache:
    if not cache.startswith(("redis://", "rediss://")):
        return SQLiteCache(cache, busy_timeout=2000)
    try:
        from redis import from_url  # noqa: PLC0415  # an extra
        from requests_cache.backends.redis import RedisCache  # noqa: PLC0415
    except ImportError as fault:
        raise OutOfReach(
            "cannot be cached in Redis before its client is there: install saltledger[redis]"
        ) from fault
    server = from_url(cache, socket_timeout=2, socket_connect_timeout=2)
    return RedisCache("saltledger-foods", connection=server, ttl_offset=stale)


@dataclass(slots=True)
class FoodDataCentral:
    """The second source. url: of its API, with the version. key: of data.gov. today: gives the date."""

    session: CachedSession
    url: str
    key: str = field(repr=False)
    manners: Manners = Manners()
    today: Callable[[], datetime] = lambda: datetime.now(UTC)
    _breaker: pybreaker.CircuitBreaker = field(init=False, repr=False)

    def __post_init__(self) -> None:
        self._breaker = pybreaker.CircuitBreaker(
            fail_max=self.manners.failures, reset_timeout=self.manners.rest, name="FoodData Central"
        )

    def find(self, words: str) -> list[KeptFood]:
        """The foods that fit words best, in full, at most NEAREST; those that cannot be used are left out.

        words: what a line calls its food. Raises OutOfReach.
        """
        asked = " ".join(fold(words))[:LONGEST_WORDS]
        if not asked:
            return []
        query = {"query": asked, "dataType": ",".join(DATA_TYPES), "pageSize": str(NEAREST)}
        return self.fetch(self._ask("/foods/search", query, _codes))

    def fetch(self, codes: Iterable[str], *, anew: bool = False) -> list[KeptFood]:
        """Foods by their codes ("fdc:…"); those that cannot be used are left out.

        anew: ask also where an answer is kept that is still fresh. Raises OutOfReach.
        """
        numbers = ",".join(code.removeprefix(PREFIX) for code in codes)
        if not numbers:
            return []
        given = self._ask("/foods", {"fdcIds": numbers, "format": "full"}, _list, anew=anew)
        return list(_usable(given, self.today().date().isoformat()))

    def _ask(self, path: str, query: Mapping[str, str], read: Callable[[Any], T], *, anew: bool = False) -> T:
        """What `read` makes of the JSON that the source answers. Raises OutOfReach."""
        try:
            answer: T = self._breaker.call(self._get, path, query, read, anew)
        except pybreaker.CircuitBreakerError:
            raise OutOfReach("failed too often just now and is left alone for a while") from None
        return answer

    def _get(self, path: str, query: Mapping[str, str], read: Callable[[Any], T], anew: bool) -> T:
        try:
            response = self.session.get(
                self.url.rstrip("/") + path,
                params=dict(query),
                headers={KEY_HEADER: self.key, "Accept": "application/json"},
                timeout=(self.manners.connect, self.manners.read),
                allow_redirects=False,
                force_refresh=anew,
            )
        # Whatever breaks below (the network, the cache's own file or server) means one thing here.
        except Exception as fault:
            raise OutOfReach(f"could not be asked ({type(fault).__name__})") from None
        if response.status_code != 200:
            raise OutOfReach(f"answered {response.status_code}")
        try:
            return read(response.json())
        except (ValueError, KeyError, TypeError):
            self._forget(response)
            raise OutOfReach("answered in another form than published") from None

    def _forget(self, response: requests.Response) -> None:
        """Do not keep an answer that cannot be read."""
        if key := getattr(response, "cache_key", None):
            self.session.cache.delete(key)


def _usable(documents: Iterable[Any], retrieved: str) -> Iterator[KeptFood]:
    for document in documents:
        try:
            yield kept_food(document, retrieved)
        except UnusableFood:
            continue


def _codes(found: Any) -> list[str]:
    """The codes of the foods that a search found. Raises ValueError, KeyError or TypeError: another form."""
    return [f"{PREFIX}{int(food['fdcId'])}" for food in _list(found["foods"])[:NEAREST]]


def _list(value: Any) -> list[Any]:
    if not isinstance(value, list):
        raise TypeError("wanted a list")
    return value
