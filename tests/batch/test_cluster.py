"""Batches on a cluster: a scheduler and two workers as processes, one of which is killed in mid-run."""

from __future__ import annotations

import json
import os
import re
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from saltledger.batch.cluster import Cluster, NoCluster
from saltledger.http.examples import SHORT

from ..serving import COMMAND, free_port

LINES = 250
LIMIT_SECONDS = 60


@dataclass(frozen=True)
class Running:
    """A cluster of this machine."""

    address: str
    workers: tuple[subprocess.Popen[bytes], ...]


@pytest.fixture(scope="module")
def cluster(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Running]:
    folder = tmp_path_factory.mktemp("cluster")
    address = f"tcp://127.0.0.1:{free_port()}"
    started = [_started(folder, "scheduler", "--host", address, "--no-dashboard", "--no-jupyter")]
    plain = ("--nthreads", "1", "--no-nanny", "--no-dashboard", "--local-directory", str(folder))
    try:
        started += [_started(folder, "worker", address, *plain) for _ in range(2)]
        yield Running(address, tuple(started[1:]))
    finally:
        for process in started:
            process.kill()
            process.wait(30)


def _started(folder: Path, part: str, *arguments: str) -> subprocess.Popen[bytes]:
    command = [sys.executable, "-m", "dask", part, *arguments]
    environment = {**os.environ, "DASK_DISTRIBUTED__WORKER__MEMORY__TERMINATE": "false"}
    with (folder / "log").open("ab") as log:
        return subprocess.Popen(command, stdout=log, stderr=log, env=environment)


def recipes(folder: Path) -> tuple[Path, list[str]]:
    """A file of keyed recipes, a line of nonsense among them, and their keys."""
    keys = [f"dish-{number}" for number in range(LINES)]
    lines = [
        json.dumps({"key": key, "recipe": {**SHORT, "title": key, "servings": 2 + number % 7}})
        for number, key in enumerate(keys)
    ]
    lines[7] = "{"
    file = folder / "in.ndjson"
    file.write_text("\n".join(lines), encoding="utf-8")
    return file, keys


def test_a_worker_that_is_killed_loses_and_doubles_nothing(cluster: Running, tmp_path: Path) -> None:
    source, keys = recipes(tmp_path)
    target, alone = tmp_path / "out.ndjson", tmp_path / "alone.ndjson"
    with (tmp_path / "err").open("wb") as err:
        run = subprocess.Popen(
            [*COMMAND, "batch", str(source), str(target), "--cluster", cluster.address], stderr=err
        )
        part = tmp_path / "out.ndjson.part"
        _until(lambda: part.exists() and part.stat().st_size > 0)
        cluster.workers[0].send_signal(signal.SIGKILL)
        assert not target.exists()
        assert run.wait(LIMIT_SECONDS) == 1  # the line of nonsense
    told = (tmp_path / "err").read_text()
    assert f"{LINES} recipes, {LINES - 1} answered, 1 with problems." in told
    subprocess.run([*COMMAND, "batch", str(source), str(alone)], check=False, capture_output=True)
    assert target.read_bytes() == alone.read_bytes()
    found = [json.loads(line) for line in target.read_bytes().splitlines()]
    assert [each.get("key") for each in found] == [None if key == "dish-7" else key for key in keys]


def _until(holds) -> None:
    deadline = time.monotonic() + LIMIT_SECONDS
    while not holds():
        assert time.monotonic() < deadline
        time.sleep(0.01)


def test_where_there_is_no_scheduler_it_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("saltledger.batch.cluster.WAIT_SECONDS", 0.5)
    address = f"tcp://127.0.0.1:{free_port()}"
    with pytest.raises(NoCluster, match=re.escape(f"no scheduler at {address}")):
        next(Cluster(address)(None, iter([1])))  # type: ignore[arg-type]
