"""Common clients send far too much: each must read that it was, and why."""

from __future__ import annotations

import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
import requests

from ..serving import Service, needs, served

MEBIBYTE = 1024 * 1024


@pytest.fixture(scope="module")
def service(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Service]:
    folder = tmp_path_factory.mktemp("large")
    with served(f"sqlite:///{folder / 'store.db'}", folder / "log") as service:
        yield service


@pytest.fixture(scope="module")
def large(tmp_path_factory: pytest.TempPathFactory) -> Callable[[int], Path]:
    def make(mebibytes: int) -> Path:
        file = tmp_path_factory.mktemp("body") / "body.json"
        file.write_bytes(b" " * (mebibytes * MEBIBYTE))
        return file

    return make


def by_curl(url: str, body: Path, *how: str) -> str:
    needs("curl")
    command = ["curl", "-sS", "-w", " %{http_code}", url, "-H", "Content-Type: application/json", *how]
    return subprocess.run(command, capture_output=True, text=True, check=True, timeout=60).stdout


def curl(url: str, body: Path) -> str:
    return by_curl(url, body, "--data-binary", f"@{body}")


def curl_chunked(url: str, body: Path) -> str:
    return by_curl(url, body, "-H", "Transfer-Encoding: chunked", "--data-binary", f"@{body}")


def curl_without_waiting(url: str, body: Path) -> str:
    return by_curl(url, body, "-H", "Expect:", "--data-binary", f"@{body}")


def python(url: str, body: Path) -> str:
    headers = {"Content-Type": "application/json"}
    answer = requests.post(url, data=body.read_bytes(), headers=headers, timeout=60)
    return f"{answer.text} {answer.status_code}"


def node(url: str, body: Path) -> str:
    script = (
        "const [url, file] = process.argv.slice(1);"
        "const body = require('fs').readFileSync(file);"
        "const headers = {'Content-Type': 'application/json'};"
        "fetch(url, {method: 'POST', body, headers})"
        ".then(async a => console.log(await a.text(), a.status))"
    )
    needs("node")
    command = ["node", "-e", script, url, str(body)]
    return subprocess.run(command, capture_output=True, text=True, check=True, timeout=60).stdout


@pytest.mark.parametrize("mebibytes", [2, 10, 100])
@pytest.mark.parametrize("client", [curl, curl_chunked, curl_without_waiting, python, node])
def test_every_client_reads_why_its_body_is_refused(
    service: Service, large: Callable[[int], Path], client: Callable[[str, Path], str], mebibytes: int
) -> None:
    answer = client(f"{service.url}/v1/calculations", large(mebibytes))
    assert "split the request" in answer
    assert answer.split()[-1] == "413"
