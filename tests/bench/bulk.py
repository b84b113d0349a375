"""What many saves in one request cost beside single ones: `python -m tests.bench.bulk`.

A service of its own saves recipes one by one, each over a connection of its own as a CMS or curl does, then
many in one request, then the same again. Told are ratios within the run, by the clock; exits with 1 where
they fall below `FLOORS`. Work a recipe takes either way is told as well, since no way of saving saves it.
"""

from __future__ import annotations

import json
import statistics
import sys
import time
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import requests
from saltledger.calculator import answer_recipe
from saltledger.gate.reading import load
from saltledger.gate.recipe_schema import RecipeSchema

from ..serving import served

SINGLE, MANY = 60, 600
FLOORS = {"new": 2.0, "again": 5.0}
"""How many times the speed of single saves: what is new, and what is sent again and unchanged."""


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


def measured(url: str) -> dict[str, float]:
    """Milliseconds a recipe: single, new, again, and calculated alone."""
    for number in range(20):  # both workers have read their tables
        requests.put(f"{url}/v1/recipes/warm-{number}", json=recipe(number), timeout=60)
    singles = []
    for number in range(SINGLE):
        began = time.perf_counter()
        requests.put(f"{url}/v1/recipes/single-{number}", json=recipe(1000 + number), timeout=60)
        singles.append(time.perf_counter() - began)
    found = {"single": 1000 * statistics.median(singles)}
    for name in ("new", "again"):
        found[name] = 1000 * _sent(url) / MANY
    began = time.perf_counter()
    for number in range(SINGLE):
        answer_recipe(load(RecipeSchema(), recipe(3000 + number)))
    return found | {"calculated": 1000 * (time.perf_counter() - began) / SINGLE}


def _sent(url: str) -> float:
    lines = [json.dumps({"key": f"many-{number}", "recipe": recipe(2000 + number)}) for number in range(MANY)]
    began = time.perf_counter()
    headers = {"Content-Type": "application/x-ndjson"}
    answer = requests.post(f"{url}/v1/recipes", data="\n".join(lines), headers=headers, timeout=600)
    taken = time.perf_counter() - began
    if sum("saved" in json.loads(line) for line in answer.text.splitlines()) != MANY:
        raise SystemExit("not every line was saved")
    return taken


def main() -> int:
    with TemporaryDirectory() as folder:
        url = f"sqlite:///{Path(folder) / 'store.sqlite3'}"
        with served(url, Path(folder) / "log") as service:
            found = measured(service.url)
    print(f"single save {found['single']:.1f} ms; a calculation alone {found['calculated']:.1f} ms")
    below = False
    for name, floor in FLOORS.items():
        times = found["single"] / found[name]
        below |= times < floor
        print(f"many, {name}: {found[name]:.1f} ms each, {times:.1f} times the speed (floor {floor})")
    return int(below)


if __name__ == "__main__":
    sys.exit(main())
