"""How long until the service is ready, and what it holds in memory: `python -m tests.bench.startup`.

Each figure is the median of several fresh processes with compiled modules at hand, as an installed
service has them. Processor time is told beside the clock's, which a busy machine stretches; it and the memory
are told as multiples of the bare interpreter's, which is what a machine can do at all.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from tempfile import TemporaryDirectory

RUNS = 5
USED = """
import resource
used = resource.getrusage(resource.RUSAGE_SELF)
print(used.ru_utime + used.ru_stime, used.ru_maxrss)
"""
CASES = {
    "bare interpreter": "",
    "numpy": "import numpy",
    "Flask and flask-smorest": "import flask_smorest",
    "the app, imported": "import saltledger.app",
    "the app, made": "from saltledger.app import create_app; create_app()",
    "the app, ready": (
        "from saltledger.app import create_app\ncreate_app().test_client().get('/health/ready')"
    ),
    "the app, one recipe answered": (
        "from saltledger.app import create_app\n"
        "from saltledger.http.examples import recipe_example\n"
        "create_app().test_client().post('/v1/calculations', json=recipe_example())"
    ),
    "`saltledger --help`": (
        "from saltledger.commands.cli import main; main(['--help'], standalone_mode=False)"
    ),
}


def measured(script: str, folder: str) -> tuple[float, float, float]:
    """Seconds by the clock, of the processor, and MiB at the peak of one fresh process.

    folder: where compiled modules are kept, and where a store would be; there is none.
    """
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    environment |= {"PYTHONPYCACHEPREFIX": folder, "XDG_STATE_HOME": folder}
    command = [sys.executable, "-c", f"{script}\n{USED}"]
    began = time.perf_counter()
    done = subprocess.run(command, check=True, capture_output=True, text=True, env=environment)
    clock = time.perf_counter() - began
    processor, kibibytes = done.stdout.split()[-2:]
    return clock, float(processor), int(kibibytes) / 1024


def report(say: Callable[[str], None] = print) -> None:
    """Print a line for each case: seconds, processor seconds, MiB, and the last two as multiples."""
    say(f"{'':32}{'s':>8}{'cpu s':>8}{'MiB':>8}{'x cpu':>8}{'x MiB':>8}")
    base: tuple[float, float] | None = None
    with TemporaryDirectory() as folder:
        for name, script in CASES.items():
            measured(script, folder)
            runs = [measured(script, folder) for _ in range(RUNS)]
            clock, processor, mebibytes = (statistics.median(each) for each in zip(*runs, strict=True))
            base = base or (processor, mebibytes)
            say(
                f"{name:32}{clock:8.2f}{processor:8.2f}{mebibytes:8.0f}"
                f"{processor / base[0]:8.1f}{mebibytes / base[1]:8.1f}"
            )


if __name__ == "__main__":
    report()
