"""Bodies of unstated length: refused where they are too long or broken, and otherwise like any other."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pytest
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from .kept import SOUP, kept_app
from .problems import problem

LIMIT = 4096


def send(
    client: FlaskClient, body: io.BytesIO, path: str = "/v1/recipes/soup", method: str = "PUT"
) -> TestResponse:
    chunked = {"wsgi.input_terminated": True, "HTTP_TRANSFER_ENCODING": "chunked"}
    return client.open(
        path,
        method=method,
        input_stream=body,
        content_type="application/json",
        environ_overrides=chunked,
    )


def padded(size: int) -> io.BytesIO:
    return io.BytesIO(json.dumps(SOUP).encode().ljust(size))


@pytest.mark.parametrize(("size", "status"), [(0, 201), (LIMIT, 201), (LIMIT + 1, 413), (9 * LIMIT, 413)])
def test_a_body_over_the_limit_is_refused_and_its_beginning_not_kept(
    tmp_path: Path, size: int, status: int
) -> None:
    with kept_app("sqlite", tmp_path, body_bytes=LIMIT) as app:
        client = app.test_client()
        response = send(client, padded(size))
        assert response.status_code == status
        if status == 413:
            assert "4,096 bytes" in problem(response, 413)["detail"]
            problem(client.get("/v1/recipes/soup"), 404)


def test_a_form_over_the_limit_is_refused_too(tmp_path: Path) -> None:
    with kept_app("sqlite", tmp_path, body_bytes=LIMIT) as app:
        form = io.BytesIO(b"login=ines&password=" + b"x" * LIMIT)
        assert send(app.test_client(), form, "/review/login", "POST").status_code == 413


class Broken(io.BytesIO):
    """What a server's input does where the chunks are malformed."""

    def read(self, size: int | None = -1) -> bytes:
        raise RuntimeError("Invalid chunk size: b'ZZ'")


def test_a_body_that_breaks_off_is_the_senders_fault(client: FlaskClient) -> None:
    response = send(client, Broken(), "/v1/calculations", "POST")
    assert "chunks" in problem(response, 400)["detail"]
