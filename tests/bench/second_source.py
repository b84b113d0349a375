"""What the second source costs a calculation while it is switched on and out of reach.

    python -m tests.bench.second_source [--requests 600]

Both apps answer the same recipes, by turns, in one process; each recipe has a line that no food fits, with
words of its own, so that there is always something to ask for. Prints median and p99 of each and their ratio.
"""

from __future__ import annotations

import argparse
import tempfile
import time
from pathlib import Path

import numpy as np
from flask.testing import FlaskClient
from saltledger.app import create_app
from saltledger.config import Settings


def recipe(number: int) -> dict[str, object]:
    lines = [
        "1 kg potatoes",
        "2 carrots",
        "200 g leeks",
        "1 l chicken stock",
        "10 g table salt",
        "2 tbsp butter",
    ]
    return {
        "title": f"Quay pot {number}",
        "servings": 4,
        "ingredients": [*lines, f"2 tbsp xyzzo{number} paste"],
    }


def seconds(client: FlaskClient, number: int) -> float:
    start = time.perf_counter()
    assert client.post("/v1/calculations", json=recipe(number)).status_code == 200
    return time.perf_counter() - start


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--requests", type=int, default=600)
    count = parser.parse_args().requests
    with tempfile.TemporaryDirectory() as folder:
        clients = {
            mode: create_app(
                Settings(
                    database_url=f"sqlite:///{Path(folder) / mode}.sqlite3",
                    remote_foods=mode,
                    remote_foods_url="http://127.0.0.1:1",
                    remote_foods_key="none",
                    remote_foods_cache=str(Path(folder) / "answers.sqlite3"),
                )
            ).test_client()
            for mode in ("off", "ask")
        }
        taken: dict[str, list[float]] = {mode: [] for mode in clients}
        for number in range(-20, count):
            for mode in sorted(clients, reverse=bool(number % 2)):
                took = seconds(clients[mode], number)
                if number >= 0:
                    taken[mode].append(took)
    for mode, each in taken.items():
        print(
            f"{mode:<4} median {1e3 * np.median(each):6.2f} ms   p99 {1e3 * np.percentile(each, 99):6.2f} ms"
        )
    for name, at in (("median", 50), ("p99", 99)):
        ratio = np.percentile(taken["ask"], at) / np.percentile(taken["off"], at)
        print(f"{name}: switched on is {ratio:.2f} times off")


if __name__ == "__main__":
    main()
