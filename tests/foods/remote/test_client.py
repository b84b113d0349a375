"""The second source as it fails: each fault is told in words or healed, and the key is never seen."""

from __future__ import annotations

import json
import logging
import re
import socket
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer

import pytest
import requests
import responses
from saltledger.foods.remote.client import LARGEST_BYTES, FoodDataCentral, Manners, OutOfReach, open_session

from .shapes import URL, food, search

KEY = "k3y-that-nobody-may-see"
QUICK = Manners(connect=0.5, read=0.5, whole=1.0, tries=3, pause=0.0, longest_pause=0.0, failures=3, rest=60)


@pytest.fixture
def source(tmp_path) -> Iterator[FoodDataCentral]:
    made = FoodDataCentral(open_session(str(tmp_path / "foods.sqlite"), QUICK), URL, KEY, QUICK)
    yield made
    made.session.close()


@pytest.fixture
def api() -> Iterator[responses.RequestsMock]:
    with responses.RequestsMock(assert_all_requests_are_fired=False) as mock:
        yield mock


def answers(api: responses.RequestsMock, path: str, **answer) -> responses.BaseResponse:
    return api.add(responses.GET, re.compile(re.escape(URL + path) + r"(\?|$)"), **answer)


def both(api: responses.RequestsMock) -> None:
    answers(api, "/foods/search", json=search(2700001))
    answers(api, "/foods", json=[food()])


def test_words_give_foods_in_full(source, api) -> None:
    both(api)
    (found,) = source.find("Dulse Pastes")
    assert (found.code, found.per_100g["NA"]) == ("fdc:2700001", 2500.0)
    asked = api.calls[0].request
    assert "Survey" in asked.url
    assert asked.headers["X-Api-Key"] == KEY
    assert KEY not in asked.url


def test_words_that_name_nothing_are_not_asked_for(source, api) -> None:
    assert source.find("…") == []
    assert len(api.calls) == 0


def test_an_answer_is_kept_and_not_asked_for_again(source, api) -> None:
    both(api)
    assert source.find("dulse paste") == source.find("dulse paste")
    assert len(api.calls) == 2


@pytest.mark.parametrize("status", [429, 500, 503])
def test_a_passing_fault_is_tried_again(source, api, status) -> None:
    answers(api, "/foods/search", status=status, headers={"Retry-After": "0"})
    both(api)
    assert len(source.find("dulse paste")) == 1
    assert len(api.calls) == 3


@pytest.mark.parametrize("status", [403, 404, 429, 500, 301])
def test_a_lasting_fault_is_told_by_its_status(source, api, status) -> None:
    answers(api, "/foods/search", status=status, headers={"Location": "https://elsewhere.example/"})
    with pytest.raises(OutOfReach, match=f"FoodData Central answered {status}"):
        source.find("dulse paste")
    assert {call.request.url.partition("?")[0] for call in api.calls} == {URL + "/foods/search"}


@pytest.mark.parametrize("status", [500, 429])
def test_a_stale_answer_serves_where_the_source_fails(source, api, status, monkeypatch) -> None:
    both(api)
    found = source.find("dulse paste")
    for kept in source.session.cache.responses.values():
        kept.expires = kept.created_at  # it is stale from now on
        source.session.cache.responses[kept.cache_key] = kept
    api.reset()
    answers(api, "/foods/search", status=status)
    answers(api, "/foods", body=requests.ConnectionError())
    assert source.find("dulse paste") == found


@pytest.mark.parametrize(
    "body",
    [
        b"<html>",
        b"",
        b'{"foods": [',
        b"[]",
        b'{"foods": 3}',
        b'{"foods": [{"fdcId": "x"}]}',
        b"\xff\xfe",
        b"NaN",
    ],
)
def test_garbage_is_told_as_such_and_not_kept(source, api, body) -> None:
    answers(api, "/foods/search", body=body, content_type="application/json")
    with pytest.raises(OutOfReach, match="in another form than published"):
        source.find("dulse paste")
    api.reset()
    both(api)
    assert len(source.find("dulse paste")) == 1


def test_a_food_that_cannot_be_used_is_left_out(source, api) -> None:
    answers(api, "/foods/search", json=search(1, 2700001))
    answers(api, "/foods", json=[{"fdcId": 1}, food()])
    assert [each.code for each in source.find("dulse paste")] == ["fdc:2700001"]


