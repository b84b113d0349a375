"""`saltledger export` and `saltledger import`, killed in the middle and run again."""

from __future__ import annotations

import gzip
import os
import signal
import sqlite3
import stat
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result
from saltledger.app import create_app
from saltledger.commands.cli import main
from saltledger.config import Settings

from ..http.kept import SOUP, soup


@pytest.fixture
def store(tmp_path: Path) -> str:
    url = f"sqlite:///{tmp_path / 'from.sqlite3'}"
    client = create_app(Settings(database_url=url)).test_client()
    for number in range(5):
        client.put(f"/v1/recipes/soup-{number}", json=soup(f"{number} g salt"))
    return url


def run(url: str, *arguments: Any) -> Result:
    return CliRunner().invoke(main, list(map(str, arguments)), env={"SALTLEDGER_DATABASE_URL": url})


@pytest.mark.parametrize("name", ["archive.ndjson", "archive.ndjson.gz"])
def test_export_and_import(store: str, tmp_path: Path, name: str) -> None:
    file, target = tmp_path / name, f"sqlite:///{tmp_path / 'to.sqlite3'}"
    out = run(store, "export", file)
    assert out.exit_code == 0, out.output
    assert "5 versions" in out.stderr
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    assert [each.name for each in tmp_path.glob(".*")] == []
    brought = run(target, "import", file)
    assert brought.exit_code == 0, brought.output
    assert "5 versions" in brought.stderr
    verified = run(target, "verify")
    assert (verified.exit_code, verified.output.splitlines()[-1]) == (
        0,
        run(store, "verify").output.splitlines()[-1],
    )
    again = run(target, "import", file)
    assert "in an earlier run" in again.stderr


def test_a_bad_file_changes_nothing(store: str, tmp_path: Path) -> None:
    file, target = tmp_path / "archive.ndjson", f"sqlite:///{tmp_path / 'to.sqlite3'}"
    run(store, "export", file)
    file.write_bytes(file.read_bytes()[:-400])
    refused = run(target, "import", file)
    assert refused.exit_code == 1
    assert "whole copy" in refused.output
    assert (
        create_app(Settings(database_url=target)).test_client().put("/v1/recipes/a", json=SOUP).status_code
        == 201
    )
    assert (
        "empty store" in run(target, "import", file).output
        or "whole copy" in run(target, "import", file).output
    )


def test_without_keys_nobody_is_let_in(store: str, tmp_path: Path) -> None:
    run(store, "keys", "create", "--label", "CMS")
    file = tmp_path / "archive.ndjson.gz"
    run(store, "export", "--without-keys", file)
    assert b"secret_hash" not in gzip.decompress(file.read_bytes())


def brought_in(file: Path) -> int:
    """How many rows an import says it has brought in."""
    try:
        with sqlite3.connect(f"file:{file}?mode=ro", uri=True) as connection:
            return int(connection.execute("SELECT max(rows) FROM imports").fetchone()[0])
    except (sqlite3.OperationalError, TypeError):
        return 0


def test_an_import_that_is_killed_goes_on(tmp_path: Path, store: str) -> None:
    file, target = tmp_path / "archive.ndjson", f"sqlite:///{tmp_path / 'to.sqlite3'}"
    run(store, "export", file)
    environment = {**os.environ, "SALTLEDGER_DATABASE_URL": target}
    slow = (
        "import time; from saltledger.store import whole_archive as archive\n"
        "archive.ROWS_AT_ONCE = 3; told = archive._note\n"
        "archive._note = lambda *a, **b: (told(*a, **b), time.sleep(0.3))\n"
        "from saltledger.commands.cli import main; main()"
    )
    with subprocess.Popen([sys.executable, "-c", slow, "import", str(file)], env=environment) as process:
        deadline = time.monotonic() + 60
        while time.monotonic() < deadline and brought_in(tmp_path / "to.sqlite3") < 9:
            time.sleep(0.1)
        process.send_signal(signal.SIGKILL)
    assert "only in part" in run(target, "verify").output
    assert "in an earlier run" in run(target, "import", file).stderr
    assert run(target, "verify").exit_code == 0
    assert run(target, "export", tmp_path / "again.ndjson").exit_code == 0
    rows = [each.read_bytes().splitlines()[1:-1] for each in (file, tmp_path / "again.ndjson")]
    assert sorted(rows[0]) == sorted(rows[1])
