"""Long requests of many lines: spread over processes, answered as one process would, compressed or not."""

from __future__ import annotations

import gzip
import io
import json
import os
import signal
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import zstandard
from flask.testing import FlaskClient
from saltledger.app import create_app
from saltledger.commands.verify import _today
from saltledger.config import Settings
from saltledger.http.line_streams import EXTENSION, MEDIA_TYPE
from saltledger.store.database import Database
from saltledger.store.verifying import verify
from werkzeug.test import TestResponse

from .kept import SOUP
from .problems import problem

LINES = 150


@pytest.fixture(scope="module")
def url(tmp_path_factory: pytest.TempPathFactory) -> str:
    return f"sqlite:///{tmp_path_factory.mktemp('pool') / 'store.sqlite3'}"


@pytest.fixture(scope="module")
def cms(url: str) -> Iterator[FlaskClient]:
    app = create_app(Settings(database_url=url, batch_processes=2))
    yield app.test_client()
    app.extensions[EXTENSION].let_go(0.0)
    app.extensions["saltledger-store"].close()


def recipe(number: int) -> dict[str, Any]:
    return {**SOUP, "title": f"soup {number}", "servings": 2 + number % 5}


def keyed(prefix: str, count: int = LINES) -> list[bytes]:
    lines = [json.dumps({"key": f"{prefix}-{n}", "recipe": recipe(n)}).encode() for n in range(count)]
    lines[9] = b"{"
    return lines


def send(cms: FlaskClient, path: str, lines: list[bytes], **headers: str) -> TestResponse:
    return cms.post(path, data=b"\n".join(lines), content_type=MEDIA_TYPE, headers=headers)


def answers(data: bytes) -> list[dict[str, Any]]:
    return [json.loads(line) for line in data.splitlines()]


def test_a_long_batch_is_answered_as_single_requests_are(cms: FlaskClient) -> None:
    lines = keyed("dish")
    found = answers(send(cms, "/v1/batches", lines).data)
    assert cms.application.extensions[EXTENSION]._pool is not None
    assert [each.get("key") for each in found] == [None if n == 9 else f"dish-{n}" for n in range(LINES)]
    assert (found[9]["status"], found[9]["line"]) == (400, 10)
    for n in (0, 40, LINES - 1):
        alone = cms.post("/v1/calculations", json=recipe(n)).get_json()
        assert {**found[n], "key": None} == {**alone, "key": None}


def test_a_line_that_names_a_saved_recipe_is_answered_too(cms: FlaskClient) -> None:
    cms.put("/v1/recipes/quay-stock", json=SOUP)
    tray = {"title": "Tray", "servings": 2, "ingredients": [{"recipe": "quay-stock", "servings": 2}]}
    lines = [json.dumps(recipe(n)).encode() for n in range(80)]
    lines[50] = lines[1] = json.dumps(tray).encode()
    found = answers(send(cms, "/v1/batches", lines).data)
    assert found[1]["title"] == "Tray"
    assert [each["title"] for each in found[49:52]] == ["soup 49", "Tray", "soup 51"]
    assert found[50]["recipes"][0]["key"] == "quay-stock"


def test_long_saves_stand_on_record_as_single_ones_do(cms: FlaskClient, url: str) -> None:
    lines = keyed("kept")
    found = answers(send(cms, "/v1/recipes", lines).data)
    assert [each["line"] for each in found] == list(range(1, LINES + 1))
    assert {each.get("saved") for each in found} == {"new", None}
    again = answers(send(cms, "/v1/recipes", lines).data)
    assert {each.get("saved") for each in again} == {"unchanged", None}
    cms.put("/v1/recipes/alone", json=recipe(3))
    one, other = (cms.get(f"/v1/recipes/{key}").get_json() for key in ("kept-3", "alone"))
    for name in ("recipe", "calculation", "overrules", "cause", "saved_by", "version"):
        assert one[name] == other[name]
    database = Database(url)
    with database.read() as connection:
        checked = verify(connection, _today(database, connection), frozenset({"kept-3", "kept-140"}))
    database.close()
    assert (checked.altered, checked.differs, checked.recalculated) == ([], [], 2)


def test_keys_that_come_again_while_they_are_in_hand_make_versions_in_order(cms: FlaskClient) -> None:
    lines = [json.dumps({"key": f"turn-{n % 70}", "recipe": recipe(n)}).encode() for n in range(2 * 70)]
    found = answers(send(cms, "/v1/recipes", lines).data)
    assert [each["version"] for each in found] == [1] * 70 + [2] * 70


