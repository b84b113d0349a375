"""Headers that every response carries."""

from __future__ import annotations

import pytest
from flask.testing import FlaskClient
from saltledger.http.headers import ALWAYS


@pytest.mark.parametrize(
    "path", ["/docs", "/health/live", "/nothing", "/static/docs.css", "/metrics", "/v1/foods"]
)
def test_every_response_is_guarded(client: FlaskClient, path: str) -> None:
    with client.get(path) as response:
        assert {name: response.headers[name] for name in ALWAYS} == ALWAYS
        policy = response.headers["Content-Security-Policy"]
    assert "unsafe-inline" not in policy
    assert "://" not in policy


def test_answers_to_a_post_are_not_kept(client: FlaskClient) -> None:
    response = client.post("/v1/lines", json={"lines": ["1 tsp salt"]})
    assert response.headers["Cache-Control"] == "no-store"
