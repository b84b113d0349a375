"""What one save costs: `python -m tests.bench.one_request [--rounds 200] [--quick]`.

A real service with one worker answers the cases of `request_cases`, and beside it, in turn, a bare echo in
Flask and marshmallow under the same server: told is the median of each over the echo's. Then 1, 8 and 64
clients at once; memory of the first worker and of each further one; time until ready. With valgrind,
instructions of each case in process as well. What is held to is in BARS; what is missed is said.
"""

from __future__ import annotations

import argparse
import os
import platform
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from http.client import HTTPConnection
from pathlib import Path
from tempfile import TemporaryDirectory
from threading import Thread

from ..serving import Service, free_port, served, wait_until_ready
from .counted_requests import CASES, ROUNDS
from .instructions import counts_of, is_there
from .request_cases import Sender

BARS = {"a": 1.5, "b": 2.5, "c": 2.5, "d": 4.0, "tail": 4.0, "first": 150.0, "further": 30.0, "ready": 1.2}
MEANING = {
    "a": "(a) the same body again",
    "b": "(b) one line changed",
    "c": "(c) new recipe of seen lines",
    "d": "(d) all amounts new, words seen",
}
WORKERS = 4
STARTS = 3


class Client:
    """One connection that stays open."""

    def __init__(self, url: str) -> None:
        self._connection = HTTPConnection(url.removeprefix("http://"), timeout=60)

    def seconds(self, body: bytes) -> float:
        """How long the answer to a body takes. Raises AssertionError unless it is one."""
        began = time.perf_counter()
        self._connection.request(
            "POST", "/v1/calculations", body, {"Content-Type": "application/json", "Accept": "*/*"}
        )
        answer = self._connection.getresponse()
        answer.read()
        assert answer.status == 200, answer.status
        return time.perf_counter() - began


@contextmanager
def floor(folder: Path) -> Iterator[str]:
    """The echo under gunicorn, one worker with as many threads as ours."""
    port = free_port()
    command = [sys.executable, "-m", "gunicorn", "--bind", f"127.0.0.1:{port}", "--threads", "4"]
    with (folder / "floor.log").open("wb") as log:
        process = subprocess.Popen(
            [*command, "--no-control-socket", "tests.bench.floor:make_app()"], stdout=log, stderr=log
        )
        try:
            url = f"http://127.0.0.1:{port}"
            wait_until_ready(Service(url, process))
            yield url
        finally:
            process.terminate()
            process.wait(20)


@contextmanager
def ours(folder: Path, workers: int = 1, **settings: str) -> Iterator[Service]:
    url = f"sqlite:///{folder / 'store.sqlite3'}"
    with served(url, folder / "log", "--workers", str(workers), **settings) as service:
        yield service


def over_http(url: str, floor_url: str, rounds: int) -> dict[str, float]:
    """The median of each case over the floor's, asked in turn."""
    client, bare, sender = Client(url), Client(floor_url), Sender()
    for each in sender.seen():
        client.seconds(each)
        bare.seconds(each)
    found = {}
    for case in CASES:
        bodies = [sender.next(case) for _ in range(rounds)]
        times = [(client.seconds(each), bare.seconds(each)) for each in bodies]
        mine, echoed = (statistics.median(each) for each in zip(*times, strict=True))
        found[case] = mine / echoed
        print(f"  {MEANING[case]:34}{1000 * mine:8.2f} ms{1000 * echoed:8.2f} ms{mine / echoed:8.2f} x")
    return found


