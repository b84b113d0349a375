"""An acknowledged save is on disk: real processes, killed without warning, on every database."""

from __future__ import annotations

import sqlite3
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
import requests

from ..databases import KINDS, database_url
from ..serving import Service, served, wait_until_ready

SECONDS = 30


@pytest.fixture(scope="module", params=KINDS)
def store_url(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    with database_url(request.param, tmp_path_factory.mktemp("store")) as url:
        yield url


@pytest.fixture(scope="module")
def service(store_url: str, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Service]:
    with served(store_url, tmp_path_factory.mktemp("service") / "log", "--workers", "2") as service:
        yield service


def soup(number: int) -> dict[str, Any]:
    return {
        "title": f"Soup {number}",
        "servings": 4,
        "ingredients": ["1 litre water", f"{number + 1} g table salt"],
    }


def put(service: Service, document: Any, key: str = "soup", **headers: str) -> requests.Response:
    named = {name.replace("_", "-"): value for name, value in headers.items()}
    return requests.put(f"{service.url}/v1/recipes/{key}", json=document, headers=named, timeout=SECONDS)


def get(service: Service, path: str) -> Any:
    return requests.get(f"{service.url}/v1/recipes/{path}", timeout=SECONDS).json()


def test_a_save_survives_its_worker(service: Service) -> None:
    for i in range(3):
        saved = put(service, soup(i))
        service.kill_workers()
        assert saved.ok
        wait_until_ready(service)
        assert get(service, "soup") == saved.json()


def test_no_acknowledged_save_is_lost_while_workers_are_killed(service: Service, store_url: str) -> None:
    """Four callers save without pause, workers die under them; what was acknowledged is all there, once."""
    acknowledged: list[dict[str, Any]] = []
    stop = threading.Event()

    def keep_saving(number: int) -> None:
        count = 0
        while not stop.is_set():
            try:
                response = put(service, soup(number * 10_000 + count), key=f"hammered-{number}")
            except requests.RequestException:
                time.sleep(0.05)
                continue
            if response.ok:
                acknowledged.append(response.json())
            count += 1

    callers = [threading.Thread(target=keep_saving, args=(number,)) for number in range(4)]
    for caller in callers:
        caller.start()
    for turn in range(1, 5):
        _wait_until(lambda: len(acknowledged) >= 5 * turn)  # noqa: B023  # called before the next turn
        service.kill_workers()
    _wait_until(lambda: len(acknowledged) >= 25)
    stop.set()
    for caller in callers:
        caller.join(60)
    wait_until_ready(service)
    _all_is_there(service, acknowledged)
    if store_url.startswith("sqlite"):
        connection = sqlite3.connect(store_url.removeprefix("sqlite:///"))
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        connection.close()


def _all_is_there(service: Service, acknowledged: list[dict[str, Any]]) -> None:
    """Each acknowledged save is a version; each version has its event and each event its version."""
    kept = [
        each["save_id"]
        for number in range(4)
        for each in get(service, f"hammered-{number}/versions").get("versions", ())
    ]
    assert {each["save_id"] for each in acknowledged} <= set(kept)
    events = requests.get(f"{service.url}/v1/events?limit=1000", timeout=SECONDS).json()["events"]
    saves = [each for each in events if each["kind"] == "recipe.saved"]
    about = [each for each in saves if each["key"].startswith("hammered-")]
    assert sorted(each["save_id"] for each in about) == sorted(kept)
    assert [each["id"] for each in events] == sorted(each["id"] for each in events)


def test_of_saves_at_once_through_two_workers_one_wins(service: Service) -> None:
    for turn in range(3):
        key = f"wanted-{turn}"
        tag = put(service, soup(turn), key=key).headers["ETag"]
        answers = _at_once(service, key, tag, 8)
        won = [each for each in answers if each.status_code == 200]
        assert len(won) == 1
        assert {each.status_code for each in answers if each not in won} == {412}
        assert get(service, key) == won[0].json()
        assert [each["version"] for each in get(service, f"{key}/versions")["versions"]] == [2, 1]


def test_a_save_survives_the_whole_service(service: Service, store_url: str, tmp_path: Path) -> None:
    saved = put(service, soup(77), key="last")
    service.kill()
    with served(store_url, tmp_path / "log", "--workers", "1") as again:
        assert get(again, "last") == saved.json()


def _wait_until(reached: Callable[[], bool]) -> None:
    deadline = time.monotonic() + 60
    while not reached():
        assert time.monotonic() < deadline, "the service does not save"
        time.sleep(0.01)


def _at_once(service: Service, key: str, tag: str, number: int) -> list[requests.Response]:
    answers: list[requests.Response] = []
    start = threading.Barrier(number)

    def save(i: int) -> None:
        start.wait()
        answers.append(put(service, soup(100 + i), key, If_Match=tag))

    threads = [threading.Thread(target=save, args=(i,)) for i in range(number)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(60)
    assert len(answers) == number
    return answers