def test_a_source_that_keeps_failing_is_left_alone(source, api) -> None:
    answers(api, "/foods/search", body=requests.ConnectionError())
    for words in ("kelp", "dulse", "laver"):
        with pytest.raises(OutOfReach):
            source.find(words)
    asked = len(api.calls)
    with pytest.raises(OutOfReach, match="left alone"):
        source.find("samphire")
    assert len(api.calls) == asked


# What only a real connection can do.


@contextmanager
def serving(answer) -> Iterator[str]:
    class Handler(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            answer(self)

        def log_message(self, *_: object) -> None:
            pass

    server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield f"http://127.0.0.1:{server.server_port}/fdc/v1"
    finally:
        server.shutdown()
        server.server_close()


def begin(handler: BaseHTTPRequestHandler, length: int) -> None:
    handler.send_response(200)
    handler.send_header("Content-Type", "application/json")
    handler.send_header("Content-Length", str(length))
    handler.end_headers()


def drip(handler: BaseHTTPRequestHandler) -> None:
    begin(handler, 10_000)
    for _ in range(100):
        handler.wfile.write(b" ")
        time.sleep(0.05)


def flood(handler: BaseHTTPRequestHandler) -> None:
    begin(handler, 10 * 1024 * 1024)
    piece = b" " * 65536
    for _ in range(160):
        handler.wfile.write(piece)


def cut(handler: BaseHTTPRequestHandler) -> None:
    begin(handler, 10_000)
    handler.wfile.write(b'{"foods": [')


def say_nothing(handler: BaseHTTPRequestHandler) -> None:
    time.sleep(2)


@pytest.mark.parametrize("answer", [drip, flood, cut, say_nothing])
def test_a_slow_endless_or_broken_answer_is_given_up(tmp_path, answer) -> None:
    manners = Manners(connect=0.3, read=0.3, whole=0.5, tries=1)
    with serving(answer) as url:
        session = open_session(str(tmp_path / "foods.sqlite"), manners)
        with session, pytest.raises(OutOfReach, match="could not be asked"):
            FoodDataCentral(session, url, KEY, manners).find("dulse paste")
        assert session.cache.responses == {}
    assert LARGEST_BYTES < 10 * 1024 * 1024


def test_a_host_that_is_not_there_is_given_up(tmp_path) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        url = f"http://127.0.0.1:{taken.getsockname()[1]}"
        with (
            open_session(str(tmp_path / "foods.sqlite"), QUICK) as session,
            pytest.raises(OutOfReach) as fault,
        ):
            FoodDataCentral(session, url, KEY, QUICK).find("dulse paste")
    assert "127.0.0.1" not in str(fault.value)


def test_the_key_stands_in_no_error_log_or_kept_answer(tmp_path, caplog) -> None:
    """Also where the source says it back."""

    def echo(handler: BaseHTTPRequestHandler) -> None:
        text = json.dumps([food()] if "fdcIds" in handler.path else search(2700001)).encode()
        assert handler.headers["X-Api-Key"] == KEY
        begin(handler, len(text))
        handler.wfile.write(text)

    caplog.set_level(logging.DEBUG)
    file = tmp_path / "foods.sqlite"
    with serving(echo) as url, open_session(str(file), QUICK) as session:
        source = FoodDataCentral(session, url, KEY, QUICK)
        assert len(source.find("dulse paste")) == 1
        assert KEY not in repr(source)
    assert KEY not in caplog.text
    assert all(KEY.encode() not in each.read_bytes() for each in tmp_path.iterdir())


def test_answers_are_kept_in_redis_as_well(api, redis_url) -> None:
    both(api)
    for _ in range(2):  # two sessions, as of two workers
        with open_session(redis_url, QUICK) as session:
            assert len(FoodDataCentral(session, URL, KEY, QUICK).find("dulse paste")) == 1
    assert len(api.calls) == 2


def test_a_cache_that_is_out_of_reach_is_told_and_not_raised(api) -> None:
    both(api)
    with (
        open_session("redis://127.0.0.1:1/0", QUICK) as session,
        pytest.raises(OutOfReach, match="could not"),
    ):
        FoodDataCentral(session, URL, KEY, QUICK).find("dulse paste")
