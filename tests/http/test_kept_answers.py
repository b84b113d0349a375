"""Answers given again: the same bytes to the same request, never where what they rest on has changed."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from unittest.mock import patch

import pytest
from flask import Flask
from saltledger.app import create_app
from saltledger.config import Settings
from saltledger.foods.dataset import bundled
from saltledger.foods.remote.kept import KeptFood
from saltledger.foods.remote.second import KeptFoods, SecondSource
from saltledger.http import kept_answers, known_foods
from saltledger.http.examples import SHORT
from saltledger.http.kept_answers import Kept, OwnShelf
from saltledger.http.routes import calculations
from saltledger.store import keys

CALCULATIONS = "/v1/calculations"


@pytest.fixture
def app(tmp_path: Path) -> Flask:
    return create_app(Settings(database_url=f"sqlite:///{tmp_path}/s.sqlite3"))


@pytest.fixture
def worked_out() -> Iterator[list[Any]]:
    """What was worked out anew, in place of being given again."""
    found: list[Any] = []

    def calculated(document: Any, *args: Any, **kwargs: Any) -> Any:
        found.append(document)
        return real(document, *args, **kwargs)

    real = calculations.calculated
    with patch.object(calculations, "calculated", calculated):
        yield found


def asked(app: Flask, body: Any = SHORT, path: str = CALCULATIONS, **headers: str) -> Any:
    return app.test_client().post(
        path, json=body, headers={k.replace("_", "-"): v for k, v in headers.items()}
    )


def key(app: Flask, kitchen: str | None = None) -> dict[str, str]:
    with app.extensions["saltledger-store"].database.write() as connection:
        _, text = keys.create(connection, "a cook", ["calculate", "save"], kitchen)
    return {"Authorization": f"Bearer {text}"}


def test_an_equal_request_gets_the_same_answer_without_any_work(app: Flask, worked_out: list[Any]) -> None:
    first, again = asked(app), asked(app)
    assert len(worked_out) == 1
    assert (again.data, again.status_code, again.mimetype) == (first.data, 200, "application/json")
    same = {"Content-Type", "Content-Length", "Vary", "Cache-Control", "Content-Security-Policy"}
    assert {name: again.headers[name] for name in same} == {name: first.headers[name] for name in same}
    assert first.headers["X-Request-ID"] != again.headers["X-Request-ID"]


@pytest.mark.parametrize(
    ("path", "headers", "body"),
    [
        (f"{CALCULATIONS}?label=fda", {}, SHORT),
        (CALCULATIONS, {"Accept": "text/csv"}, SHORT),
        (CALCULATIONS, {"Accept": "application/ld+json"}, SHORT),
        (CALCULATIONS, {}, {**SHORT, "servings": 5}),
        (CALCULATIONS, {}, {**SHORT, "audience": "pregnancy"}),
    ],
)
def test_whatever_is_asked_otherwise_is_answered_otherwise(
    app: Flask, worked_out: list[Any], path: str, headers: dict[str, str], body: Any
) -> None:
    first = asked(app)
    other = asked(app, body, path, **headers)
    assert other.status_code == 200
    assert len(worked_out) == 2
    assert other.data != first.data
    assert other.data == asked(app, body, path, **headers).data
    assert asked(app).data == first.data
    assert len(worked_out) == 2


def test_what_is_refused_stays_refused(app: Flask) -> None:
    asked(app)
    text = app.test_client().post(CALCULATIONS, json=SHORT, content_type="text/plain")
    assert text.status_code == 415
    for _ in range(2):
        assert asked(app, {**SHORT, "servings": 0}).status_code == 422
        assert asked(app, Accept="image/png").status_code == 406


def test_kitchens_that_measured_differently_share_no_answer(app: Flask, worked_out: list[Any]) -> None:
    ours, theirs = key(app, "Tern Quay"), key(app, "Gull Wharf")
    before = asked(app, **ours).data
    assert asked(app, **theirs).data == before
    measured = {
        "recipe": SHORT,
        "what": "sodium_mg_per_serving",
        "amount": 990,
        "measured_by": "laboratory",
    }
    told = app.test_client().post("/v1/measurements", json=measured, headers=ours)
    assert told.status_code == 201
    after = asked(app, **ours).data
    assert after != before
    assert asked(app, **ours).data == after
    assert asked(app, **theirs).data == before
    gone = app.test_client().delete(f"/v1/measurements/{told.get_json()['id']}", headers=ours)
    assert gone.status_code == 204
    assert asked(app, **ours).data == before


def test_a_caller_who_may_not_come_in_is_given_nothing(app: Flask) -> None:
    ours = key(app)
    assert asked(app, **ours).status_code == 200
    assert asked(app).status_code == 401
    assert asked(app, Authorization="Bearer no-such-key").status_code == 401


def test_a_recipe_that_names_a_saved_one_is_worked_out_each_time(app: Flask, worked_out: list[Any]) -> None:
    client = app.test_client()
    made_of = {"servings": 2, "ingredients": ["500 g potatoes", {"recipe": "quay-soup", "grams": 200}]}
    figures = []
    for salt in ("1 tsp fine salt", "3 tsp fine salt"):
        soup = {**SHORT, "ingredients": ["800 g potatoes", "1 litre water", salt]}
        assert client.put("/v1/recipes/quay-soup", json=soup).status_code in (200, 201)
        figures.append(asked(app, made_of).get_json()["per_serving"]["nutrients"]["NA"]["amount"])
    assert figures[1] > 2 * figures[0]


def kelp(sodium_mg: float) -> KeptFood:
    return KeptFood(
        "fdc:1",
        "Kelp noodles, of the quay",
        "",
        "Foundation",
        "2026-01-01",
        "2026-02-01",
        {"NA": sodium_mg},
        (),
    )


def test_foods_of_the_second_source_count_from_the_moment_they_are_known(app: Flask) -> None:
    recipe = {"servings": 1, "ingredients": ["100 g potatoes", {"food": "fdc:1", "grams": 100}]}
    assert asked(app, recipe).status_code == 422
    found = []
    for sodium_mg in (100.0, 900.0, 100.0):
        table = bundled().with_second(SecondSource(KeptFoods([kelp(sodium_mg)])))
        with patch.object(known_foods, "foods", lambda table=table: table):
            found.append(asked(app, recipe).get_json()["per_serving"]["nutrients"]["NA"]["amount"])
    assert found[1] > found[0] + 700
    assert found[2] == found[0]


def test_an_answer_that_says_where_asking_stands_is_not_kept(app: Flask, worked_out: list[Any]) -> None:
    recipe = {"servings": 1, "ingredients": ["100 g zzyzx qwrt"]}
    asked(app, recipe)
    asked(app, recipe)
    assert len(worked_out) == 1
    said = iter(["waiting", "waiting", "nothing"])
    table = bundled().with_second(SecondSource(unknown=lambda _: next(said)))
    with patch.object(known_foods, "foods", lambda: table):
        told = [asked(app, recipe).get_data(as_text=True) for _ in range(3)]
    assert "is being asked" in told[1]
    assert "has no such food" in told[2]


def test_other_tables_are_other_answers(app: Flask, worked_out: list[Any]) -> None:
    asked(app)
    with patch.object(kept_answers, "tables_sha256", lambda: "of another release"):
        asked(app)
    assert len(worked_out) == 2


def test_what_changes_while_an_answer_is_worked_out_keeps_it_from_being_kept(app: Flask) -> None:
    tables = iter(["before", "after", "before", "before", "before"])
    with patch.object(kept_answers, "tables_sha256", lambda: next(tables)):
        asked(app)
        with patch.object(calculations, "calculated", side_effect=calculations.calculated) as again:
            asked(app)
            assert again.call_count == 1


def test_turned_off_it_keeps_nothing(tmp_path: Path, worked_out: list[Any]) -> None:
    app = create_app(Settings(database_url=f"sqlite:///{tmp_path}/s.sqlite3", answers_bytes=0))
    assert asked(app).data == asked(app).data
    assert len(worked_out) == 2


def test_a_shelf_holds_so_many_bytes_and_lets_go_of_what_was_not_asked_for_longest() -> None:
    def kept(count: int) -> Kept:
        return Kept("text/csv", False, os.urandom(count))  # which nothing packs closer

    shelf, answers = OwnShelf(2600), {name: kept(1000) for name in (b"a", b"b", b"c")}
    for name in (b"a", b"b"):
        shelf.put(name, answers[name])
    assert shelf.get(b"a") == answers[b"a"]
    shelf.put(b"c", answers[b"c"])
    assert [shelf.get(name) is None for name in (b"a", b"b", b"c")] == [False, True, False]
    shelf.put(b"d", kept(2600))
    assert [shelf.get(name) is None for name in (b"a", b"b", b"c", b"d")] == [True] * 4
    for _ in range(3):
        shelf.put(b"e", kept(2000))
    assert shelf.get(b"e")


def test_a_shelf_holds_more_than_its_bytes_of_what_can_be_packed() -> None:
    shelf, answer = OwnShelf(1000), Kept("application/json", True, b'{"NA": 480}' * 1000)
    shelf.put(b"a", answer)
    assert shelf.get(b"a") == answer


@pytest.fixture
def redis_url() -> str:
    url = os.environ.get("TEST_REDIS_URL")
    if not url:
        pytest.skip("TEST_REDIS_URL names no Redis")
    from redis import from_url  # noqa: PLC0415

    from_url(url).flushdb()
    return url


def test_workers_share_what_is_kept_in_redis(tmp_path: Path, redis_url: str, worked_out: list[Any]) -> None:
    settings = Settings(database_url=f"sqlite:///{tmp_path}/s.sqlite3", answers_store=redis_url)
    one, other = create_app(settings), create_app(settings)
    first = asked(one, Accept="text/csv;q=0.9, */*;q=0.1")
    again = asked(other, Accept="text/csv;q=0.9, */*;q=0.1")
    assert len(worked_out) == 1
    assert (again.data, again.mimetype, again.headers["Vary"]) == (first.data, "text/csv", "Accept")
    with patch.object(kept_answers, "_code_sha256", lambda: b"of another release"):
        asked(create_app(settings), Accept="text/csv;q=0.9, */*;q=0.1")
    assert len(worked_out) == 2


def test_a_redis_that_cannot_be_reached_stops_nobody(
    tmp_path: Path, worked_out: list[Any], caplog: pytest.LogCaptureFixture
) -> None:
    settings = Settings(
        database_url=f"sqlite:///{tmp_path}/s.sqlite3", answers_store="redis://127.0.0.1:1/0", answers_bytes=0
    )
    app = create_app(settings)
    assert [asked(app).status_code for _ in range(2)] == [200, 200]
    assert len(worked_out) == 2
    assert sum("answers cannot be kept" in each.message for each in caplog.records) == 1
