"""What was worked out before, kept for the next time: so many results, each by what it follows from."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from typing import Generic, TypeVar

T = TypeVar("T")


class Remembered(Generic[T]):
    """Results by their keys, at most so many; the one that was kept first is given up first.

    Several threads may use it: at worst two of them work the same out.
    """

    def __init__(self, most: int) -> None:
        self._most = most
        self._kept: dict[Hashable, T] = {}

    def __len__(self) -> int:
        return len(self._kept)

    def find(self, key: Hashable, make: Callable[[], T], *, lasts: Callable[[T], bool] | None = None) -> T:
        """The result of that key, made if it is not there.

        lasts: whether what was made would come out so again, so that it may be kept; always, if not given.
        """
        found = self._kept.get(key)
        if found is None:
            found = make()
            if lasts is None or lasts(found):
                self.keep(key, found)
        return found

    def get(self, key: Hashable) -> T | None:
        """The result of that key, None where there is none."""
        return self._kept.get(key)

    def keep(self, key: Hashable, result: T) -> None:
        """Remember a result."""
        while len(self._kept) >= self._most:
            self._kept.pop(next(iter(self._kept)), None)
        self._kept[key] = result
