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
from saltledger.jobs.workbenches import make_workbench
from saltledger.review.chain import Actor
from saltledger.store.database import Database

from ..serving import COMMAND, free_port

LINES = 250
LIMIT_SECONDS = 60


@dataclass(frozen=True)
class Running:
    """A cluster of this machine."""

    address: str
    database_url: str
    workers: tuple[subprocess.Popen[bytes], ...]


@pytest.fixture(scope="module")
def cluster(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Running]:
    folder = tmp_path_factory.mktemp("cluster")
    url = f"sqlite:///{folder / 'store.sqlite3'}"
    address = f"tcp://127.0.0.1:{free_port()}"
    started = [_started(folder, url, "scheduler", "--host", address, "--no-dashboard", "--no-jupyter")]
    plain = ("--nthreads", "1", "--no-nanny", "--no-dashboard", "--local-directory", str(folder))
    try:
        started += [_started(folder, url, "worker", address, *plain) for _ in range(2)]
        yield Running(address, url, tuple(started[1:]))
    finally:
        for process in started:
            process.kill()
            process.wait(30)


def _started(folder: Path, url: str, part: str, *arguments: str) -> subprocess.Popen[bytes]:
    command = [sys.executable, "-m", "dask", part, *arguments]
    environment = {**os.environ, "SALTLEDGER_DATABASE_URL": url}
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


def test_saved_recipes_are_worked_out_by_workers_that_have_the_store(
    cluster: Running, tmp_path: Path
) -> None:
    database = Database(cluster.database_url)
    bench = make_workbench(database)
    for number in range(40):
        bench.save(f"dish-{number:02}", {**SHORT, "title": f"dish {number}"}, Actor("local"))
    database.close()
    there, here = tmp_path / "there.ndjson", tmp_path / "here.ndjson"
    on = ("--cluster", cluster.address)
    assert command(cluster, "batch", "--from-store", str(there), *on).returncode == 0
    assert command(cluster, "batch", "--from-store", str(here)).returncode == 0
    assert there.read_bytes() == here.read_bytes()
    assert there.read_bytes().count(b"\n") == 40
    again = command(cluster, "recalculate", *on)
    assert (again.returncode, again.stderr) == (
        0,
        "40 recipes, 0 marked for review, 0 could not be worked out.\n",
    )


def test_workers_with_another_store_are_refused(cluster: Running, tmp_path: Path) -> None:
    other = f"sqlite:///{tmp_path / 'other.sqlite3'}"
    database = Database(other)
    make_workbench(database).save("dish", SHORT, Actor("local"))
    database.close()
    refused = command(cluster, "recalculate", "--cluster", cluster.address, url=other)
    assert refused.returncode == 2
    assert "A worker has another release" in refused.stderr


def command(cluster: Running, *arguments: str, url: str | None = None) -> subprocess.CompletedProcess[str]:
    environment = {**os.environ, "SALTLEDGER_DATABASE_URL": url or cluster.database_url}
    asked = [*COMMAND, *arguments]
    return subprocess.run(
        asked, env=environment, capture_output=True, text=True, check=False, timeout=LIMIT_SECONDS
    )


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
