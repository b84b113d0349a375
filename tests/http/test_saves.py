"""Saving over HTTP as a CMS does it: conditions, history, differences, lists, on every database."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient
from saltledger.core.errors import StoreUnavailable

from ..databases import KINDS
from .kept import BRINED, SOUP, kept_app, soup
from .problems import faults, problem


@pytest.fixture(params=KINDS)
def cms(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[FlaskClient]:
    with kept_app(request.param, tmp_path) as app:
        yield app.test_client()


@pytest.fixture
def strict(tmp_path: Path) -> Iterator[FlaskClient]:
    with kept_app("sqlite", tmp_path, if_match="required") as app:
        yield app.test_client()


def put(cms: FlaskClient, document: Any, key: str = "soup", **headers: str) -> Any:
    named = {name.replace("_", "-"): value for name, value in headers.items()}
    return cms.put(f"/v1/recipes/{key}", json=document, headers=named)


def test_a_first_save_is_created_where_it_says(cms: FlaskClient) -> None:
    response = put(cms, SOUP)
    saved = response.get_json()
    assert response.status_code == 201
    assert response.headers["Location"] == "/v1/recipes/soup"
    assert (saved["key"], saved["version"], saved["saved_by"], saved["cause"]) == (
        "soup",
        1,
        "local",
        "saved",
    )
    assert saved["recipe"] == SOUP
    assert saved["calculation"] == cms.post("/v1/calculations", json=SOUP).get_json()
    assert saved["review"] == f"/review/{saved['save_id']}"
    again = cms.get("/v1/recipes/soup")
    assert again.data == response.data
    assert again.headers["ETag"] == response.headers["ETag"] == f'"{saved["save_id"]}"'


def test_the_same_content_gives_the_same_answer(cms: FlaskClient) -> None:
    first = put(cms, SOUP)
    again = put(cms, {**dict(reversed(SOUP.items())), "servings": 4.0})
    assert again.status_code == 200
    assert (again.data, again.headers["ETag"]) == (first.data, first.headers["ETag"])
    assert "Location" not in again.headers


def test_a_kept_copy_is_not_sent_again(cms: FlaskClient) -> None:
    tag = put(cms, SOUP).headers["ETag"]
    fresh = cms.get("/v1/recipes/soup", headers={"If-None-Match": tag})
    assert (fresh.status_code, fresh.data) == (304, b"")
    put(cms, soup("1 bay leaf"))
    assert cms.get("/v1/recipes/soup", headers={"If-None-Match": tag}).status_code == 200


def test_somebody_elses_change_is_not_overwritten(cms: FlaskClient) -> None:
    tag = put(cms, SOUP).headers["ETag"]
    newer = put(cms, soup("1 bay leaf"), If_Match=tag)
    assert newer.status_code == 200
    refused = put(cms, soup("1 carrot"), If_Match=tag)
    assert "Version 2" in problem(refused, 412)["detail"]
    assert refused.headers["ETag"] == newer.headers["ETag"]
    assert put(cms, soup("1 carrot"), If_Match=f'"other", {newer.headers["ETag"]}').status_code == 200
    assert put(cms, soup("2 carrots"), If_Match="*").status_code == 200


def test_a_weak_tag_does_not_match(cms: FlaskClient) -> None:
    tag = put(cms, SOUP).headers["ETag"]
    problem(put(cms, soup("1 carrot"), If_Match=f"W/{tag}"), 412)


def test_a_save_sent_again_is_acknowledged_again(cms: FlaskClient) -> None:
    tag = put(cms, SOUP).headers["ETag"]
    changed = put(cms, soup("1 carrot"), If_Match=tag)
    again = put(cms, soup("1 carrot"), If_Match=tag)
    assert (again.status_code, again.data) == (200, changed.data)


def test_only_where_there_is_none(cms: FlaskClient) -> None:
    assert put(cms, SOUP, If_None_Match="*").status_code == 201
    problem(put(cms, SOUP, If_None_Match="*"), 412)
    problem(put(cms, SOUP, key="stew", If_Match="*"), 412)


def test_a_strict_service_wants_to_know_what_is_changed(strict: FlaskClient) -> None:
    tag = put(strict, SOUP).headers["ETag"]
    assert "If-Match" in problem(put(strict, soup("1 carrot")), 428)["detail"]
    assert put(strict, soup("1 carrot"), If_Match=tag).status_code == 200


def test_bad_recipes_are_not_saved(cms: FlaskClient) -> None:
    assert list(faults(put(cms, {**SOUP, "servings": 0}))) == ["/servings"]
    problem(put(cms, {**BRINED, "components": BRINED["components"][:1]}), 422)
    problem(cms.put("/v1/recipes/soup", data=b"{", content_type="application/json"), 400)
    problem(cms.get("/v1/recipes/soup"), 404)


@pytest.mark.parametrize("key", ["%00", "%20", "a%0ab", "x" * 201])
def test_keys_that_cannot_be_kept(cms: FlaskClient, key: str) -> None:
    assert "printable" in faults(put(cms, SOUP, key=key))[""]
    problem(cms.get(f"/v1/recipes/{key}"), 404)
    problem(cms.get(f"/v1/recipes/{key}/versions"), 404)
    problem(cms.get(f"/v1/recipes/{key}/review"), 404)


@pytest.mark.parametrize("key", ["2024-05:soup", "Suppe%20für%20vier", "%F0%9F%A7%82", "a.b@c~d"])
def test_keys_are_the_callers_own(cms: FlaskClient, key: str) -> None:
    saved = put(cms, SOUP, key=key)
    assert saved.status_code == 201
    assert cms.get(saved.headers["Location"]).data == saved.data


def test_every_version_is_kept(cms: FlaskClient) -> None:
    first = put(cms, SOUP)
    put(cms, soup("1 carrot"))
    versions = cms.get("/v1/recipes/soup/versions").get_json()["versions"]
    assert [(each["version"], each["title"], each["status"]) for each in versions] == [
        (2, "Tern Quay potato soup", "open"),
        (1, "Tern Quay potato soup", "open"),
    ]
    newest = cms.get("/v1/recipes/soup/versions?limit=1").get_json()
    older = cms.get(f"/v1/recipes/soup/versions?before={newest['next']}").get_json()
    assert ([*newest["versions"], *older["versions"]], older["next"]) == (versions, None)
    assert cms.get("/v1/recipes/soup/versions?before=1").get_json() == {"versions": [], "next": None}
    kept = cms.get("/v1/recipes/soup/versions/1")
    assert (kept.data, kept.headers["ETag"]) == (first.data, first.headers["ETag"])
    for path in (
        "soup/versions/3",
        "soup/versions/0",
        "stew/versions",
        "stew/versions/1",
        f"soup/versions/{10**20}",
    ):
        problem(cms.get(f"/v1/recipes/{path}"), 404)


def test_which_line_moved_the_sodium(cms: FlaskClient) -> None:
    put(cms, SOUP)
    put(cms, {**SOUP, "ingredients": ["800 g potatoes", "1 litre water", "1 tsp table salt", "100 g olives"]})
    put(cms, {**SOUP, "ingredients": ["800 g potatoes", "1 litre water", "1 tsp table salt"], "servings": 8})
    newest = cms.get("/v1/recipes/soup/difference").get_json()
    assert (newest["from"], newest["to"]) == (2, 3)
    found = cms.get("/v1/recipes/soup/difference?from=1&to=2").get_json()
    by_line = {each["after"]: each for each in found["lines"]}
    assert by_line["1 tsp table salt"]["change"] == "changed"
    assert by_line["1 tsp table salt"]["before"] == "2 tsp table salt"
    assert by_line["1 tsp table salt"]["moved_mg"] < -400
    assert by_line["100 g olives"]["change"] == "added"
    assert by_line["800 g potatoes"]["change"] == "same"
    for each in (newest, found):
        parts = sum(line["moved_mg"] for line in each["lines"])
        parts += each["steps_moved_mg"] + each["servings_moved_mg"]
        assert parts == pytest.approx(each["moved_mg"], abs=0.01)
        assert each["after_mg"] - each["before_mg"] == pytest.approx(each["moved_mg"], abs=0.01)
    problem(cms.get("/v1/recipes/soup/difference?from=9"), 404)
    problem(cms.get("/v1/recipes/stew/difference"), 404)
    assert list(faults(cms.get("/v1/recipes/soup/difference?from=x"))) == ["/from"]


def test_a_first_version_has_nothing_to_differ_from(cms: FlaskClient) -> None:
    put(cms, SOUP)
    problem(cms.get("/v1/recipes/soup/difference"), 404)


def test_a_longer_brine_is_told_apart_from_the_lines(cms: FlaskClient) -> None:
    put(cms, BRINED)
    longer = {**BRINED, "steps": [{**BRINED["steps"][0], "duration_h": 24}]}
    put(cms, longer)
    found = cms.get("/v1/recipes/soup/difference").get_json()
    assert found["moved_mg"] > 50
    assert found["steps_changed"] == [0]
    assert abs(sum(each["moved_mg"] for each in found["lines"])) < 0.05 * found["moved_mg"]


def test_lists_by_what_is_needed_and_by_sodium(cms: FlaskClient) -> None:
    tags = {}
    for key, salt in {"a": 1, "b": 4, "c": 2}.items():
        tags[key] = put(cms, soup(f"{salt} tsp table salt"), key=key).headers["ETag"]
    verdict = {"verdict": "sent_back", "name": "Ines Ware", "note": "weigh the salt"}
    cms.post("/v1/recipes/c/sign-offs", json=verdict, headers={"If-Match": tags["c"]})
    assert _keys(cms, "") == ["a", "b", "c"]
    assert _keys(cms, "needs=review") == ["a", "b"]
    assert _keys(cms, "needs=correction") == ["c"]
    assert _keys(cms, "order=sodium") == ["b", "c", "a"]
    sodium = {each["key"]: each["sodium_per_serving_mg"] for each in _list(cms, "")["recipes"]}
    assert _keys(cms, f"above_mg={sodium['a']:.3f}&order=sodium") == ["b", "c"]
    assert _list(cms, "needs=review&above_mg=900000") == {"recipes": [], "next": None}


@pytest.mark.parametrize("order", ["key", "sodium"])
def test_pages_follow_each_other_without_gap_or_double(cms: FlaskClient, order: str) -> None:
    for i in range(7):
        put(cms, soup(f"{i % 3} tsp table salt"), key=f"dish-{i}")
    seen: list[str] = []
    after = ""
    while True:
        page = _list(cms, f"limit=3&order={order}{after}")
        seen += [each["key"] for each in page["recipes"]]
        if page["next"] is None:
            break
        after = f"&after={page['next']}"
    assert seen == _keys(cms, f"order={order}")
    assert len(seen) == 7


@pytest.mark.parametrize(
    "query",
    [
        "needs=everything",
        "above_mg=-1",
        "above_mg=nan",
        "above_mg=1e3",
        "limit=0",
        "after=x",
        "after=%00",
        "x=1",
    ],
)
def test_bad_questions_name_their_parameter(cms: FlaskClient, query: str) -> None:
    assert list(faults(cms.get(f"/v1/recipes?{query}"))) == ["/" + query.split("=", maxsplit=1)[0]]


def test_a_store_that_is_away_is_told_apart_from_a_fault(app: Flask, monkeypatch: pytest.MonkeyPatch) -> None:
    def away(*_: Any) -> Any:
        raise StoreUnavailable("database is locked")

    monkeypatch.setattr("saltledger.store.database.Database.read", away)
    response = app.test_client().put("/v1/recipes/soup", json=SOUP)
    assert "Nothing was saved" in problem(response, 503)["detail"]
    assert response.headers["Retry-After"]


def _list(cms: FlaskClient, query: str) -> Any:
    response = cms.get(f"/v1/recipes?{query}")
    assert response.status_code == 200, response.get_data(as_text=True)
    return response.get_json()


def _keys(cms: FlaskClient, query: str) -> list[str]:
    return [each["key"] for each in _list(cms, query)["recipes"]]


def test_a_save_may_ask_for_another_version_than_it_knows(cms: FlaskClient) -> None:
    tag = cms.put("/v1/recipes/soup", json=SOUP).headers["ETag"]
    for known in (tag, f'"x", {tag}', f"W/{tag}", "*"):
        response = cms.put("/v1/recipes/soup", json=soup("1 onion"), headers={"If-None-Match": known})
        problem(response, 412)
    other = cms.put("/v1/recipes/soup", json=soup("1 onion"), headers={"If-None-Match": '"x"'})
    assert other.status_code == 200
