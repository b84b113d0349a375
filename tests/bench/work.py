"""What greedy requests cost at full scale, beside what was estimated of them, and whether any is over.

    python -m tests.state.work [--scales 0.1 0.3 1] [--name TEXT]

For every way in which a request can ask for much (`tests.adversary.greedy`), up to 256 kB: CPU seconds,
estimated seconds, memory over the process at rest, bytes of the answer. Exits with 1 where one is over 1 CPU
second or 200 MB: then a figure of `recipe.work_budget` is too low, or something grows that it does not know
of. The last line gives CPU time as a share of the estimate, at most: by that share the figures are set.
"""

from __future__ import annotations

import argparse
import json
import resource
import sys
import time
from collections.abc import Iterator
from typing import NamedTuple

from flask.testing import FlaskClient
from saltledger.app import create_app
from saltledger.config import Settings
from saltledger.recipe.work_budget import of_comparison, of_lines, of_recipe, of_target

from ..adversary.greedy import Greedy, of_scale, recipe

LARGEST_BYTES = 256 * 1024
MOST_SECONDS, MOST_MEBIBYTES = 1.0, 200


class Measured(NamedTuple):
    """What one request came to."""

    seconds: float
    estimated: float
    mebibytes: float
    answer_bytes: int
    status: int
    name: str


def estimate(asked: Greedy) -> float:
    """Estimated seconds; 0 for what no recipe was read from."""
    kind, body = asked.path.partition("?")[0], asked.body
    try:
        if kind == "/v1/lines":
            return of_lines(body["lines"]).ms / 1000
        tags = asked.path.count(",") + 1 if "explain" in asked.path else 0
        costs = {
            "/v1/targets": lambda: of_target(body),
            "/v1/comparisons": lambda: of_comparison(body),
        }.get(kind, lambda: of_recipe(body, tags))()
        return sum(cost.ms for cost in costs) / 1000
    except (AttributeError, KeyError, TypeError):
        return 0.0


def measured(client: FlaskClient, asked: Greedy) -> Measured:
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    began = time.process_time()
    response = client.open(asked.path, method=asked.method, data=asked.data, content_type="application/json")
    spent = time.process_time() - began
    grown = (resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before) / 1024
    return Measured(spent, estimate(asked), grown, len(response.data), response.status_code, asked.name)


def all_measured(scales: list[float], name: str) -> Iterator[Measured]:
    client = create_app(Settings()).test_client()
    client.post(
        "/v1/calculations", data=json.dumps(recipe("brine", 2, 2, 1)), content_type="application/json"
    )
    for scale in scales:
        for asked in of_scale(scale):
            if name in asked.name and len(asked.data) <= LARGEST_BYTES:
                yield measured(client, asked)._replace(name=f"{asked.name} x {scale:g}")


def main() -> None:
    parser = argparse.ArgumentParser(description="CPU time and memory of greedy requests.")
    parser.add_argument("--scales", type=float, nargs="+", default=[0.05, 0.1, 0.2, 0.4, 1.0])
    parser.add_argument("--name", default="", help="only requests whose name has this in it")
    arguments = parser.parse_args()
    found = sorted(all_measured(arguments.scales, arguments.name), reverse=True)
    print(f"{'CPU s':>7}{'est. s':>8}{'MiB':>7}{'answer':>10}  status")
    for each in found[:25]:
        figures = f"{each.seconds:7.3f}{each.estimated:8.3f}{each.mebibytes:7.0f}{each.answer_bytes:10,}"
        print(f"{figures}  {each.status}  {each.name}")
    over = [each for each in found if each.seconds > MOST_SECONDS or each.mebibytes > MOST_MEBIBYTES]
    shares = [each.seconds / each.estimated for each in found if each.status == 200 and each.estimated > 0.1]
    largest = max(each.answer_bytes for each in found)
    print(f"{len(found)} requests, {len(over)} over; answers of at most {largest:,} bytes.")
    print(f"CPU time at most {max(shares, default=0):.2f} of the estimate.")
    sys.exit(1 if over else 0)


if __name__ == "__main__":
    main()
