"""Work on parts by the workers of a dask.distributed cluster, the results in the order of the parts.

A worker that dies, or that is taken away, loses nothing: the scheduler gives its parts to others. A part is
a function of nothing but itself, so it does not matter how often it is begun; its result is taken once.
Workers need the same release of this package, and load the foods and tables that come with it themselves.
"""

from __future__ import annotations

import logging
from collections import deque
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from typing import Any, TypeVar

from ..core.errors import SaltledgerError
from .executors import AHEAD, Ahead, Work, one_by_one

P = TypeVar("P")
R = TypeVar("R")

WAIT_SECONDS = 30
LOOK_SECONDS = 5

log = logging.getLogger(__name__)


class NoCluster(SaltledgerError):
    """A cluster that cannot be used; the message says why, and what to do."""


class Cluster:
    """Does the work on the workers of the scheduler at an address such as tcp://10.0.0.5:8786."""

    def __init__(self, address: str) -> None:
        """Raises NoCluster: dask.distributed is not installed."""
        try:
            import distributed  # noqa: F401, PLC0415  # an extra, and slow to load
        except ImportError as fault:
            raise NoCluster(
                "A cluster needs dask.distributed: pip install 'saltledger[cluster]', here and on workers."
            ) from fault
        self._address = address

    def __call__(self, work: Work[P, R], parts: Iterable[P]) -> Iterator[R]:
        """Raises NoCluster: the scheduler is not there, or has no workers."""
        with _connected(self._address) as client:
            ahead = Ahead(parts)
            yield from _Window(client, work).results(ahead)
            ahead.end()


@contextmanager
def _connected(address: str) -> Iterator[Any]:
    from distributed import Client  # noqa: PLC0415
    from distributed.comm.core import CommClosedError  # noqa: PLC0415

    try:
        client: Any = Client(address, timeout=WAIT_SECONDS, set_as_default=False)  # type: ignore[no-untyped-call]
    except (OSError, ValueError, TimeoutError) as fault:
        raise NoCluster(f"There is no scheduler at {address}; start one with `dask scheduler`.") from fault
    with client:
        try:
            client.wait_for_workers(1, timeout=WAIT_SECONDS)
        except TimeoutError as fault:
            raise NoCluster(
                f"The scheduler at {address} has no workers; start some with `dask worker {address}`."
            ) from fault
        try:
            yield client
        except (CommClosedError, OSError) as fault:
            raise NoCluster(
                f"The scheduler at {address} has gone. What was answered is kept; the same command goes on."
            ) from fault


class _Window:
    """The parts under way on the workers; as many as keep them busy, however many there are just now."""

    def __init__(self, client: Any, work: Work[Any, Any]) -> None:
        self._client, self._work = client, work
        self._under_way: deque[tuple[Any, Any]] = deque()
        self._most = AHEAD

    def results(self, ahead: Ahead[Any]) -> Iterator[Any]:
        while True:
            more = ahead.take(1)
            self._under_way.extend((part, self._submitted(part)) for part in more)
            if not self._under_way:
                return
            if not more or len(self._under_way) >= self._most or self._under_way[0][1].done():
                yield self._next()
            self._most = AHEAD * max(1, sum(self._client.nthreads().values()))

    def _submitted(self, part: Any) -> Any:
        return self._client.submit(self._work, part, pure=False)

    def _next(self) -> Any:
        """The result of the oldest part."""
        from distributed import KilledWorker  # noqa: PLC0415

        part, future = self._under_way.popleft()
        try:
            return self._result(future)
        except KilledWorker:
            return one_by_one(
                self._work, part, lambda each: self._result(self._submitted(each)), KilledWorker
            )

    def _result(self, future: Any) -> Any:
        while True:
            try:
                return future.result(timeout=LOOK_SECONDS)
            except TimeoutError:
                if not self._client.nthreads():
                    log.warning("The cluster has no workers just now; waiting for some.")
            except ModuleNotFoundError as fault:
                raise NoCluster(
                    f"A worker of the cluster lacks {fault.name}: install the same release there."
                ) from fault
