"""The app: made of settings alone, complete, and light."""

from __future__ import annotations

import subprocess
import sys

import pytest
from flask.testing import FlaskClient
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


def test_nothing_heavy_is_imported_before_it_is_needed() -> None:
    script = (
        "import sys\n"
        "from saltledger.app import create_app\n"
        "from saltledger.config import Settings\n"
        "create_app(Settings())\n"
        "print(*sys.modules)\n"
    )
    run = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    heavy = {"scipy.optimize", "pandas", "rich", "gunicorn", "alembic", "psycopg", "requests"}
    assert heavy.isdisjoint(run.stdout.split())
