"""Workers come and go under a real master, and the service stays."""

from __future__ import annotations

import os
import re
import signal
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
import requests
from saltledger.http.examples import SHORT

from ..http.kept import SOUP
from ..serving import Service, served

COUNTED = re.compile(
    r'^saltledger_requests_total{method="POST",route="/v1/calculations",status="200"} (\S+)$', re.M
)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("workers")


@pytest.fixture(scope="module")
def service(folder: Path) -> Iterator[Service]:
    database = f"sqlite:///{folder / 'store.db'}"
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("TMPDIR", str(folder))
        with served(database, folder / "log", worker_seconds="2") as service:
            yield service


def calculate(service: Service) -> int:
    return requests.post(f"{service.url}/v1/calculations", json=SHORT, timeout=30).status_code


def counted(service: Service) -> float:
    found = COUNTED.search(requests.get(f"{service.url}/metrics", timeout=30).text)
    return float(found[1]) if found else 0.0


def wait_until(true: Callable[[], bool], seconds: float = 20) -> None:
    deadline = time.monotonic() + seconds
    while not true():
        assert time.monotonic() < deadline
        time.sleep(0.05)


def hang_up(service: Service) -> None:
    service.process.send_signal(signal.SIGHUP)


def end_one(number: signal.Signals) -> Callable[[Service], None]:
    return lambda service: os.kill(service.workers()[0], number)


def stop_for_long(service: Service) -> None:
    os.kill(service.workers()[0], signal.SIGSTOP)


ENDS = {
    "HUP": hang_up,
    **{name: end_one(signal.Signals[f"SIG{name}"]) for name in ("TERM", "ABRT", "QUIT", "INT", "KILL")},
    "STOP": stop_for_long,
}


@pytest.mark.parametrize("way", ENDS)
def test_a_worker_that_ends_does_not_end_the_service(service: Service, way: str) -> None:
    before, figure = service.workers(), counted(service)
    ENDS[way](service)
    wait_until(lambda: bool(set(before) - set(service.workers())) and len(service.workers()) >= 2)
    assert [calculate(service) for _ in range(6)] == [200] * 6
    saved = requests.put(f"{service.url}/v1/recipes/{way}", json={**SOUP, "title": way}, timeout=30)
    assert saved.status_code == 201
    assert counted(service) == figure + 6


def test_a_worker_that_stands_still_for_a_moment_goes_on(service: Service) -> None:
    worker = service.workers()[0]
    os.kill(worker, signal.SIGSTOP)
    assert calculate(service) == 200
    os.kill(worker, signal.SIGCONT)
    assert [calculate(service) for _ in range(4)] == [200] * 4
    assert worker in service.workers()


def test_figures_that_cannot_be_written_fail_no_request(service: Service, folder: Path) -> None:
    (figures,) = folder.glob("saltledger-metrics-*")
    for file in figures.iterdir():
        file.unlink()
    figures.rmdir()
    hang_up(service)
    before = service.workers()
    wait_until(lambda: not set(before) & set(service.workers()))
    assert [calculate(service) for _ in range(4)] == [200] * 4
    assert requests.get(f"{service.url}/metrics", timeout=30).status_code == 200