def crowd(url: str, clients: int, requests: int) -> tuple[float, float, int]:
    """Median and 99th percentile in seconds of so many clients at once, case (b), and how many failed."""
    sender, times, failed = Sender(first=10_000 * clients), list[float](), list[Exception]()
    bodies = [sender.next("b") for _ in range(requests)]

    def ask(own: list[bytes]) -> None:
        client = Client(url)
        for body in own:
            try:
                times.append(client.seconds(body))
            except Exception as fault:
                failed.append(fault)
                client = Client(url)

    threads = [Thread(target=ask, args=(bodies[at::clients],)) for at in range(clients)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    times.sort()
    return statistics.median(times), times[int(0.99 * len(times))], len(failed)


def mebibytes(pids: list[int]) -> float:
    """What processes hold together, what they share counted once (PSS)."""
    rolled = (Path(f"/proc/{pid}/smaps_rollup").read_text(encoding="ascii") for pid in pids)
    lines = (line for text in rolled for line in text.splitlines())
    return sum(int(line.split()[1]) for line in lines if line.startswith("Pss:")) / 1024


def memory(folder: Path) -> tuple[float, float]:
    """MiB of a service with one worker, and of each further worker, all of them used."""
    held = []
    for workers in (1, WORKERS):
        with ours(folder, workers) as service:
            sender = Sender()
            bodies = [*sender.seen(), *(sender.next("d") for _ in range(30 * workers))]
            threads = [Thread(target=lambda own=bodies[at::8]: [Client(service.url).seconds(b) for b in own])
                       for at in range(8)]  # fmt: skip
            for thread in threads:
                thread.start()
            for thread in threads:
                thread.join()
            held.append(mebibytes([service.process.pid, *service.workers()]))
    return held[0], (held[1] - held[0]) / (WORKERS - 1)


def ready(folder: Path) -> float:
    """Seconds of the processor from the command until /health/ready is 200: the median of a few starts, with
    the store and compiled modules at hand."""
    found = []
    for _ in range(STARTS + 1):
        with ours(folder) as service:
            found.append(sum(map(processor_seconds, [service.process.pid, *service.workers()])))
    return statistics.median(found[1:])


@contextmanager
def compiled_modules(folder: Path) -> Iterator[None]:
    """Let processes that begin meanwhile keep compiled modules in a folder, as an installed service has them,
    whatever the environment says."""
    before = dict(os.environ)
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    os.environ["PYTHONPYCACHEPREFIX"] = str(folder / "compiled")
    try:
        yield
    finally:
        os.environ.clear()
        os.environ.update(before)


def processor_seconds(pid: int) -> float:
    """What a process has taken of the processor, with those children of it that have ended."""
    after_name = Path(f"/proc/{pid}/stat").read_text(encoding="ascii").rpartition(")")[2].split()
    return sum(map(int, after_name[11:15])) / os.sysconf("SC_CLK_TCK")


def instructions() -> None:
    """Millions of instructions of each case in process, beside the echo's."""
    bare, mine = (counts_of("tests.bench.counted_requests", which) for which in ("floor", "ours"))
    for at, case in enumerate(CASES):
        each = slice(at * ROUNDS, (at + 1) * ROUNDS)
        own, echo = (statistics.median(counts[each]) / 1e6 for counts in (mine, bare))
        print(f"  {MEANING[case]:34}{own:8.2f} M {echo:8.2f} M {own / echo:8.2f} x")


def machine() -> str:
    model = next(
        (line.partition(":")[2].strip() for line in _lines("/proc/cpuinfo") if line.startswith("model name")),
        platform.machine(),
    )
    now = datetime.now(UTC).strftime("%Y-%m-%d")
    return f"{model}, {len(os.sched_getaffinity(0))} cores, Python {platform.python_version()}, {now}"


def _lines(file: str) -> list[str]:
    return Path(file).read_text(encoding="utf-8").splitlines() if os.path.exists(file) else []


def held(name: str, value: float, told: Callable[[float], str]) -> bool:
    """Say a figure with its bar; whether it is within."""
    within = value <= BARS[name]
    print(f"  {told(value)} (at most {BARS[name]:g}{'' if within else '; MISSED'})")
    return within


def main() -> int:
    parser = argparse.ArgumentParser(description="What one save costs.")
    parser.add_argument("--rounds", type=int, default=200, help="requests of each case")
    parser.add_argument("--quick", action="store_true", help="leave out instructions, memory and start")
    asked = parser.parse_args()
    print(machine())
    fine = []
    with TemporaryDirectory() as name, compiled_modules(Path(name)):
        folder = Path(name)
        with ours(folder) as service, floor(folder) as floor_url:
            print("over HTTP, median: ours, the echo, ratio")
            for case, ratio in over_http(service.url, floor_url, asked.rounds).items():
                fine.append(held(case, ratio, lambda found, case=case: f"({case}) {found:.2f}"))
            for clients in (1, 8, 64):
                median, slowest, failed = crowd(service.url, clients, max(asked.rounds, 4 * clients))
                print(f"{clients} clients: median {1000 * median:.1f} ms, 99th {1000 * slowest:.1f} ms, "
                      f"{failed} failed")  # fmt: skip
                if clients == 8:
                    fine.append(held("tail", slowest / median, lambda found: f"99th over median {found:.1f}"))
                fine.append(failed == 0)
        if not asked.quick:
            first, further = memory(folder)
            fine.append(held("first", first, lambda found: f"first worker with its keeper {found:.0f} MiB"))
            fine.append(held("further", further, lambda found: f"each further worker {found:.0f} MiB"))
            fine.append(
                held("ready", ready(folder), lambda found: f"ready after {found:.2f} s of the processor")
            )
    if not asked.quick and is_there():
        print("instructions in process: ours, the echo, ratio")
        instructions()
    return 0 if all(fine) else 1


if __name__ == "__main__":
    sys.exit(main())
