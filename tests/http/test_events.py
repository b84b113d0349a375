"""The feed of events: complete, in order, and patient where it is asked to be."""

from __future__ import annotations

import threading
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from ..databases import KINDS
from .kept import SOUP, kept_app, soup
from .problems import faults


@pytest.fixture(params=KINDS)
def kept(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Flask]:
    with kept_app(request.param, tmp_path, threads=2) as app:
        yield app


def events(client: FlaskClient, query: str = "") -> Any:
    response = client.get(f"/v1/events?{query}")
    assert response.status_code == 200
    assert response.headers["Cache-Control"] == "no-store"
    return response.get_json()


def test_what_happens_to_a_recipe_is_told(kept: Flask) -> None:
    client = kept.test_client()
    assert events(client) == {"events": [], "earliest_id": 0, "latest_id": 0}
    saved = client.put("/v1/recipes/soup", json=SOUP)
    client.put("/v1/recipes/soup", json=SOUP)
    match = {"If-Match": saved.headers["ETag"]}
    verdict = {"verdict": "signed", "name": "Ines Ware, RD", "note": "as weighed"}
    client.post("/v1/recipes/soup/sign-offs", json=verdict, headers=match)
    told = events(client)
    assert [each["kind"] for each in told["events"]] == ["recipe.saved", "recipe.signed"]
    signed = told["events"][1]
    assert (signed["key"], signed["version"], signed["by"], signed["note"]) == (
        "soup",
        1,
        "Ines Ware, RD (this machine, without a key)",
        "as weighed",
    )
    assert signed["save_id"] == saved.get_json()["save_id"]
    assert signed["calculation_id"] == saved.get_json()["calculation"]["id"]
    assert (
        signed["sodium_per_serving_mg"]
        == saved.get_json()["calculation"]["sodium"]["per_serving_mg"]["likely"]
    )
    assert [told["earliest_id"], told["latest_id"]] == [each["id"] for each in told["events"]]
    assert events(client, f"after={told['events'][0]['id']}")["events"] == [signed]
    assert events(client, "limit=1")["events"] == told["events"][:1]
    assert events(client, f"after={signed['id']}")["events"] == []


def test_another_figure_and_one_that_became_incomplete_are_told_by_name(kept: Flask) -> None:
    client = kept.test_client()
    lines = SOUP["ingredients"]
    for title, more in (
        ("a", ()),
        ("b", ()),
        ("b", ("5 g table salt",)),
        ("b", ("1 pinch moonshade",)),
        ("c", ("1 pinch moonshade",)),
    ):
        client.put("/v1/recipes/soup", json={**SOUP, "title": title, "ingredients": [*lines, *more]})
    told = events(client)["events"]
    assert [(each["kind"].removeprefix("recipe."), each["version"]) for each in told] == [
        ("saved", 1),
        ("saved", 2),
        ("saved", 3),
        ("figure_changed", 3),
        ("saved", 4),
        ("figure_changed", 4),
        ("incomplete", 4),
        ("saved", 5),
    ]
    assert told[3]["before_mg"] == told[1]["sodium_per_serving_mg"]
    assert told[3]["sodium_per_serving_mg"] > told[3]["before_mg"]
    only = events(client, "kind=recipe.figure_changed,recipe.incomplete")["events"]
    assert [each["id"] for each in only] == [told[3]["id"], told[5]["id"], told[6]["id"]]


def test_a_caller_who_waits_hears_at_once(kept: Flask) -> None:
    client, heard = kept.test_client(), []
    waiting = threading.Thread(target=lambda: heard.append(events(kept.test_client(), "wait=20")))
    started = time.monotonic()
    waiting.start()
    client.put("/v1/recipes/soup", json=SOUP)
    waiting.join(15)
    assert [each["kind"] for each in heard[0]["events"]] == ["recipe.saved"]
    assert time.monotonic() - started < 15


def test_waiting_ends_in_time(kept: Flask) -> None:
    assert events(kept.test_client(), "wait=1")["events"] == []


def test_those_who_wait_leave_threads_to_others(kept: Flask) -> None:
    """With two threads one may wait; the next is answered at once and asks again."""
    first = threading.Thread(target=lambda: events(kept.test_client(), "wait=20"))
    first.start()
    lock = kept.extensions["saltledger-waiting"]
    while lock.acquire(blocking=False):
        lock.release()
        time.sleep(0.01)
    assert events(kept.test_client(), "wait=20")["events"] == []
    assert first.is_alive()
    kept.test_client().put("/v1/recipes/soup", json=soup("1 carrot"))
    first.join(15)
    assert not first.is_alive()


@pytest.mark.parametrize("query", ["after=-1", "wait=31", "wait=x", "limit=0"])
def test_bad_questions_name_their_parameter(kept: Flask, query: str) -> None:
    response = kept.test_client().get(f"/v1/events?{query}")
    assert list(faults(response)) == ["/" + query.split("=", maxsplit=1)[0]]
