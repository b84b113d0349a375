"""Work on parts, here or in several processes, the results in the order of the parts.

Never more parts are under way than the processes need to stay busy: where results are not taken, no further
part is read, so that memory stays flat however long the input is.

A process that dies loses nothing: its parts are given to others, and a result counts once. Where a part ends
every process that takes it up, its items are tried one by one, and what ends a process by itself is told as
lost.
"""

from __future__ import annotations

import gc
import multiprocessing
import os
import signal
import threading
import time
from collections import deque
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from typing import Any, Generic, Protocol, TypeVar

P_contra = TypeVar("P_contra", contravariant=True)
P = TypeVar("P")
R = TypeVar("R")

AHEAD = 3
"""Parts under way for each process."""
TRIES = 3
"""Processes that may die under a part before its items are tried one by one."""
LOOK_SECONDS = 1.0
"""How often a process looks whether the one that made it is there, and a wait whether all of them are."""


class Work(Protocol[P, R]):
    """What is done with each part. It goes to other processes, so it holds plain values."""

    def __call__(self, part: P, /) -> R: ...

    def apart(self, part: P) -> Sequence[P]:
        """The part as parts of one item."""

    def joined(self, results: Sequence[R]) -> R:
        """The results of such parts as that of the whole."""

    def lost(self, part: P) -> R:
        """What is told of a part of one item that ends whatever process takes it up."""


Executor = Callable[[Work[P, R], Iterable[P]], Iterator[R]]
"""Gives the results of all parts, in order."""


def here(work: Work[P, R], parts: Iterable[P]) -> Iterator[R]:
    """Do the work in this process."""
    return map(work, parts)


def usable_cores() -> int:
    """The processors that this process may use."""
    return len(os.sched_getaffinity(0))


class Processes:
    """Does the work in processes of its own, forked from this one with all that it has loaded.

    count: how many. They are started when a second part comes: one alone is soonest done here.
    """

    def __init__(self, count: int) -> None:
        self._count = count

    def __call__(self, work: Work[P, R], parts: Iterable[P]) -> Iterator[R]:
        if self._count == 1:
            yield from map(work, parts)
            return
        ahead = Ahead(parts)
        first = ahead.take(2)
        if len(first) == 2:
            with _frozen():
                yield from _Window(work, self._count).results(first, ahead)
        else:
            yield from map(work, first)
        ahead.end()


class Ahead(Generic[P]):
    """Parts that are taken before their results are asked for.

    What goes wrong in reading them is raised by `end`, when all that came before it has been answered.
    """

    def __init__(self, parts: Iterable[P]) -> None:
        self._parts = iter(parts)
        self._fault: Exception | None = None

    def take(self, most: int) -> list[P]:
        """The next parts, fewer at their end."""
        found: list[P] = []
        try:
            while self._fault is None and len(found) < most:
                found.append(next(self._parts))
        except StopIteration:
            pass
        except Exception as fault:
            self._fault = fault
        return found

    def end(self) -> None:
        if self._fault is not None:
            raise self._fault


@contextmanager
def _frozen() -> Iterator[None]:
    """Keep what is loaded out of the collector's sight, so that forked processes go on sharing it."""
    gc.collect()
    gc.freeze()
    try:
        yield
    finally:
        gc.unfreeze()


class _Window:
    """The parts under way in a pool of processes, which is made anew where one of them dies."""

    def __init__(self, work: Work[Any, Any], count: int) -> None:
        self._work, self._count = work, count
        self._under_way: deque[list[Any]] = deque()  # [part, future, deaths that it has seen]

    def results(self, first: Sequence[Any], ahead: Ahead[Any]) -> Iterator[Any]:
        self._pool = _pool(self._count)
        try:
            more = first
            while more or self._under_way:
                self._under_way.extend([part, self._submitted(part), 0] for part in more)
                # A part that comes slowly keeps nobody waiting who is done.
                if not more or len(self._under_way) >= AHEAD * self._count or self._under_way[0][1].done():
                    yield self._next()
                more = ahead.take(1)
        finally:
            self._pool.shutdown(wait=True, cancel_futures=True)

    def _next(self) -> Any:
        """The result of the oldest part."""
        while True:
            part, future, deaths = self._under_way[0]
            try:
                found = self._pool.outcome(future)
            except BrokenProcessPool:
                if deaths + 1 < TRIES:
                    self._start_again()
                    continue
                self._pool.shutdown(wait=True, cancel_futures=True)
                found = one_by_one(self._work, part, self._alone)
                self._under_way.popleft()
                self._start_again()
                return found
            self._under_way.popleft()
            return found

    def _submitted(self, part: Any) -> Future[Any]:
        try:
            return self._pool.submit(self._work, part)
        except BrokenProcessPool as fault:  # seen to when the oldest part is asked for
            broken: Future[Any] = Future()
            broken.set_exception(fault)
            return broken

    def _start_again(self) -> None:
        """Give the parts that have no result to new processes."""
        self._pool.shutdown(wait=True, cancel_futures=True)
        self._pool = _pool(self._count)
        for each in self._under_way:
            if each[1].cancelled() or isinstance(each[1].exception(), BrokenProcessPool):
                each[1], each[2] = self._submitted(each[0]), each[2] + 1

    def _alone(self, part: Any) -> Any:
        """The result of a part in a process of its own. Raises BrokenProcessPool."""
        with _pool(1) as pool:
            return pool.submit(self._work, part).result()


class WatchedPool(ProcessPoolExecutor):
    """A pool that goes on though a process is killed while it sends a result.

    What it had sent of it lies in the pipe, and Python's own pool waits for the rest for ever.
    """

    def outcome(self, future: Future[R]) -> R:
        """The result of what was submitted here. Raises BrokenProcessPool where a process has ended."""
        while True:
            try:
                return future.result(timeout=LOOK_SECONDS)
            except TimeoutError:
                if future.done():
                    return future.result()  # it came just now, or the work raised that
                if self.has_lost_one():
                    self.break_off()
                    raise BrokenProcessPool("A process ended, and what it was sending never came.") from None

    def has_lost_one(self) -> bool:
        """Whether one of its processes has ended."""
        return any(not process.is_alive() for process in list((self._processes or {}).values()))

    def break_off(self) -> None:
        """End all its processes and the pipe that they wrote to, so that nobody waits for more of it."""
        for process in list((self._processes or {}).values()):
            process.kill()
            process.join()
        results: Any = self._result_queue
        if results is not None:
            results._writer.close()


def _pool(count: int) -> WatchedPool:
    context = multiprocessing.get_context("fork")
    return WatchedPool(count, context, initializer=begin_process)


def begin_process() -> None:
    """Leave interruptions to the parent, and end with it even where it ends too suddenly to say so."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with, args=(os.getppid(),), daemon=True).start()


def _end_with(parent: int) -> None:
    # Forked by a fork server, a process has that for its parent, and another that it works for.
    master = multiprocessing.parent_process()
    while os.getppid() == parent and (master is None or master.is_alive()):
        time.sleep(LOOK_SECONDS)
    os._exit(1)


def one_by_one(
    work: Work[P, R], part: P, alone: Callable[[P], R], ended: type[Exception] = BrokenProcessPool
) -> R:
    """The result of a part whose items are tried by themselves.

    alone: does a part by itself, and raises `ended` where that ends whatever takes it up.
    """
    found = []
    for each in work.apart(part):
        try:
            found.append(alone(each))
        except ended:
            found.append(work.lost(each))
    return work.joined(found)
