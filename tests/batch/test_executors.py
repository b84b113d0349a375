"""Work in several processes: in order, never far ahead, and whole whatever happens to the processes."""

from __future__ import annotations

import os
import signal
import struct
import subprocess
import sys
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from saltledger.batch.executors import AHEAD, Processes, here
from saltledger.batch.standing_pool import StandingPool

Numbers = tuple[int, ...]


@dataclass(frozen=True)
class Doubled:
    """Doubles numbers; the process ends at a number in `deadly`, or once for each in `once`."""

    folder: Path | None = None
    once: Numbers = ()
    deadly: Numbers = ()

    def __call__(self, part: Numbers) -> Numbers:
        for number in part:
            if number in self.deadly:
                os.kill(os.getpid(), signal.SIGKILL)
            if number in self.once and self.folder is not None:
                try:
                    (self.folder / str(number)).touch(exist_ok=False)
                except FileExistsError:
                    continue
                os.kill(os.getpid(), signal.SIGKILL)
        if -1 in part:
            raise ValueError("refused")
        return tuple(2 * number for number in part)

    def apart(self, part: Numbers) -> list[Numbers]:
        return [(number,) for number in part]

    def joined(self, results: Sequence[Numbers]) -> Numbers:
        return tuple(number for result in results for number in result)

    def lost(self, part: Numbers) -> Numbers:
        return (-part[0],)


def parts(count: int, size: int = 3) -> list[Numbers]:
    return [tuple(range(size * i, size * i + size)) for i in range(count)]


def flat(results: Iterator[Numbers]) -> list[int]:
    return [number for result in results for number in result]


@pytest.mark.parametrize("count", [0, 1, 2, 3, 40])
@pytest.mark.parametrize("executor", [here, Processes(1), Processes(3)])
def test_results_come_in_order(executor, count: int) -> None:
    assert flat(executor(Doubled(), parts(count))) == [2 * n for n in range(3 * count)]


def test_no_more_is_read_than_keeps_the_processes_busy() -> None:
    read = []

    def endless() -> Iterator[Numbers]:
        while True:
            read.append(1)
            yield (len(read),)

    results = Processes(2)(Doubled(), endless())
    for _ in range(5):
        next(results)
    assert len(read) <= 5 + 2 * AHEAD
    results.close()


def test_a_process_that_dies_loses_and_doubles_nothing(tmp_path: Path) -> None:
    work = Doubled(tmp_path, once=(10, 31, 32, 80))
    assert flat(Processes(2)(work, parts(40))) == [2 * n for n in range(120)]


def test_an_item_that_ends_every_process_is_told_as_lost_and_the_rest_are_answered() -> None:
    found = flat(Processes(2)(Doubled(deadly=(10, 11)), parts(12)))
    assert found == [-n if n in (10, 11) else 2 * n for n in range(36)]


def test_so_it_is_in_a_pool_that_stands_ready(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.syspath_prepend(Path(__file__).parents[2])  # its processes import what they are to do
    found = flat(StandingPool(1, [])(Doubled(deadly=(1,)), parts(2, size=2)))
    assert found == [0, -1, 4, 6]


def test_what_the_work_raises_ends_the_run() -> None:
    with pytest.raises(ValueError, match="refused"):
        flat(Processes(2)(Doubled(), [*parts(5), (-1,), *parts(5)]))


def test_processes_end_with_the_one_that_made_them(tmp_path: Path) -> None:
    child = os.fork()
    if child == 0:  # pragma: no cover
        results = Processes(2)(_Telling(tmp_path), parts(100))
        for _ in range(4):
            next(results)
        os.kill(os.getpid(), signal.SIGKILL)
    os.waitpid(child, 0)
    pids = [int(file.name) for file in tmp_path.iterdir()]
    assert len(pids) == 2
    deadline = time.monotonic() + 20
    while any(_runs(pid) for pid in pids) and time.monotonic() < deadline:
        time.sleep(0.05)
    assert not any(_runs(pid) for pid in pids)


def test_standing_processes_end_with_the_one_that_they_work_for() -> None:
    script = (
        "import os, time\n"
        "from saltledger.batch.standing_pool import StandingPool\n"
        "pool = StandingPool(2, [])\n"
        "pool.submit(time.sleep, 0.01).result()\n"
        "print(*pool._pool._processes, flush=True)\n"
        "os.kill(os.getpid(), 9)\n"
    )
    run = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=False)
    pids = [int(pid) for pid in run.stdout.split()]
    assert pids
    deadline = time.monotonic() + 20
    while any(map(_runs, pids)) and time.monotonic() < deadline:
        time.sleep(0.05)
    assert not any(map(_runs, pids))


@dataclass(frozen=True)
class _Telling(Doubled):
    """Tells of the processes that it is done in; none does a second part before another began its first."""

    def __call__(self, part: Numbers) -> Numbers:
        assert self.folder is not None
        (self.folder / str(os.getpid())).touch()
        deadline = time.monotonic() + 20
        while len(list(self.folder.iterdir())) < 2 and time.monotonic() < deadline:
            time.sleep(0.01)
        return part


def _runs(pid: int) -> bool:
    try:
        return Path(f"/proc/{pid}/stat").read_text().split()[2] != "Z"
    except FileNotFoundError:
        return False


@dataclass(frozen=True)
class _Halved(Doubled):
    """Ends its process once, in the midst of sending a result, so that half of one lies in the pipe."""

    def __call__(self, part: Numbers) -> Numbers:
        assert self.folder is not None
        try:
            (self.folder / "once").touch(exist_ok=False)
        except FileExistsError:
            return super().__call__(part)
        frame = sys._getframe()
        while "result_queue" not in frame.f_locals:
            assert frame.f_back is not None
            frame = frame.f_back
        os.write(frame.f_locals["result_queue"]._writer.fileno(), struct.pack("!i", 1000) + b"half")
        os.kill(os.getpid(), signal.SIGKILL)
        raise AssertionError


@pytest.mark.parametrize("made", [Processes, lambda count: StandingPool(count, [])])
def test_half_a_result_keeps_nobody_waiting(
    made: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.syspath_prepend(Path(__file__).parents[2])
    assert flat(made(2)(_Halved(tmp_path), parts(8))) == [2 * n for n in range(24)]


def test_processes_are_let_go_with_half_a_result_in_their_pipe(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.syspath_prepend(Path(__file__).parents[2])
    pool = StandingPool(2, [])
    pool.submit(_Halved(tmp_path), (1,))
    deadline = time.monotonic() + 20
    while not (pool._pool is not None and pool._pool.has_lost_one()) and time.monotonic() < deadline:
        time.sleep(0.05)
    pool.let_go(0.0)
    assert flat(pool(_Halved(tmp_path), parts(4))) == [2 * n for n in range(12)]