def test_an_overrule_that_reaches_further_holds_in_many_saves_too(cms: FlaskClient) -> None:
    document = {**SOUP, "ingredients": ["300 g quayroot", "5 g salt"]}
    first = cms.put("/v1/recipes/reach", json=document).get_json()
    asked = {
        "pointer": "/ingredients/0",
        "field": "grams",
        "value": 123,
        "reason": "weighed",
        "reach": "line",
    }
    body = {"reviewer": "Ines Ware", "overrules": [asked]}
    known = {"If-Match": f'"{first["save_id"]}"'}
    kept = cms.post("/v1/recipes/reach/overrules", json=body, headers=known)
    assert kept.status_code < 300, kept.text
    document = {**SOUP, "title": "other", "ingredients": ["300 g quayroot", "6 g salt"]}
    lines = [
        json.dumps({"key": f"wide-{n}", "recipe": {**document, "servings": 1 + n}}).encode()
        for n in range(40)
    ]
    send(cms, "/v1/recipes", lines)
    cms.put("/v1/recipes/wide-alone", json={**document, "servings": 1})
    one, other = (cms.get(f"/v1/recipes/{key}").get_json() for key in ("wide-0", "wide-alone"))
    assert other["overrules"]
    assert one["overrules"] == other["overrules"]
    assert one["calculation"] == other["calculation"]


def test_a_process_that_dies_loses_no_line(cms: FlaskClient) -> None:
    send(cms, "/v1/batches", keyed("before"))
    pool = cms.application.extensions[EXTENSION]._pool
    os.kill(next(iter(pool._processes)), signal.SIGKILL)
    found = answers(send(cms, "/v1/batches", keyed("after")).data)
    assert [each.get("key") for each in found] == [None if n == 9 else f"after-{n}" for n in range(LINES)]


def test_processes_are_let_go_and_come_back(cms: FlaskClient) -> None:
    found = cms.application.extensions[EXTENSION]
    send(cms, "/v1/batches", keyed("one"))
    found.let_go(1000.0)
    assert found._pool is not None
    found.let_go(0.0)
    assert found._pool is None
    assert len(answers(send(cms, "/v1/batches", keyed("two")).data)) == LINES


@pytest.mark.parametrize("how", ["gzip", "zstd"])
def test_both_ways_may_be_compressed(cms: FlaskClient, how: str) -> None:
    lines = [json.dumps(recipe(n)).encode() for n in range(5)]
    body = b"\n".join(lines)
    packed = gzip.compress(body) if how == "gzip" else zstandard.compress(body)
    response = send(cms, "/v1/batches", [packed], **{"Content-Encoding": how, "Accept-Encoding": how})
    assert response.headers["Content-Encoding"] == how
    assert "Accept-Encoding" in response.headers["Vary"]
    if how == "gzip":
        unpacked = gzip.decompress(response.data)
    else:
        unpacked = zstandard.ZstdDecompressor().stream_reader(io.BytesIO(response.data)).read()
    assert unpacked == send(cms, "/v1/batches", lines).data


def test_an_encoding_that_is_not_known_is_refused(cms: FlaskClient) -> None:
    response = send(cms, "/v1/batches", [b"x"], **{"Content-Encoding": "br"})
    assert "wanted zstd or gzip" in problem(response, 415)["detail"]


def test_a_compressed_body_that_breaks_off_is_said_where_it_does(cms: FlaskClient) -> None:
    lines = [json.dumps(recipe(n)).encode() for n in range(5)]
    body = gzip.compress(b"\n".join(lines) + b"\n") + gzip.compress(b"x" * 5000)[:-6]
    found = answers(send(cms, "/v1/batches", [body], **{"Content-Encoding": "gzip"}).data)
    assert [each.get("title") for each in found[:5]] == [f"soup {n}" for n in range(5)]
    assert (found[-1]["status"], "whole copy" in found[-1]["detail"]) == (400, True)


def test_what_unpacks_to_too_much_is_cut_off(tmp_path: Path) -> None:
    app = create_app(Settings(database_url=f"sqlite:///{tmp_path}/s.sqlite3", batch_bytes=50_000))
    body = gzip.compress(b" " * 10_000_000)
    found = answers(send(app.test_client(), "/v1/batches", [body], **{"Content-Encoding": "gzip"}).data)
    assert found[-1]["status"] == 413


def test_pages_are_compressed_for_those_who_accept_it(cms: FlaskClient) -> None:
    plain = cms.get("/review")
    packed = cms.get("/review", headers={"Accept-Encoding": "gzip, deflate, br"})
    assert packed.headers["Content-Encoding"] == "gzip"
    assert "Content-Encoding" not in plain.headers
    assert "Accept-Encoding" in plain.headers["Vary"]
    assert len(packed.data) < len(plain.data) / 2
    assert b"Recipes to review" in gzip.decompress(packed.data)
