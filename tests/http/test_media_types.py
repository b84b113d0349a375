"""Answers on the wire: steady bytes, the media type asked for, entity tags."""

from __future__ import annotations

import json

import pytest
from flask import Flask
from flask.testing import FlaskClient
from saltledger.http import media_types
from saltledger.http.examples import recipe_example
from werkzeug.exceptions import NotAcceptable

BOTH = {"application/json": lambda document: "{}", "text/csv": lambda document: "a,b"}


@pytest.mark.parametrize(
    ("accept", "media_type"),
    [
        (None, "application/json"),
        ("*/*", "application/json"),
        ("application/*", "application/json"),
        ("text/csv", "text/csv"),
        ("text/csv;q=0.4, application/json;q=0.3", "text/csv"),
        ("text/csv;q=0.3, application/json;q=0.4", "application/json"),
        ("text/html,application/xhtml+xml,*/*;q=0.8", "application/json"),
    ],
)
def test_accept_chooses(app: Flask, accept: str | None, media_type: str) -> None:
    headers = {} if accept is None else {"Accept": accept}
    with app.test_request_context(headers=headers):
        response = media_types.respond_as({}, BOTH)
    assert response.mimetype == media_type
    assert "Accept" in response.vary


@pytest.mark.parametrize("accept", ["image/png", "text/csv;q=0, application/json;q=0"])
def test_nothing_that_accept_takes(app: Flask, accept: str) -> None:
    with app.test_request_context(headers={"Accept": accept}), pytest.raises(NotAcceptable):
        media_types.respond_as({}, BOTH)


def test_json_is_utf_8_in_the_order_it_was_made(app: Flask) -> None:
    assert app.json.dumps({"b": "ü🧂", "a": 1}) == '{"b":"ü🧂","a":1}'


def test_equal_requests_get_equal_bytes(client: FlaskClient) -> None:
    recipe = recipe_example()
    first = client.post("/v1/calculations", json=recipe)
    reordered = json.dumps(dict(reversed(recipe.items())), indent=3)
    again = client.post("/v1/calculations", data=reordered, content_type="application/json")
    assert first.status_code == 200
    assert first.data == again.data
    assert first.data.endswith(b"}\n")


def test_8_and_8_0_are_one_request(client: FlaskClient) -> None:
    ids = {
        client.post(
            "/v1/calculations",
            data=b'{"ingredients":["1 tsp salt"],"servings":' + servings + b"}",
            content_type="application/json",
        ).get_json()["id"]
        for servings in (b"8", b"8.0", b"0.8e1")
    }
    assert len(ids) == 1


def test_a_kept_answer_is_not_sent_again(client: FlaskClient) -> None:
    first = client.get("/v1/foods/02047")
    tag = first.headers["ETag"]
    again = client.get("/v1/foods/02047", headers={"If-None-Match": tag})
    assert again.status_code == 304
    assert again.data == b""
    assert again.headers["ETag"] == tag
