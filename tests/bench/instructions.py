"""Instructions of the processor that calls take, counted by valgrind's callgrind in a process of its own.

Unlike seconds they hardly differ from run to run, on a busy machine or an idle one. The module that is
counted hands each call to `counted`, which makes it through a foreign function: callgrind counts what happens
below libffi's `ffi_call`, and writes a file at its end.
"""

from __future__ import annotations

import ctypes
import os
import re
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory

MARK = "ffi_call"
_Call = ctypes.CFUNCTYPE(None)


def counted(call: Callable[[], object]) -> None:
    """Make a call whose instructions are counted, where the process runs under `counts_of`."""
    faults: list[BaseException] = []

    def once() -> None:
        try:
            call()
        except BaseException as fault:  # ctypes would print it and go on
            faults.append(fault)

    _Call(once)()
    if faults:
        raise faults[0]


def is_there() -> bool:
    """Whether valgrind is installed."""
    return shutil.which("valgrind") is not None


def counts_of(module: str, *arguments: str) -> list[int]:
    """Instructions of each counted call of `python -m module`, in their order."""
    with TemporaryDirectory() as folder:
        out = Path(folder) / "callgrind"
        command = [
            "valgrind", "--quiet", "--tool=callgrind", "--instr-atstart=no", f"--toggle-collect={MARK}",
            f"--dump-after={MARK}", f"--callgrind-out-file={out}", sys.executable, "-m", module, *arguments,
        ]  # fmt: skip
        environment = {**os.environ, "PYTHONHASHSEED": "0", "OPENBLAS_NUM_THREADS": "1"}
        subprocess.run(command, check=True, env=environment, stdout=subprocess.DEVNULL)
        files = sorted(Path(folder).glob("callgrind.*"), key=lambda file: int(file.suffix[1:]))
        return [_total(file) for file in files]


def begin() -> None:
    """Turn the counting on: all before is quick. Does nothing outside of valgrind."""
    if "vgpreload" in os.environ.get("LD_PRELOAD", ""):
        turned = subprocess.Popen(["callgrind_control", "--instr=on", str(os.getpid())])
        while turned.poll() is None:  # valgrind listens only while the process works
            pass


def _total(file: Path) -> int:
    found = re.search(r"^(?:summary|totals): (\d+)", file.read_text(encoding="utf-8"), re.MULTILINE)
    return int(found[1]) if found else 0
