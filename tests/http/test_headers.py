"""Headers that every response carries."""

from __future__ import annotations

import pytest
from flask.testing import FlaskClient
from saltledger.http.headers import ALWAYS, _here


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


def test_a_redirect_names_a_path_of_ours(client: FlaskClient) -> None:
    response = client.get("/v1//foods?query=salt", base_url="http://elsewhere.example")
    assert response.status_code == 308
    assert response.location == "/v1/foods?query=salt"


@pytest.mark.parametrize("location", ["http://elsewhere.example/x", "//elsewhere.example/x", "/\\/x"])
def test_no_redirect_leaves_this_host(location: str) -> None:
    assert _here(location) == "/x"


@pytest.mark.parametrize(("scheme", "said"), [("http", False), ("https", True)])
def test_https_is_kept_where_it_was_used(client: FlaskClient, scheme: str, said: bool) -> None:
    response = client.get("/health/live", base_url=f"{scheme}://localhost")
    assert ("Strict-Transport-Security" in response.headers) is said
