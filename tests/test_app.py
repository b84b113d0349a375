"""The app: made of settings alone, complete, and light."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from flask.testing import FlaskClient
from saltledger import store
from saltledger.app import create_app
from saltledger.config import BadSetting, Settings


def test_settings_come_from_the_environment_where_none_are_given(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SALTLEDGER_BODY_BYTES", "2048")
    client = create_app().test_client()
    response = client.post("/v1/lines", data=b" " * 3000, content_type="application/json")
    assert response.status_code == 413
    monkeypatch.setenv("SALTLEDGER_BODY_BITES", "2048")
    with pytest.raises(BadSetting, match="did you mean SALTLEDGER_BODY_BYTES"):
        create_app()


def test_two_apps_share_nothing_that_one_counts() -> None:
    first, second = (create_app(Settings()).test_client() for _ in range(2))
    first.get("/health/live")
    assert "/health/live" not in second.get("/metrics").get_data(as_text=True)


def test_it_is_live_and_ready_with_its_dataset(client: FlaskClient) -> None:
    assert client.get("/health/live").get_json() == {"status": "live"}
    ready = client.get("/health/ready").get_json()
    assert ready["foods"] > 8_000
    assert len(ready["dataset"]["sha256"]) == 64


HEAVY = {
    "alembic", "gunicorn", "numpy.random", "pandas", "pint", "psycopg", "requests", "rich", "scipy",
    "sqlalchemy", "urllib3",
}  # fmt: skip
"""What only some commands, some stores or the tests need."""


def test_nothing_heavy_is_loaded_where_nothing_is_saved(tmp_path: Path) -> None:
    """Neither by the app nor by its answers, while there is no store that might hold keys."""
    script = (
        "import sys\n"
        "from saltledger.app import create_app\n"
        "from saltledger.config import Settings\n"
        "from saltledger.http.examples import recipe_example\n"
        "client = create_app(Settings()).test_client()\n"
        "client.get('/health/ready')\n"
        "print(client.post('/v1/calculations', json=recipe_example()).status_code)\n"
        "print(*sys.modules)\n"
    )
    run = subprocess.run(
        [sys.executable, "-c", script],
        capture_output=True,
        text=True,
        check=True,
        env={**os.environ, "XDG_STATE_HOME": str(tmp_path)},
    )
    status, *loaded = run.stdout.split()
    assert status == "200"
    assert HEAVY.isdisjoint(loaded)
    assert not list(tmp_path.iterdir())


def test_the_store_gives_only_the_parts_it_has() -> None:
    assert store.recipes.__name__ == "saltledger.store.recipes"
    with pytest.raises(AttributeError, match="no attribute 'menus'"):
        _ = store.menus
