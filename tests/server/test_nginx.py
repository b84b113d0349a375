"""The nginx example as it stands in service/deploy, run by Debian's nginx before a real service."""

from __future__ import annotations

import json
import os
import shutil
import socket
import subprocess
import time
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from urllib.parse import urlsplit

import pytest
import requests
from saltledger.http.examples import SHORT
from saltledger.store import keys
from saltledger.store.database import Database

from ..serving import free_port, served

EXAMPLE = Path(__file__).parents[2] / "service" / "deploy" / "nginx.conf"
MAIN = """
daemon off; pid {folder}/pid; error_log {folder}/error.log; {user}
events {{}}
http {{
    access_log off;
    client_body_temp_path {folder}/body; proxy_temp_path {folder}/proxy; fastcgi_temp_path {folder}/fastcgi;
    uwsgi_temp_path {folder}/uwsgi; scgi_temp_path {folder}/scgi;
    include {folder}/site.conf;
}}
"""


@pytest.fixture(scope="module")
def key(tmp_path_factory: pytest.TempPathFactory) -> tuple[str, str]:
    """The URL of a store, and a key that it knows."""
    url = f"sqlite:///{tmp_path_factory.mktemp('store') / 'store.db'}"
    database = Database(url)
    with database.write() as connection:
        _, text = keys.create(connection, "newsroom", ["calculate", "save"])
    database.close()
    return url, text


@pytest.fixture(scope="module")
def proxy(key: tuple[str, str], tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    program = shutil.which("nginx", path=f"{os.environ['PATH']}:/usr/sbin")
    if program is None:
        pytest.skip("nginx is not installed")
    folder, port = tmp_path_factory.mktemp("nginx"), free_port()
    with served(key[0], folder / "log", proxies="1") as service:
        site = EXAMPLE.read_text(encoding="utf-8")
        site = site.replace("listen 80;", f"listen 127.0.0.1:{port};")
        site = site.replace("127.0.0.1:8080", urlsplit(service.url).netloc)
        (folder / "site.conf").write_text(site, encoding="utf-8")
        user = "user root;" if os.getuid() == 0 else ""
        (folder / "nginx.conf").write_text(MAIN.format(folder=folder, user=user), encoding="utf-8")
        command = [
            program,
            "-p",
            str(folder),
            "-c",
            str(folder / "nginx.conf"),
            "-e",
            str(folder / "error.log"),
        ]
        process = subprocess.Popen(command)
        try:
            wait_for(port)
            yield f"http://127.0.0.1:{port}"
        finally:
            process.terminate()
            process.wait(20)


def wait_for(port: int) -> None:
    deadline = time.monotonic() + 20
    while time.monotonic() < deadline:
        with closing(socket.socket()) as probe:
            if probe.connect_ex(("127.0.0.1", port)) == 0:
                return
        time.sleep(0.05)
    raise AssertionError("nginx did not start")


def test_with_a_key_it_answers_and_without_it_does_not(proxy: str, key: tuple[str, str]) -> None:
    headers = {"Authorization": f"Bearer {key[1]}"}
    answer = requests.post(f"{proxy}/v1/calculations", json=SHORT, headers=headers, timeout=30)
    assert answer.status_code == 200
    assert requests.post(f"{proxy}/v1/calculations", json=SHORT, timeout=30).status_code == 401


def test_a_batch_goes_through(proxy: str, key: tuple[str, str]) -> None:
    headers = {"Authorization": f"Bearer {key[1]}", "Content-Type": "application/x-ndjson"}
    body = (json.dumps(SHORT) + "\n").encode() * 200
    answer = requests.post(f"{proxy}/v1/batches", data=body, headers=headers, timeout=60)
    assert [json.loads(line)["title"] for line in answer.content.splitlines()] == [SHORT["title"]] * 200


def test_the_login_page_stays_on_its_host(proxy: str) -> None:
    answer = requests.get(f"{proxy}/review", timeout=30, allow_redirects=False)
    assert answer.status_code == 303
    assert answer.headers["Location"].startswith("/review/login")


def test_slow_clients_end_at_the_proxy(proxy: str) -> None:
    where = urlsplit(proxy)
    half = b"POST /v1/calculations HTTP/1.1\r\nHost: localhost\r\nContent-Length: 500\r\n\r\n{"
    opened = [socket.create_connection((where.hostname, where.port)) for _ in range(60)]
    try:
        for sock in opened:
            sock.sendall(half)
        assert requests.get(f"{proxy}/health/ready", timeout=5).status_code == 200
    finally:
        for sock in opened:
            sock.close()
