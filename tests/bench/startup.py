"""How long until the service is ready, and what it holds in memory: `python -m tests.bench.startup`.

Each figure is the median of several fresh processes. The bare interpreter's figures stand beside them, since
they are what a machine can do at all.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
import time
from collections.abc import Callable

RUNS = 5
MEMORY = "import resource; print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss)"
CASES = {
    "bare interpreter": "",
    "numpy": "import numpy",
    "Flask and flask-smorest": "import flask_smorest",
    "the app, imported": "import saltledger.app",
    "the app, ready": "from saltledger.app import create_app; create_app()",
    "the app, one recipe answered": (
        "from saltledger.app import create_app\n"
        "from saltledger.http.examples import recipe_example\n"
        "create_app().test_client().post('/v1/calculations', json=recipe_example())"
    ),
    "`saltledger --help`": "from saltledger.cli import main; main(['--help'], standalone_mode=False)",
}


def measured(script: str) -> tuple[float, float]:
    """Seconds and MiB at the peak of one fresh process."""
    began = time.perf_counter()
    done = subprocess.run(
        [sys.executable, "-c", f"{script}\n{MEMORY}"], check=True, capture_output=True, text=True
    )
    return time.perf_counter() - began, int(done.stdout.split()[-1]) / 1024


def report(say: Callable[[str], None] = print) -> None:
    """Print a line for each case: seconds, MiB, and both as multiples of the bare interpreter's."""
    say(f"{'':32}{'s':>8}{'MiB':>8}{'x time':>9}{'x memory':>10}")
    base: tuple[float, float] | None = None
    for name, script in CASES.items():
        runs = [measured(script) for _ in range(RUNS)]
        seconds, mebibytes = (statistics.median(each) for each in zip(*runs, strict=True))
        base = base or (seconds, mebibytes)
        say(f"{name:32}{seconds:8.2f}{mebibytes:8.0f}{seconds / base[0]:9.1f}{mebibytes / base[1]:10.1f}")


if __name__ == "__main__":
    report()
