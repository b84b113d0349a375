"""How many machine instructions a call takes, which no other load on the machine changes.

    python -m tests.bench.instructions tests.bench.salt:counted

Counted by valgrind's callgrind (`apt-get install valgrind`), in one process of its own. Each case is a call
by name; it is made twice before it is counted, so that what is kept between requests is there.
"""

from __future__ import annotations

import argparse
import ctypes
import gc
import importlib
import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Mapping
from pathlib import Path
from tempfile import TemporaryDirectory

Cases = Mapping[str, Callable[[], object]]

_COUNTS_WITHIN = "ffi_call"
"""The function of libffi through which `_counted` alone makes its calls; callgrind counts within it."""
_WARM = 2


def instructions(target: str) -> dict[str, int]:
    """Instructions by case. target: "package.module:function", the function without arguments giving Cases.

    Raises RuntimeError where there is no valgrind, or the counted process fails.
    """
    valgrind = shutil.which("valgrind")
    if valgrind is None:
        raise RuntimeError("counting instructions needs valgrind: apt-get install valgrind")
    with TemporaryDirectory() as folder:
        counted = subprocess.run(
            [
                valgrind,
                "--tool=callgrind",
                f"--toggle-collect={_COUNTS_WITHIN}",
                f"--dump-after={_COUNTS_WITHIN}",
                f"--callgrind-out-file={folder}/counts",
                *(sys.executable, "-m", __spec__.name if __spec__ else __name__, target, "--within"),
            ],
            env=os.environ | {"PYTHONHASHSEED": "0", "OPENBLAS_NUM_THREADS": "1"},
            capture_output=True,
            text=True,
            check=False,
        )
        if counted.returncode:
            raise RuntimeError(counted.stderr)
        names = counted.stdout.splitlines()
        return {name: _total(Path(folder, f"counts.{at}")) for at, name in enumerate(names, start=1)}


def _total(dump: Path) -> int:
    lines = dump.read_text(errors="replace").splitlines()
    return int(next(line for line in lines if line.startswith("totals:")).split()[1])


def cases_of(target: str) -> Cases:
    module, _, function = target.partition(":")
    found: Cases = getattr(importlib.import_module(module), function)()
    return found


def _count_all(target: str) -> None:
    """In the counted process: make each call once within what is counted, and print the names in order."""
    for name, call in cases_of(target).items():
        for _ in range(_WARM):
            call()
        gc.collect()
        gc.freeze()
        _counted(call)
        print(name)


def _counted(call: Callable[[], object]) -> None:
    def once() -> None:
        call()

    ctypes.PYFUNCTYPE(None)(once)()


def main() -> None:
    parser = argparse.ArgumentParser(description="Count the machine instructions of calls.")
    parser.add_argument("target", help="package.module:function, which gives the calls by name")
    parser.add_argument("--within", action="store_true", help=argparse.SUPPRESS)
    asked = parser.parse_args()
    if asked.within:
        _count_all(asked.target)
        return
    for name, count in instructions(asked.target).items():
        print(f"{name:40}{count:14,}")


if __name__ == "__main__":
    main()
