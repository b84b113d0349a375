"""Wrong passwords are counted by who sends them and for which login, so that no stranger shuts anybody out.

Each worker counts by itself, and forgets when it ends: guessing is slow on purpose already (Argon2id).
"""

from __future__ import annotations

import time
from collections import OrderedDict
from threading import Lock

TRIES, TRIES_OF_ADDRESS = 5, 50
CLOSED_SECONDS, FORGOTTEN_SECONDS = 30.0, 600.0
REMEMBERED = 10_000


class LoginThrottle:
    """The failures of one process, of the last minutes."""

    def __init__(self) -> None:
        self._lock = Lock()
        self._failures: OrderedDict[tuple[str, str | None], tuple[int, float]] = OrderedDict()

    def is_closed(self, address: str, login: str) -> bool:
        """Whether this address has to wait before it tries this login, or any, again."""
        with self._lock:
            return self._over((address, login), TRIES) or self._over((address, None), TRIES_OF_ADDRESS)

    def failed(self, address: str, login: str) -> None:
        """Count a wrong password."""
        with self._lock:
            for place in ((address, login), (address, None)):
                count, last = self._failures.pop(place, (0, 0.0))
                kept = count if time.monotonic() - last < FORGOTTEN_SECONDS else 0
                self._failures[place] = (kept + 1, time.monotonic())
            while len(self._failures) > REMEMBERED:
                self._failures.popitem(last=False)

    def succeeded(self, address: str, login: str) -> None:
        """Forget the failures of who came in."""
        with self._lock:
            self._failures.pop((address, login), None)

    def _over(self, place: tuple[str, str | None], tries: int) -> bool:
        count, last = self._failures.get(place, (0, 0.0))
        return count >= tries and time.monotonic() - last < CLOSED_SECONDS
