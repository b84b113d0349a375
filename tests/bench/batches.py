"""Batches by the command line: recipes a second and core, from one process to two, and memory as lines grow.

    python -m tests.bench.batches [--lines 4000] [--memory 20000] [--cluster]

Lines are recipes of eight seen words each in ever new combinations. Rates are told by processor's time as
well as by the clock, since only the first means something on a machine that others use; so is what a second
process brings: by the clock, best of several turns, and by what it costs of the processor. Exits with 1 where
a figure falls below its floor in `FLOORS`.
"""

from __future__ import annotations

import argparse
import json
import os
import random
import resource
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

COMMAND = [sys.executable, "-c", "from saltledger.commands.cli import main; main()"]
FOODS = (
    "pork shoulder", "potatoes", "carrots", "chicken breast", "butter", "flour", "milk", "cheddar cheese",
    "tomatoes", "rice", "onions", "salt", "soy sauce", "eggs", "sugar", "bacon", "leeks", "cream", "garlic",
    "olive oil", "lentils", "cod", "mushrooms", "barley",
)  # fmt: skip
GRAMS = (5, 10, 20, 50, 100, 150, 200, 250, 400, 500)
LINES_EACH = 8
TURNS = 3
FLOORS = {"recipes a second of a core": 250.0, "by processor's time, 1 -> 2": 1.8, "memory, times": 0.75}
"""The last is the memory at the first tenth of the lines over that at their end."""


@dataclass(frozen=True)
class Run:
    """What a batch took: by the clock and of the processor, all its processes together, in seconds."""

    clock_s: float
    processor_s: float


def write_lines(file: Path, count: int) -> None:
    """A file of keyed recipes, the same for the same count."""
    chance = random.Random(7)
    pool = [f"{grams} g {food}" for food in FOODS for grams in GRAMS]
    with file.open("w", encoding="utf-8") as out:
        for number in range(count):
            recipe = {
                "title": f"Tern Quay dish {number}",
                "servings": chance.randint(2, 12),
                "ingredients": chance.sample(pool, LINES_EACH),
            }
            out.write(json.dumps({"key": f"dish-{number}", "recipe": recipe}) + "\n")


def run(source: Path, *arguments: str) -> Run:
    """A whole batch into nowhere."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    began = time.perf_counter()
    command = [*COMMAND, "batch", str(source), "/dev/null", "--no-progress", *arguments]
    subprocess.run(command, check=True, capture_output=True)
    clock_s = time.perf_counter() - began
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return Run(clock_s, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)


def rates(folder: Path, lines: int) -> dict[str, float]:
    """Rates and what a second process brings. What starting costs is taken off by a batch of one line."""
    one_line, many = folder / "one.ndjson", folder / "many.ndjson"
    write_lines(one_line, 1)
    write_lines(many, lines)
    start = min((run(one_line, "--workers", "1") for _ in range(TURNS)), key=lambda each: each.clock_s)
    turns = [(run(many, "--workers", "1"), run(many, "--workers", "2")) for _ in range(TURNS)]
    alone = min(each.processor_s for each, _ in turns) - start.processor_s
    together = min(each.processor_s for _, each in turns) - start.processor_s
    clock = [min(pair[at].clock_s for pair in turns) - start.clock_s for at in (0, 1)]
    return {
        "recipes a second of a core": lines / alone,
        "recipes a second by the clock, 1 process": lines / clock[0],
        "recipes a second by the clock, 2 processes": lines / clock[1],
        "by the clock, 1 -> 2": clock[0] / clock[1],
        "by processor's time, 1 -> 2": 2 * alone / together,
    }


def memory(folder: Path, lines: int) -> list[tuple[int, float]]:
    """MiB of all processes of a batch together (what they share counted once), as its lines are answered."""
    source, target = folder / "long.ndjson", folder / "out.ndjson.zst"
    write_lines(source, lines)
    progress = folder / "out.ndjson.zst.progress"
    found: list[tuple[int, float]] = []
    with subprocess.Popen(
        [*COMMAND, "batch", str(source), str(target), "--workers", "2", "--no-progress"],
        stderr=subprocess.DEVNULL,
    ) as batch:
        while batch.poll() is None:
            time.sleep(2)
            try:
                last = json.loads(progress.read_bytes().splitlines()[-1])
                found.append((last.get("items", 0), _mib(batch.pid)))
            except (OSError, ValueError, IndexError):
                continue
    return [each for each in found if each[0]]


def _mib(pid: int) -> float:
    """Proportional memory of a process and its children."""
    threads = Path(f"/proc/{pid}/task").glob("*/children")
    children = [child for each in threads for child in each.read_text(encoding="ascii").split()]
    return sum(_pss_kib(each) for each in (str(pid), *children)) / 1024


def _pss_kib(pid: str) -> int:
    for line in Path(f"/proc/{pid}/smaps_rollup").read_text(encoding="ascii").splitlines():
        if line.startswith("Pss:"):
            return int(line.split()[1])
    return 0


@contextmanager
def cluster(folder: Path, workers: int) -> Iterator[str]:
    """The address of a scheduler of this machine with so many workers."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        address = f"tcp://127.0.0.1:{probe.getsockname()[1]}"
    dask = [sys.executable, "-m", "dask"]
    quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
    plain = ["--nthreads", "1", "--no-nanny", "--no-dashboard", "--local-directory", str(folder)]
    started = [subprocess.Popen([*dask, "scheduler", "--host", address, "--no-dashboard"], **quiet)]
    started += [subprocess.Popen([*dask, "worker", address, *plain], **quiet) for _ in range(workers)]
    try:
        yield address
    finally:
        for process in started:
            process.kill()
            process.wait()


def on_cluster(folder: Path, lines: int) -> dict[str, float]:
    """Recipes a second with one worker and with two; the first batch of each lets them load their tables."""
    many, few = folder / "cluster.ndjson", folder / "few.ndjson"
    write_lines(many, lines)
    write_lines(few, 200)
    found = {}
    for workers in (1, 2):
        with cluster(folder, workers) as address:
            warm = min(run(few, "--cluster", address).clock_s for _ in range(2))
            clock_s = min(run(many, "--cluster", address).clock_s for _ in range(TURNS)) - warm
            found[workers] = (lines - 200) / clock_s
    return {
        "cluster, 1 worker, recipes a second": found[1],
        "cluster, 2 workers, recipes a second": found[2],
        "cluster, 1 -> 2": found[2] / found[1],
    }


def main() -> int:
    """Print the figures."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--lines", type=int, default=4_000)
    parser.add_argument("--memory", type=int, default=0, help="watch memory over so many lines")
    parser.add_argument("--cluster", action="store_true")
    asked = parser.parse_args()
    with TemporaryDirectory() as name:
        folder = Path(name)
        found = rates(folder, asked.lines)
        if asked.cluster:
            found |= on_cluster(folder, asked.lines)
        if asked.memory:
            curve = memory(folder, asked.memory)
            for items, mib in curve[:: max(1, len(curve) // 10)]:
                print(f"{items:>12,} lines {mib:>8.0f} MiB")
            early = [mib for items, mib in curve if items <= asked.memory / 5]
            found["memory, times"] = max(early) / max(mib for _, mib in curve[-5:])
    print(f"load {os.getloadavg()[0]:.1f} on {len(os.sched_getaffinity(0))} cores")
    for what, value in found.items():
        print(f"{what:46}{value:>10.2f}" + (f"   floor {FLOORS[what]:g}" if what in FLOORS else ""))
    return int(any(found[what] < floor for what, floor in FLOORS.items() if what in found))


if __name__ == "__main__":
    sys.exit(main())
