"""One line of JSON a request: what is in it, and what never is."""

from __future__ import annotations

import json
import logging
from pathlib import Path

import pytest
from flask import Flask
from flask.testing import FlaskClient
from saltledger.app import create_app
from saltledger.config import Settings
from saltledger.core.logs import REQUESTS, JsonLines
from saltledger.store import keys

from .kept import SOUP, kept_app
from .problems import problem


def lines(caplog: pytest.LogCaptureFixture) -> list[dict[str, object]]:
    return [
        json.loads(JsonLines().format(record)) for record in caplog.records if record.name == REQUESTS.name
    ]


def test_a_request_is_told_by_its_rule_its_key_and_its_size(
    tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    with kept_app("sqlite", tmp_path) as app:
        with app.extensions["saltledger-store"].database.write() as connection:
            _, text = keys.create(connection, "newsroom", ["save"])
        headers = {"Authorization": f"Bearer {text}", "X-Request-ID": "cms-42"}
        with caplog.at_level(logging.INFO, REQUESTS.name):
            response = app.test_client().put("/v1/recipes/secretsoup", json=SOUP, headers=headers)
            response.close()
    assert response.headers["X-Request-ID"] == "cms-42"
    (line,) = lines(caplog)
    assert line["request_id"] == "cms-42"
    assert (line["method"], line["route"], line["status"]) == ("PUT", "/v1/recipes/<string:key>", 201)
    assert (line["key"], line["bytes"], line["level"]) == ("newsroom", len(response.data), "info")
    assert float(str(line["duration_ms"])) > 0
    assert str(line["time"]).endswith("+00:00")
    told = json.dumps(line)
    assert not any(word in told for word in ("secretsoup", "potato", text, text.split("_")[2]))


def test_a_streamed_answer_is_counted_whole(client: FlaskClient, caplog: pytest.LogCaptureFixture) -> None:
    body = (json.dumps({"ingredients": ["1 tsp salt"], "servings": 1}) + "\n") * 3
    with caplog.at_level(logging.INFO, REQUESTS.name):
        response = client.post("/v1/batches", data=body, content_type="application/x-ndjson")
        size = len(response.data)
        response.close()
    (line,) = lines(caplog)
    assert line["bytes"] == size


@pytest.mark.parametrize("given", ["", "a b", "x" * 129, "a\x7fb", "naïve", '"', "<script>"])
def test_an_id_that_is_not_plain_is_not_taken(client: FlaskClient, given: str) -> None:
    response = client.get("/health/live", headers={"X-Request-ID": given})
    assert response.headers["X-Request-ID"].startswith("urn:uuid:")


def test_a_500_goes_by_the_id_of_its_request() -> None:
    app: Flask = create_app(Settings())

    @app.get("/breaks")
    def breaks() -> str:
        raise RuntimeError("potato")

    response = app.test_client().get("/breaks", headers={"X-Request-ID": "cms-43"})
    assert problem(response, 500)["instance"] == "cms-43"


def record(message: str, error: BaseException | None = None) -> logging.LogRecord:
    info = (type(error), error, error.__traceback__) if error else None
    return logging.LogRecord("saltledger", logging.ERROR, "", 0, message, (), info)


def test_a_line_is_one_line_whatever_is_in_it() -> None:
    line = JsonLines().format(record("a\nb\r\x1b[31m\x7f\x85\u2028c"))
    assert line.isascii()
    assert line.isprintable()
    assert json.loads(line)["message"] == "a\nb\r\x1b[31m\x7f\x85\u2028c"


def test_an_error_is_told_by_kind_and_place_and_by_text_only_where_asked(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    try:
        raise ValueError("2 tsp secret spice")
    except ValueError as error:
        told = record("failed", error)
    logger = logging.getLogger("saltledger")
    monkeypatch.setattr(logger, "isEnabledFor", lambda level: level >= logging.INFO)
    line = JsonLines().format(told)
    assert json.loads(line)["error"]["kind"] == "ValueError"
    assert __file__ in line
    assert "secret" not in line
    monkeypatch.setattr(logger, "isEnabledFor", lambda level: True)
    assert "secret" in JsonLines().format(told)
