"""How many requests a minute one key may send, or one address where no key is asked for.

Off unless the setting says otherwise. Counted by each worker for itself; with a Redis, by all together. Where
that cannot be reached requests go through, since a limit is no reason to be away.
"""

from __future__ import annotations

import logging
import math
import time
from typing import TYPE_CHECKING

from flask import Flask, current_app, g, request
from werkzeug.exceptions import TooManyRequests

from ..config import Settings
from .api import PUBLIC

if TYPE_CHECKING:
    from ..store.keys import ApiKey

log = logging.getLogger("saltledger")


class Rates:
    """The requests of the last minute, by caller."""

    def __init__(self, settings: Settings) -> None:
        # With asyncio behind it: loaded by those alone who limit rates.
        from limits import RateLimitItemPerMinute  # noqa: PLC0415
        from limits.errors import StorageError  # noqa: PLC0415
        from limits.storage import storage_from_string  # noqa: PLC0415
        from limits.strategies import SlidingWindowCounterRateLimiter  # noqa: PLC0415

        self._is_away = StorageError
        self._most = RateLimitItemPerMinute(settings.rate_per_minute)
        storage = storage_from_string(settings.rate_store or "memory://", wrap_exceptions=True)
        self._limiter = SlidingWindowCounterRateLimiter(storage)

    def wait_seconds(self, caller: str) -> int:
        """Seconds until the caller may send again, 0 where this request may go on; it counts."""
        try:
            if self._limiter.hit(self._most, caller):
                return 0
            resets_at = self._limiter.get_window_stats(self._most, caller).reset_time
        except self._is_away as fault:
            log.warning("rates cannot be counted: %s", fault)
            return 0
        return max(1, math.ceil(resets_at - time.time()))


def register(app: Flask) -> None:
    """Count every request that is not for health or the description, once it is known whose it is."""
    settings: Settings = app.extensions["saltledger"]
    if settings.rate_per_minute:
        app.extensions["saltledger-rates"] = Rates(settings)
        app.before_request(_check)


def _check() -> None:
    if request.endpoint is None or request.blueprint in PUBLIC or request.endpoint == "static":
        return
    rates: Rates = current_app.extensions["saltledger-rates"]
    if wait := rates.wait_seconds(_caller()):
        settings: Settings = current_app.extensions["saltledger"]
        raise TooManyRequests(
            f"More than {settings.rate_per_minute} requests in a minute; send again in {wait} s, and send "
            "many recipes as one batch.",
            retry_after=wait,
        )


def _caller() -> str:
    key: ApiKey | None = g.get("api_key")
    return f"key {key.public_id}" if key else f"address {request.remote_addr}"
