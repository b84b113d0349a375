"""Problem details: one shape for every error, nothing told of what was not foreseen."""

from __future__ import annotations

import logging

import pytest
from flask import Flask
from flask.testing import FlaskClient
from saltledger.app import create_app
from saltledger.config import Settings
from saltledger.core.errors import Fault, InvalidRequest, NotFound
from saltledger.gate.reading import parse_json
from saltledger.http.problems import problem_of

from .problems import problem


@pytest.fixture
def breaking() -> Flask:
    """An app with a route of its own that breaks."""
    app = create_app(Settings())

    @app.get("/breaks")
    def breaks() -> str:
        raise RuntimeError("the password is hunter2")

    return app


def test_what_was_not_foreseen_is_logged_and_not_told(
    breaking: Flask, caplog: pytest.LogCaptureFixture
) -> None:
    with caplog.at_level(logging.ERROR, "saltledger"):
        response = breaking.test_client().get("/breaks")
    document = problem(response, 500)
    assert "hunter2" not in response.get_data(as_text=True)
    assert "RuntimeError" not in response.get_data(as_text=True)
    (record,) = caplog.records
    assert document["instance"] in record.getMessage()
    assert "hunter2" in caplog.text


def test_an_address_where_nothing_is(client: FlaskClient) -> None:
    assert "/docs" in problem(client.get("/v1/nothing"), 404)["detail"]


def test_a_method_that_is_not_known(client: FlaskClient) -> None:
    response = client.delete("/v1/calculations")
    assert problem(response, 405)["detail"] == "DELETE is not known here; known: OPTIONS, POST."
    assert set(response.headers["Allow"].split(", ")) == {"OPTIONS", "POST"}


def test_a_media_type_that_cannot_be_given(client: FlaskClient) -> None:
    response = client.get("/v1/reference-values", headers={"Accept": "image/png"})
    assert "Accept" in problem(response, 406)["detail"]


@pytest.mark.parametrize(
    ("error", "status", "detail"),
    [
        (InvalidRequest([Fault("/a", "b")]), 422, "The request has a fault."),
        (InvalidRequest([Fault("/a", "b")] * 3), 422, "The request has 3 faults."),
        (NotFound("food", "99999"), 404, "There is no food '99999'."),
    ],
)
def test_errors_of_ours_have_their_status(error: Exception, status: int, detail: str) -> None:
    document = problem_of(error)
    assert (document["status"], document["detail"]) == (status, detail)


def test_malformed_json_is_400() -> None:
    with pytest.raises(InvalidRequest) as refused:
        parse_json(b"{")
    assert problem_of(refused.value)["status"] == 400


@pytest.mark.parametrize(
    ("path", "pointer", "words"),
    [
        ("/v1/foods", "/query", "missing"),
        ("/v1/foods?query=salt&limit=0", "/limit", "from 1 to 100"),
        ("/v1/foods?query=salt&limit=1e2", "/limit", "in digits"),
        ("/v1/foods?query=salt&limit=-1", "/limit", "in digits"),
        ("/v1/foods?query=%20", "/query", "nothing in it"),
        ("/v1/foods?query=" + "x" * 201, "/query", "at most 200"),
        ("/v1/foods?query=salt&lim=5", "/lim", "did you mean limit?"),
        ("/v1/reference-values?audience=martians", "/audience", "no audience"),
    ],
)
def test_a_query_string_is_refused_by_parameter(
    client: FlaskClient, path: str, pointer: str, words: str
) -> None:
    (error,) = problem(client.get(path), 422)["errors"]
    assert error["pointer"] == pointer
    assert words in error["message"]
