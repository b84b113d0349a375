"""A real service for tests: `saltledger serve` in a process of its own, on a port of its own."""

from __future__ import annotations

import os
import shutil
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import pytest
import requests

START_SECONDS = 60
COMMAND = [sys.executable, "-c", "from saltledger.commands.cli import main; main()"]


@dataclass(frozen=True)
class Service:
    """A running service. `process` is the one that keeps the workers."""

    url: str
    process: subprocess.Popen[bytes]

    def workers(self) -> list[int]:
        """Process ids of the workers."""
        children = Path(f"/proc/{self.process.pid}/task/{self.process.pid}/children").read_text(
            encoding="ascii"
        )
        return [int(child) for child in children.split()]

    def kill_workers(self) -> None:
        """End every worker as a power cut would: no signal handler, no flush."""
        for pid in self.workers():
            os.kill(pid, signal.SIGKILL)

    def kill(self) -> None:
        """End all of it so."""
        workers = self.workers()
        self.process.kill()
        self.process.wait(30)
        for pid in workers:
            # A worker whose parent is gone ends by itself, but not as suddenly.
            try:
                os.kill(pid, signal.SIGKILL)
            except ProcessLookupError:
                continue


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port


@contextmanager
def served(database_url: str, log: Path, *arguments: str, **settings: str) -> Iterator[Service]:
    """Serve with a store; settings are those of the environment, without their prefix."""
    port = free_port()
    environment = {name: value for name, value in os.environ.items() if not name.startswith("SALTLEDGER_")}
    environment |= {f"SALTLEDGER_{name.upper()}": value for name, value in settings.items()}
    environment["SALTLEDGER_DATABASE_URL"] = database_url
    with log.open("ab") as out:
        process = subprocess.Popen(
            [*COMMAND, "serve", "--port", str(port), *arguments], stdout=out, stderr=out, env=environment
        )
    service = Service(f"http://127.0.0.1:{port}", process)
    try:
        wait_until_ready(service)
        yield service
    finally:
        if process.poll() is None:
            process.terminate()
            process.wait(40)


def wait_until_ready(service: Service) -> None:
    """Come back when the service answers; fail if it ends or takes too long."""
    deadline = time.monotonic() + START_SECONDS
    while time.monotonic() < deadline and service.process.poll() is None:
        try:
            if requests.get(f"{service.url}/health/ready", timeout=5).ok:
                return
        except requests.RequestException:
            time.sleep(0.05)
    raise AssertionError("the service did not become ready")


def needs(program: str) -> None:
    """Skip the test where a program that it drives is not installed; nothing installs it by itself."""
    if shutil.which(program) is None:
        pytest.skip(f"{program} is not installed")
