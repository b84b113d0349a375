from __future__ import annotations

import json
import socket

import pytest
from saltledger.app import create_app
from saltledger.batch.answers import answer_each
from saltledger.config import Settings
from saltledger.core.checkpoint import CallerGone
from saltledger.http import watch
from saltledger.http.line_streams import MEDIA_TYPE
from saltledger.http.watch import RequestWatch, TookTooLong, has_gone

from ..adversary.greedy import recipe
from .kept import BRINED, SOUP
from .problems import problem


def client_with(**settings):
    return create_app(Settings(**settings)).test_client()


@pytest.mark.parametrize("limit", ["deadline_seconds", "cpu_seconds"])
@pytest.mark.parametrize("path", ["/v1/calculations", "/v1/targets", "/v1/comparisons"])
def test_work_over_its_time_is_stopped_with_what_to_do(limit, path):
    bodies = {
        "/v1/calculations": BRINED,
        "/v1/targets": {"recipe": BRINED, "target": {"sodium_mg_per_serving": 300}, "vary": "/servings"},
        "/v1/comparisons": {"versions": [{"label": "a", "recipe": BRINED}, {"label": "b", "recipe": SOUP}]},
    }
    response = client_with(**{limit: 1e-9}).post(path, json=bodies[path])
    found = problem(response, 503)
    assert "ask for less" in found["detail"]
    assert response.headers["Retry-After"] == "2"


def test_what_costs_too_much_is_refused_before_it_begins():
    response = client_with(cpu_seconds=1e-9).post("/v1/calculations", json=recipe("soak", 49, 50, 50))
    (fault,) = problem(response, 422)["errors"]
    assert fault["pointer"] == "/steps"
    assert "of 51 waters" in fault["message"]


def test_the_limit_is_a_setting():
    client = client_with(work_ms=2)
    (fault,) = problem(client.post("/v1/calculations", json=BRINED), 422)["errors"]
    assert "times the work that one request may" in fault["message"]
    assert client_with().post("/v1/calculations", json=BRINED).status_code == 200


def test_a_line_of_a_batch_that_costs_too_much_does_not_end_the_stream(client):
    lines = [json.dumps(each).encode() for each in (SOUP, recipe("soak", 49, 50, 50), SOUP)]
    response = client.post("/v1/batches", data=b"\n".join(lines), content_type=MEDIA_TYPE)
    first, second, third = map(json.loads, response.data.splitlines())
    assert (second["status"], second["line"]) == (422, 2)
    assert first["id"] == third["id"]


def test_a_batch_ends_when_nobody_reads_on():
    asked = []

    def gone(recipe):
        asked.append(recipe)
        raise CallerGone

    lines = [json.dumps(SOUP).encode()] * 3
    with pytest.raises(CallerGone):
        list(answer_each(lines, gone))
    assert len(asked) == 1


def test_a_closed_connection_is_noticed_and_an_open_one_left_alone(monkeypatch):
    monkeypatch.setattr(watch, "LOOK_EVERY_SECONDS", -1.0)
    ours, theirs = socket.socketpair()
    look = RequestWatch(Settings(), ours)
    theirs.sendall(b"GET / HTTP/1.1\r\n")
    look()
    theirs.close()
    with pytest.raises(CallerGone):
        RequestWatch(Settings(), ours)()
    ours.close()
    assert has_gone(ours)


def test_without_a_socket_only_time_is_watched():
    RequestWatch(Settings())()
    with pytest.raises(TookTooLong):
        RequestWatch(Settings(deadline_seconds=-1.0))()
