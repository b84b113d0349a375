"""What many saves in one request cost beside single ones: `python -m tests.bench.bulk`.

A service of its own saves recipes one by one, each over a connection of its own as a CMS or curl does, then
many in one request, then as many changed, then the same again. Told are ratios within the run, of the best of
some rounds, by the clock and by what the service takes of the processor; the latter mean something on a
machine that others use: a single save waits for one core, many use `CORES`. Exits with 1 where these fall
below `FLOORS`. Work that a recipe takes either way is told as well, since no way of saving saves it.
"""

from __future__ import annotations

import json
import os
import sys
import time
from collections.abc import Callable, Iterable
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import requests
from saltledger.calculator import answer_recipe
from saltledger.gate.reading import load
from saltledger.gate.recipe_schema import RecipeSchema

from ..serving import Service, served

SINGLE, MANY, ROUNDS = 25, 600, 3
CORES = 2
FLOORS = {"new": 6.0, "changed": 5.5, "again": 50.0}
"""How many times the speed of single saves: what is new, changed, and sent again unchanged."""
_TICKS = os.sysconf("SC_CLK_TCK")


def recipe(number: int) -> dict[str, Any]:
    """A plain recipe that is like no other."""
    return {
        "title": f"Tern Quay stew {number}",
        "servings": 4 + number % 5,
        "ingredients": [
            "500 g pork shoulder",
            f"{10 + number % 7} g salt",
            "2 onions",
            "1 tbsp olive oil",
            f"{number + 1} g sugar",
            "1 litre chicken stock",
        ],
    }


def processor_ms(pid: int) -> float:
    """What a process and all below it have taken of the processor; who has ended counts with its parent."""
    stat = Path(f"/proc/{pid}/stat").read_text(encoding="ascii").rsplit(")", 1)[1].split()
    threads = Path(f"/proc/{pid}/task").glob("*/children")
    children = [int(child) for each in threads for child in each.read_text(encoding="ascii").split()]
    return 1000 * sum(map(int, stat[11:15])) / _TICKS + sum(map(processor_ms, children))


def measured(service: Service) -> dict[str, tuple[float, float]]:
    """Milliseconds a recipe by the clock and of the processor: single, new, again, and calculated alone."""
    url, pid = service.url, service.process.pid
    for number in range(20):  # both workers have read their tables
        requests.put(f"{url}/v1/recipes/warm-{number}", json=recipe(number), timeout=60)
    _sent(url, "warm", 5000)  # the processes for many are there
    rounds = [_round(url, pid, number) for number in range(ROUNDS)]
    return {name: _least(each[name] for each in rounds) for name in rounds[0]}


def _round(url: str, pid: int, number: int) -> dict[str, tuple[float, float]]:
    first = 10_000 * (number + 1)

    def singly() -> None:
        for at in range(SINGLE):
            body = recipe(first + at)
            requests.put(f"{url}/v1/recipes/single-{first + at}", json=body, timeout=60)

    def calculate() -> None:
        for at in range(SINGLE):
            answer_recipe(load(RecipeSchema(), recipe(first + 5000 + at)))

    found = {"single": _spent(pid, SINGLE, singly)}
    for name, begins in (("new", 2000), ("changed", 3000), ("again", 3000)):
        found[name] = _spent(pid, MANY, partial(_sent, url, f"many-{number}", first + begins))
    return found | {"calculated": _spent(os.getpid(), SINGLE, calculate)}


def _spent(pid: int, count: int, work: Callable[[], None]) -> tuple[float, float]:
    """Milliseconds for each of so many, by the clock and of the processor."""
    began, work_began = time.perf_counter(), processor_ms(pid)
    work()
    return 1000 * (time.perf_counter() - began) / count, (processor_ms(pid) - work_began) / count


def _least(found: Iterable[tuple[float, float]]) -> tuple[float, float]:
    clock, work = zip(*found, strict=True)
    return min(clock), min(work)


def _sent(url: str, name: str, first: int) -> None:
    saves = [{"key": f"{name}-{number}", "recipe": recipe(first + number)} for number in range(MANY)]
    lines = [json.dumps(each) for each in saves]
    headers = {"Content-Type": "application/x-ndjson"}
    answer = requests.post(f"{url}/v1/recipes", data="\n".join(lines), headers=headers, timeout=600)
    if sum("saved" in json.loads(line) for line in answer.text.splitlines()) != MANY:
        raise SystemExit("not every line was saved")


def main() -> int:
    with TemporaryDirectory() as folder:
        url = f"sqlite:///{Path(folder) / 'store.sqlite3'}"
        with served(url, Path(folder) / "log") as service:
            found = measured(service)
    for name in ("single", "calculated"):
        print(f"{name}: {found[name][0]:.1f} ms by the clock, {found[name][1]:.2f} ms of the processor")
    below = False
    for name, floor in FLOORS.items():
        (clock, work), (single_clock, single_work) = found[name], found["single"]
        times = CORES * single_work / work
        below |= times < floor
        print(
            f"many, {name}: {clock:.1f} ms each by the clock, {single_clock / clock:.1f} times the speed; "
            f"{work:.2f} ms of the processor, {times:.1f} times on {CORES} cores (floor {floor:g})"
        )
    return int(below)


if __name__ == "__main__":
    sys.exit(main())
