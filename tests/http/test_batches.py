"""Batches: an answer for each line, in order, whatever the lines hold."""

from __future__ import annotations

import io
import json
from collections.abc import Iterator
from typing import Any

from flask.testing import FlaskClient
from saltledger.app import create_app
from saltledger.batch.answers import answer_each
from saltledger.config import Settings
from saltledger.core.documents import json_line
from saltledger.http.examples import SHORT
from werkzeug.test import TestResponse

from .problems import problem

GOOD = json.dumps(SHORT).encode()


def send(client: FlaskClient, body: bytes, **options: Any) -> TestResponse:
    return client.post("/v1/batches", data=body, content_type="application/x-ndjson", **options)


def documents(response: TestResponse) -> list[dict[str, Any]]:
    assert response.status_code == 200
    assert response.mimetype == "application/x-ndjson"
    return [json.loads(line) for line in response.data.splitlines()]


def test_each_line_has_its_answer_in_order(client: FlaskClient) -> None:
    lines = [{**SHORT, "title": f"dish {i}"} for i in range(20)]
    body = b"".join(json.dumps(line).encode() + b"\n" for line in lines)
    assert [answer["title"] for answer in documents(send(client, body))] == [line["title"] for line in lines]


def test_a_batch_answers_as_a_single_request_does(client: FlaskClient) -> None:
    alone = client.post("/v1/calculations", json=SHORT)
    assert send(client, GOOD).data == alone.data


def test_a_bad_line_gives_its_problem_and_the_rest_go_on(client: FlaskClient) -> None:
    body = b"\n".join((GOOD, b"", b"{", b'{"servings":0,"ingredients":["salt"]}', b"\xff", GOOD))
    answers = documents(send(client, body))
    assert [answer.get("status") for answer in answers] == [None, 400, 400, 422, 400, None]
    assert [answer.get("line") for answer in answers] == [None, 2, 3, 4, 5, None]
    assert answers[3]["errors"][0]["pointer"] == "/servings"


def test_carriage_returns_do_no_harm(client: FlaskClient) -> None:
    assert len(documents(send(client, GOOD + b"\r\n" + GOOD + b"\r\n"))) == 2


def test_an_unforeseen_error_stays_with_its_line() -> None:
    def fail(document: dict[str, Any]) -> dict[str, Any]:
        if document["title"] == "bad":
            raise RuntimeError("secret")
        return {"id": "x"}

    bad = json.dumps({**SHORT, "title": "bad"}).encode()
    first, second = answer_each([bad, GOOD], fail)
    assert (first["status"], first["line"]) == (500, 1)
    assert "secret" not in json.dumps(first)
    assert second == {"id": "x"}


def test_a_line_too_long_is_refused_and_the_rest_go_on() -> None:
    client = create_app(Settings(body_bytes=1024)).test_client()
    long = json.dumps({**SHORT, "title": "x" * 5_000}).encode()
    answers = documents(send(client, b"\n".join((long, GOOD, long))))
    assert [answer.get("status") for answer in answers] == [413, None, 413]


def test_a_body_too_large_is_refused_whole() -> None:
    client = create_app(Settings(batch_bytes=2048)).test_client()
    assert "2,048 bytes" in problem(send(client, GOOD * 30), 413)["detail"]


def test_a_body_of_unstated_length_that_is_too_long_says_so_at_its_end() -> None:
    client = create_app(Settings(batch_bytes=2048)).test_client()
    body = io.BytesIO((GOOD + b"\n") * 30)
    chunked = {"wsgi.input_terminated": True, "HTTP_TRANSFER_ENCODING": "chunked"}
    response = client.post(
        "/v1/batches", input_stream=body, content_type="application/x-ndjson", environ_overrides=chunked
    )
    answers = documents(response)
    assert len(answers) == 2048 // (len(GOOD) + 1) + 1
    assert {answer.get("status") for answer in answers[:-1]} == {None}
    assert answers[-1]["status"] == 413


def test_an_empty_batch_has_no_answers(client: FlaskClient) -> None:
    assert documents(send(client, b"")) == []


def test_another_media_type_is_refused(client: FlaskClient) -> None:
    response = client.post("/v1/batches", data=GOOD, content_type="application/json")
    assert "application/x-ndjson" in problem(response, 415)["detail"]


def test_answers_come_before_the_last_line_is_read() -> None:
    taken = []

    def lines() -> Iterator[bytes]:
        for number in range(3):
            taken.append(number)
            yield GOOD

    answers = answer_each(lines())
    assert json_line(next(answers)).endswith(b"}\n")
    assert taken == [0]
