"""What overrules would move, over HTTP, here and in the recipes that they reach; and taking them back."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from flask.testing import FlaskClient
from saltledger.http.routes import reviews
from saltledger.store import keys

from ..databases import KINDS
from .kept import SOUP, kept_app, soup
from .problems import faults

WEIGHED = {"pointer": "/ingredients/2", "field": "grams", "value": 3, "reason": "weighed", "reach": "line"}
ASKED = {"reviewer": "Ines Ware, RD", "overrules": [WEIGHED]}


@pytest.fixture(params=KINDS)
def cms(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[FlaskClient]:
    with kept_app(request.param, tmp_path) as app:
        client = app.test_client()
        for number, key in enumerate(("soup", "tea", "pie", "stew")):
            document = soup(f"{number} g table salt", title=key)
            assert client.put(f"/v1/recipes/{key}", json=document).status_code == 201
        client.put("/v1/recipes/plain", json={**SOUP, "ingredients": ["800 g potatoes"]})
        yield client


def preview(cms: FlaskClient, query: str = "", **asked: Any) -> Any:
    response = cms.post(f"/v1/recipes/soup/overrules/preview{query}", json={**ASKED, **asked})
    assert response.status_code == 200, response.text
    return response.json


def overrule(cms: FlaskClient) -> Any:
    etag = cms.get("/v1/recipes/soup").headers["ETag"]
    response = cms.post("/v1/recipes/soup/overrules", json=ASKED, headers={"If-Match": etag})
    assert response.status_code == 201, response.text
    return response.json


def sodium(cms: FlaskClient, key: str) -> float:
    found = cms.get(f"/v1/recipes/{key}").json["calculation"]["sodium"]["per_serving_mg"]["likely"]
    return float(found)


def test_what_is_told_is_what_comes_of_it_and_nothing_is_kept_before(cms: FlaskClient) -> None:
    before = {key: sodium(cms, key) for key in ("soup", "tea", "pie", "stew")}
    told = preview(cms)
    assert {key: sodium(cms, key) for key in before} == before
    assert told["reached"] == 3
    assert [each["key"] for each in told["moves"]] == ["stew", "pie", "tea"]
    overrule(cms)
    assert told["after"]["likely"] == sodium(cms, "soup")
    assert told["before"]["likely"] == before["soup"]
    for each in told["moves"]:
        assert each["before_mg"] == before[each["key"]]
        assert each["after_mg"] == pytest.approx(sodium(cms, each["key"]), rel=1e-9)
        assert each["moved_mg"] == pytest.approx(each["after_mg"] - each["before_mg"])


def test_it_is_told_page_by_page(cms: FlaskClient) -> None:
    first = preview(cms, "?limit=2")
    assert ([each["key"] for each in first["moves"]], first["next"]) == (["stew", "pie"], "pie")
    second = preview(cms, "?limit=2&after=pie")
    assert ([each["key"] for each in second["moves"]], second["next"]) == (["tea"], None)
    assert preview(cms, "?limit=0")["moves"] == []
    refused = cms.post("/v1/recipes/soup/overrules/preview?after=nobody", json=ASKED)
    assert list(faults(refused)) == ["/after"]


def test_a_page_that_takes_long_ends_early_and_can_be_gone_on_from(
    cms: FlaskClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(reviews, "PREVIEW_SECONDS", 0.0)
    told, query = [], ""
    while query is not None:
        page = preview(cms, query)
        told += [each["key"] for each in page["moves"]]
        query = f"?after={page['next']}" if page["next"] else None
    assert told == ["stew", "pie", "tea"]


def test_a_newer_version_and_a_wrong_overrule_are_refused(cms: FlaskClient) -> None:
    path = "/v1/recipes/soup/overrules/preview"
    assert cms.post(path, json=ASKED, headers={"If-Match": '"save_x"'}).status_code == 412
    wrong = {**ASKED, "overrules": [{**WEIGHED, "pointer": "/ingredients/9"}]}
    assert list(faults(cms.post(path, json=wrong))) == ["/overrules/0/pointer"]
    assert cms.post("/v1/recipes/nobody/overrules/preview", json=ASKED).status_code == 404
    assert cms.post(f"{path}?depth=2", json=ASKED).status_code == 422


def test_an_overrule_is_listed_taken_back_everywhere_and_still_listed(cms: FlaskClient) -> None:
    before = {key: sodium(cms, key) for key in ("soup", "tea")}
    made = overrule(cms)
    assert sodium(cms, "tea") < before["tea"]
    (listed,) = cms.get("/v1/recipes/soup/overrules").json["overrules"]
    assert (listed["value"], listed["reach"], listed["withdrawn_at"]) == (3, "line", None)
    path = f"/v1/recipes/soup/overrules/{listed['id']}/withdrawal"
    who = {"reviewer": "Ines Ware, RD"}
    assert cms.post(path, json=who).status_code == 428
    back = cms.post(path, json=who, headers={"If-Match": f'"{made["save_id"]}"'})
    assert back.status_code == 201
    assert {key: sodium(cms, key) for key in before} == pytest.approx(before)
    (listed,) = cms.get("/v1/recipes/soup/overrules").json["overrules"]
    assert listed["withdrawn_at"] is not None
    again = cms.post(path, json=who, headers={"If-Match": back.headers["ETag"]})
    assert again.status_code == 404


def test_it_takes_a_key_that_may_review(cms: FlaskClient) -> None:
    with cms.application.extensions["saltledger-store"].database.write() as connection:
        _, saves = keys.create(connection, "cms", ("calculate", "save"))
        _, reads = keys.create(connection, "desk", ("review",))
    for text, status in ((saves, 403), (reads, 200)):
        head = {"Authorization": f"Bearer {text}"}
        asked = cms.post("/v1/recipes/soup/overrules/preview", json=ASKED, headers=head)
        assert asked.status_code == status
        assert cms.get("/v1/recipes/soup/overrules", headers=head).status_code == status
