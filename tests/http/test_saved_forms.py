"""Saved versions as a spreadsheet, as structured data, as a panel and with a label, as calculations are."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from flask.testing import FlaskClient
from saltledger.store.packing import packed, unpacked

from .kept import BRINED, SOUP, kept_app, soup
from .problems import faults, problem


@pytest.fixture
def cms(tmp_path: Path) -> Iterator[FlaskClient]:
    with kept_app("sqlite", tmp_path) as app:
        yield app.test_client()


@pytest.mark.parametrize("accept", ["text/csv", "application/ld+json", "text/html"])
@pytest.mark.parametrize("query", ["", "?label=fda", "?label=eu"])
def test_a_saved_version_has_the_forms_of_a_calculation(cms: FlaskClient, accept: str, query: str) -> None:
    cms.put("/v1/recipes/legs", json=BRINED)
    wanted = cms.post(f"/v1/calculations{query}", json=BRINED, headers={"Accept": accept})
    for path in ("legs", "legs/versions/1"):
        found = cms.get(f"/v1/recipes/{path}{query}", headers={"Accept": accept})
        assert (found.status_code, found.mimetype) == (200, accept)
        assert found.data == wanted.data
        assert "Accept" in found.headers["Vary"]


def test_a_label_and_explanations_are_added_to_what_is_kept(cms: FlaskClient) -> None:
    cms.put("/v1/recipes/soup", json=SOUP)
    plain = cms.get("/v1/recipes/soup").json["calculation"]
    found = cms.get("/v1/recipes/soup?label=fda&explain=NA").json["calculation"]
    assert found.pop("label")
    assert found.pop("explanation")
    assert found == plain
    assert list(faults(cms.get("/v1/recipes/soup?label=moon"))) == ["/label"]


def test_an_older_version_is_shown_with_its_overrules(cms: FlaskClient) -> None:
    tag = cms.put("/v1/recipes/soup", json=SOUP).headers["ETag"]
    asked = {"pointer": "/ingredients/2", "field": "grams", "value": 6, "reason": "weighed"}
    cms.post(
        "/v1/recipes/soup/overrules",
        json={"reviewer": "Ines Ware", "overrules": [asked]},
        headers={"If-Match": tag},
    )
    cms.put("/v1/recipes/soup", json=soup("1 bay leaf"))
    label = [cms.get(f"/v1/recipes/soup/versions/{n}?label=fda").json["calculation"]["label"] for n in (1, 2)]
    assert label[0] != label[1]


def test_what_today_s_data_cannot_tell_is_refused(cms: FlaskClient, tmp_path: Path) -> None:
    cms.put("/v1/recipes/soup", json=SOUP)
    with sqlite3.connect(tmp_path / "store.sqlite3") as connection:
        ((kept,),) = connection.execute("select answer from versions")
        connection.execute("update versions set answer = ?", (packed({**unpacked(kept), "id": "c0"}),))
    assert list(faults(cms.get("/v1/recipes/soup?label=fda"))) == ["/label"]
    assert cms.get("/v1/recipes/soup", headers={"Accept": "text/csv"}).status_code == 200


def test_no_other_form_is_given(cms: FlaskClient) -> None:
    cms.put("/v1/recipes/soup", json=SOUP)
    problem(cms.get("/v1/recipes/soup", headers={"Accept": "image/png"}), 406)


def _requests(client: FlaskClient) -> Iterator[tuple[str, str, dict[str, Any]]]:
    for path, methods in client.get("/openapi.json").json["paths"].items():
        for method, operation in methods.items():
            if method != "parameters":
                content = operation.get("requestBody", {}).get("content", {})
                sent = {}
                for media_type, told in content.items():
                    example = told["example"]
                    text = example if isinstance(example, str) else json.dumps(example)
                    sent = {"data": text, "content_type": media_type}
                number = path.replace("{number}", "1")
                yield method, number.replace("{key}", "soup").replace("{code}", "02047"), sent


def test_unknown_query_parameters_are_refused_everywhere_alike(client: FlaskClient) -> None:
    for method, path, sent in _requests(client):
        query = "?frobnicate=1" + ("&query=salt" if path == "/v1/foods" else "")
        found = faults(client.open(path + query, method=method.upper(), **sent))
        assert "There is no such field here" in found["/frobnicate"], (method, path)
