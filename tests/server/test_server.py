"""Serving with gunicorn: a real process, spoken to over a socket."""

from __future__ import annotations

import json
import re
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
import requests
from saltledger.config import Settings
from saltledger.http.examples import SHORT
from saltledger.server import OpenDoor, run
from saltledger.store import keys
from saltledger.store.database import Database

from ..serving import served


@pytest.fixture(scope="module")
def log(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("server") / "log"


@pytest.fixture(scope="module")
def url(log: Path) -> Iterator[str]:
    with served(f"sqlite:///{log.parent / 'store.db'}", log) as service:
        yield service.url
    assert service.process.returncode == 0


def test_it_answers(url: str) -> None:
    answer = requests.post(f"{url}/v1/calculations", json=SHORT, timeout=30)
    assert answer.status_code == 200
    assert answer.json()["title"] == SHORT["title"]


def test_a_body_too_large_gets_its_problem_and_not_a_broken_connection(url: str) -> None:
    answer = requests.post(
        f"{url}/v1/calculations",
        data=b'{"title":"' + b"x" * 10_000_000 + b'"}',
        headers={"Content-Type": "application/json"},
        timeout=30,
    )
    assert answer.status_code == 413
    assert answer.headers["Content-Type"] == "application/problem+json"


def test_a_long_batch_does_not_stand_still(url: str) -> None:
    """This client sends all before it reads; the answers are larger than any buffer between."""
    lines = [json.dumps({**SHORT, "title": f"dish {i}"}) for i in range(600)]
    answer = requests.post(
        f"{url}/v1/batches",
        data="\n".join(lines).encode(),
        headers={"Content-Type": "application/x-ndjson"},
        timeout=120,
    )
    assert answer.status_code == 200
    assert len(answer.content) > 2_000_000
    titles = [json.loads(line)["title"] for line in answer.content.splitlines()]
    assert titles == [f"dish {i}" for i in range(600)]


def test_a_batch_of_unstated_length_is_read(url: str) -> None:
    def pieces() -> Iterator[bytes]:
        for _ in range(3):
            yield json.dumps(SHORT).encode()
            yield b"\n"

    headers = {"Content-Type": "application/x-ndjson"}
    answer = requests.post(f"{url}/v1/batches", data=pieces(), headers=headers, timeout=30)
    assert len(answer.content.splitlines()) == 3


def test_figures_are_of_all_workers_together(url: str) -> None:
    wanted = re.compile(
        r'^saltledger_requests_total{method="GET",route="/v1/foods",status="422"} (\S+)$', re.M
    )
    for _ in range(20):
        requests.get(f"{url}/v1/foods", timeout=30)
    counts = {float(wanted.search(requests.get(f"{url}/metrics", timeout=30).text)[1]) for _ in range(6)}  # type: ignore[index]
    assert counts == {20.0}


def test_the_log_says_what_was_asked_and_nothing_of_bodies_or_queries(url: str, log: Path) -> None:
    requests.get(f"{url}/v1/foods?query=secretword", timeout=30)
    requests.post(f"{url}/v1/lines", json={"lines": ["1 tsp secretword"]}, timeout=30)
    deadline = time.monotonic() + 10
    while b"/v1/lines" not in log.read_bytes() and time.monotonic() < deadline:
        time.sleep(0.05)
    text = log.read_text(encoding="utf-8")
    told = [json.loads(line) for line in text.splitlines()]
    assert ("GET", "/v1/foods", 200) in {
        (line.get("method"), line.get("route"), line.get("status")) for line in told
    }
    assert "secretword" not in text


@pytest.mark.parametrize("host", ["0.0.0.0", "::", "192.0.2.7", "example.org"])
def test_it_does_not_listen_beyond_this_machine_unasked(host: str, tmp_path: Path) -> None:
    settings = Settings(database_url=f"sqlite:///{tmp_path / 'store.db'}")
    with pytest.raises(OpenDoor, match="can be reached from other machines"):
        run(settings, host=host)


def test_with_a_key_it_listens_where_it_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    settings = Settings(database_url=f"sqlite:///{tmp_path / 'store.db'}")
    database = Database(settings.database_url)
    with database.write() as connection:
        keys.create(connection, "newsroom", ["calculate"])
    database.close()
    listening: list[str] = []
    monkeypatch.setattr(
        "saltledger.server._Server.run", lambda server: listening.append(server.settings.host)
    )
    run(settings, host="0.0.0.0")
    run(Settings(database_url=f"sqlite:///{tmp_path / 'other.db'}"), host="0.0.0.0", access="open")
    assert listening == ["0.0.0.0", "0.0.0.0"]


def test_the_keeper_holds_no_connection_to_the_store(tmp_path: Path) -> None:
    with served(f"sqlite:///{tmp_path / 'store.db'}", tmp_path / "log") as service:
        held = [link.readlink() for link in Path(f"/proc/{service.process.pid}/fd").iterdir()]
        counted = requests.get(f"{service.url}/metrics", timeout=30).text
    assert not [file for file in held if file.name.startswith("store.db")]
    # What it did before there were workers, it did for no caller.
    assert 'route="/v1/calculations"' not in counted


def test_what_brings_a_store_up_to_date_is_in_no_worker(tmp_path: Path) -> None:
    script = (
        "import sys\n"
        "from saltledger import server\n"
        "from saltledger.config import Settings\n"
        f"settings = Settings(database_url='sqlite:///{tmp_path / 'store.db'}')\n"
        "server._Server.run = lambda self: self.load()\n"
        "for _ in range(2): server.run(settings)\n"
        "print(*sys.modules)\n"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    loaded = set(done.stdout.split())
    assert {"sqlalchemy", "saltledger.app"} <= loaded
    assert loaded.isdisjoint({"alembic", "mako", "numpy.random", "urllib3"})
    Database(f"sqlite:///{tmp_path / 'store.db'}").check()
