from __future__ import annotations

from typing import Any

import pytest
from flask import Flask
from saltledger.app import create_app
from saltledger.config import Settings
from saltledger.store import keys

from .problems import problem


@pytest.fixture
def app(tmp_path: Any) -> Flask:
    return create_app(Settings(database_url=f"sqlite:///{tmp_path}/s.sqlite3", rate_per_minute=3))


def asked(app: Flask, times: int, **how: Any) -> list[Any]:
    return [app.test_client().get("/v1/reference-values", **how) for _ in range(times)]


def test_who_asks_too_often_is_told_when_to_come_again(app: Flask) -> None:
    *fine, refused = asked(app, 4)
    assert [each.status_code for each in fine] == [200, 200, 200]
    found = problem(refused, 429)
    assert "More than 3 requests in a minute" in found["detail"]
    assert 1 <= int(refused.headers["Retry-After"]) <= 120


def test_each_key_is_counted_for_itself(app: Flask) -> None:
    headers = []
    for label in ("west", "east"):
        with app.extensions["saltledger-store"].database.write() as connection:
            _, text = keys.create(connection, label, ["calculate"])
        headers.append({"Authorization": f"Bearer {text}"})
    assert [each.status_code for each in asked(app, 4, headers=headers[0])] == [200, 200, 200, 429]
    assert asked(app, 1, headers=headers[1])[0].status_code == 200


def test_health_is_answered_however_often(app: Flask) -> None:
    client = app.test_client()
    assert {client.get("/health/live").status_code for _ in range(9)} == {200}


def test_without_a_limit_nobody_is_counted() -> None:
    assert {each.status_code for each in asked(create_app(Settings()), 9)} == {200}


def test_a_counter_that_cannot_be_reached_lets_everybody_through() -> None:
    app = create_app(Settings(rate_per_minute=1, rate_store="redis://127.0.0.1:1/0"))
    assert {each.status_code for each in asked(app, 3)} == {200}
