"""Deleting, putting away, bringing back and renaming over HTTP; lists that choose and search."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

import pytest
from flask.testing import FlaskClient
from saltledger.app import create_app
from saltledger.config import Settings

from ..databases import KINDS, database_url
from .problems import faults

SOUP: dict[str, Any] = {"title": "Quay soup", "servings": 4, "ingredients": ["1 l water", "6 g table salt"]}
PIE = {"title": "Harbour pie", "servings": 4, "ingredients": ["1 kg potatoes", "salt to taste"]}


@pytest.fixture(params=KINDS)
def client(request: pytest.FixtureRequest, tmp_path) -> Iterator[FlaskClient]:
    with database_url(request.param, tmp_path) as url:
        app = create_app(Settings(database_url=url))
        yield app.test_client()
        app.extensions["saltledger-store"].close()


def keys(client: FlaskClient, query: str = "") -> list[str]:
    answer = client.get(f"/v1/recipes?{query}")
    assert answer.status_code == 200, answer.text
    return [each["key"] for each in answer.json["recipes"]]


def test_delete_and_use_the_key_again(client: FlaskClient) -> None:
    etag = client.put("/v1/recipes/soup", json=SOUP).headers["ETag"]
    assert client.delete("/v1/recipes/soup", headers={"If-Match": '"save_other"'}).status_code == 412
    gone = client.delete("/v1/recipes/soup", headers={"If-Match": etag})
    assert (gone.status_code, gone.json["state"]) == (200, "deleted")
    assert client.get("/v1/recipes/soup").status_code == 404
    assert client.delete("/v1/recipes/soup").status_code == 404
    assert len(client.get("/v1/recipes/soup/versions").json["versions"]) == 1
    again = client.put("/v1/recipes/soup", json=SOUP, headers={"If-None-Match": "*"})
    assert (again.status_code, again.json["version"]) == (201, 2)


def test_archive_restore_and_rename(client: FlaskClient) -> None:
    client.put("/v1/recipes/soup", json=SOUP)
    assert client.post("/v1/recipes/soup/archive").json["state"] == "archived"
    assert keys(client) == []
    assert client.get("/v1/recipes/soup").status_code == 200
    assert client.post("/v1/recipes/soup/restore").json["state"] == "active"
    assert client.post("/v1/recipes/soup/rename", json={"key": "broth"}).json["key"] == "broth"
    assert keys(client) == ["broth"]
    refused = client.post("/v1/recipes/broth/rename", json={"key": "\x07"})
    assert (refused.status_code, refused.json["errors"][0]["pointer"]) == (422, "/key")
    kinds = [each["kind"] for each in client.get("/v1/events").json["events"]]
    assert kinds == ["recipe.saved", "recipe.archived", "recipe.restored", "recipe.renamed"]


def test_lists_choose_search_and_order(client: FlaskClient) -> None:
    client.put("/v1/recipes/soup", json=SOUP)
    client.put("/v1/recipes/pie", json=PIE)
    assert keys(client, "complete=false") == ["pie"]
    assert keys(client, "complete=true") == ["soup"]
    assert keys(client, "search=HARBOUR potatoes") == ["pie"]
    assert keys(client, "search=soup potatoes") == []
    assert keys(client, "search=%25") == []
    assert keys(client, "order=urgency") == ["pie", "soup"]
    assert keys(client, "order=changed") == ["pie", "soup"]
    saved = client.get("/v1/recipes/pie").json["created_at"]
    assert keys(client, f"changed_since={saved}") == ["pie"]
    assert keys(client, "status=signed") == []
    assert keys(client, "stops=true") == []


@pytest.mark.parametrize("order", ["key", "sodium", "urgency", "changed"])
def test_pages_go_on_where_the_last_one_ended(client: FlaskClient, order: str) -> None:
    for number in range(5):
        soup = {**SOUP, "ingredients": ["1 l water", f"{6 + number % 2} g table salt"]}
        client.put(f"/v1/recipes/soup-{number}", json=soup)
    whole = keys(client, f"order={order}")
    paged: list[str] = []
    after = ""
    while True:
        page = client.get(f"/v1/recipes?order={order}&limit=2{after}").json
        paged += [each["key"] for each in page["recipes"]]
        if page["next"] is None:
            break
        after = f"&after={page['next']}"
    assert paged == whole
    assert len(whole) == 5


@pytest.mark.parametrize(
    ("query", "pointer"),
    [
        ("complete=maybe", "/complete"),
        ("changed_since=yesterday", "/changed_since"),
        ("changed_since=2026-11-25T08:00:00", "/changed_since"),
        ("state=lost", "/state"),
        ("after=abc", "/after"),
        ("colour=red", "/colour"),
        ("limit=1&limit=2", "/limit"),
    ],
)
def test_what_a_list_cannot_be_asked_is_refused(client: FlaskClient, query: str, pointer: str) -> None:
    answer = client.get(f"/v1/recipes?{query}")
    assert answer.status_code == 422
    assert answer.json["errors"][0]["pointer"] == pointer


def test_a_cursor_of_another_order_is_refused(client: FlaskClient) -> None:
    for number in range(2):
        client.put(f"/v1/recipes/soup-{number}", json=SOUP)
    cursor = client.get("/v1/recipes?limit=1&order=sodium").json["next"]
    assert client.get(f"/v1/recipes?order=urgency&after={cursor}").status_code == 422


@pytest.mark.parametrize("key", ["a/b", ".", "..", " "])
def test_a_key_that_no_address_could_lead_to_is_refused_by_every_way(client: FlaskClient, key: str) -> None:
    client.put("/v1/recipes/soup", json=SOUP)
    assert list(faults(client.post("/v1/recipes/soup/rename", json={"key": key}))) == ["/key"]
    line = json.dumps({"key": key, "recipe": SOUP})
    answer = client.post("/v1/recipes", data=line, content_type="application/x-ndjson").text
    assert json.loads(answer)["errors"][0]["pointer"] == "/key"
