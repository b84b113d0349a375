"""Processes that stand ready for many short batches, as a service has them.

They are started when they are first needed, shared by all threads, made anew where one dies, and let go when
nobody has needed them for a while.
"""

from __future__ import annotations

import multiprocessing
import time
from collections import deque
from collections.abc import Iterable, Iterator
from concurrent.futures import Future
from concurrent.futures.process import BrokenProcessPool
from threading import Lock
from typing import Any, TypeVar
from weakref import WeakKeyDictionary

from .executors import AHEAD, TRIES, Ahead, WatchedPool, Work, begin_process, one_by_one

P = TypeVar("P")
R = TypeVar("R")

PAUSE: Any = object()
"""Stands among parts where no more has come as yet: what is under way is answered before it is waited for."""


class StandingPool:
    """A pool of processes that are forked from one that has loaded `modules` and nothing else of ours."""

    def __init__(self, count: int, modules: Iterable[str]) -> None:
        self.count, self._modules = count, list(modules)
        self._lock = Lock()
        self._pool: WatchedPool | None = None
        self._pool_of: WeakKeyDictionary[Future[Any], WatchedPool] = WeakKeyDictionary()
        self._used_at = 0.0

    def submit(self, work: Work[P, R], part: P) -> Future[R]:
        """Have a part done."""
        with self._lock:
            if self._pool is None:
                self._pool = self._made(self.count)
            self._used_at = time.monotonic()
            try:
                future = self._pool.submit(work, part)
                self._pool_of[future] = self._pool
                return future
            except BrokenProcessPool:
                self._pool = None
        return self.submit(work, part)

    def _made(self, count: int) -> WatchedPool:
        context = multiprocessing.get_context("forkserver")
        context.set_forkserver_preload(self._modules)
        return WatchedPool(count, context, initializer=begin_process)

    def result(self, work: Work[P, R], part: P, future: Future[R]) -> R:
        """The result of a part, which others take up where its process died; where that happens again and
        again its items are tried by themselves."""

        def alone(item: P) -> R:
            with self._made(1) as pool:
                return pool.submit(work, item).result()

        for tried in range(1, TRIES + 1):
            pool = self._pool_of[future]
            try:
                return pool.outcome(future)
            except BrokenProcessPool:
                self._give_up(pool)
                if tried < TRIES:
                    future = self.submit(work, part)
        return one_by_one(work, part, alone)

    def _give_up(self, pool: WatchedPool) -> None:
        with self._lock:
            if self._pool is pool:
                self._pool = None

    def __call__(self, work: Work[P, R], parts: Iterable[P]) -> Iterator[R]:
        """The results of all parts in order, as `executors.Executor`; PAUSE may stand among them.

        A part that comes by itself is done here: no process is started for it.
        """
        ahead, under_way = Ahead(parts), deque[tuple[P, Future[R]]]()
        coming = ahead.take(1)
        while coming:
            part, coming = coming[0], ahead.take(1)
            if part is not PAUSE and not under_way and (not coming or coming[0] is PAUSE):
                yield work(part)
                continue
            if part is not PAUSE:
                under_way.append((part, self.submit(work, part)))
            most = 0 if part is PAUSE else AHEAD * self.count
            while under_way and (len(under_way) > most or under_way[0][1].done()):
                yield self.result(work, *under_way.popleft())
        while under_way:
            yield self.result(work, *under_way.popleft())
        ahead.end()

    def let_go(self, unused_s: float) -> None:
        """End the processes where nobody has needed them for so many seconds."""
        with self._lock:
            pool, unused = self._pool, time.monotonic() - self._used_at
            if pool is None or unused < unused_s:
                return
            self._pool = None
        if pool.has_lost_one():
            pool.break_off()
        pool.shutdown(wait=True, cancel_futures=False)
