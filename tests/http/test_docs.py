"""The description for people: drawn from the document, whole, with nothing from another host."""

from __future__ import annotations

import re
from html import unescape
from html.parser import HTMLParser

import pytest
from flask.testing import FlaskClient
from jsonschema import validate
from saltledger.http.routes.docs import worded


class Page(HTMLParser):
    def __init__(self, text: str) -> None:
        super().__init__()
        self.ids: list[str] = []
        self.links: list[str] = []
        self.inline: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        named = dict(attrs)
        self.ids += [named["id"]] if named.get("id") else []
        self.links += [value for key in ("href", "src", "action") if (value := named.get(key))]
        self.inline += [tag] if tag in ("style", "script") or "style" in named else []
        self.inline += [key for key in named if key.startswith("on")]


@pytest.fixture
def text(client: FlaskClient) -> str:
    response = client.get("/docs")
    assert response.mimetype == "text/html"
    return response.get_data(as_text=True)


def test_the_root_says_where_to_go(client: FlaskClient) -> None:
    answer = client.get("/")
    assert answer.json["docs"] == "/docs"
    for path in answer.json.values():
        if path.startswith("/") and "v1" not in path:
            assert client.get(path).status_code == 200
    page = client.get("/", headers={"Accept": "text/html"})
    assert 'href="/review"' in page.text


def test_every_endpoint_and_object_is_shown(client: FlaskClient, text: str) -> None:
    document = client.get("/openapi.json").get_json()
    for path, methods in document["paths"].items():
        assert f"<code>{path}</code>" in text
        for operation in methods.values():
            if isinstance(operation, dict):
                assert operation["summary"] in unescape(text)
    for name, schema in document["components"]["schemas"].items():
        assert f'id="object-{name}"' in text
        for field in schema.get("properties", {}):
            assert f"<code>{field}</code>" in text


def test_each_endpoint_has_a_command_to_try(text: str) -> None:
    assert text.count("curl ") == len(re.findall(r'class="operation"', text))


def test_a_command_to_try_has_what_it_needs(text: str) -> None:
    assert "/v1/foods?query=table+salt" in text
    assert "/v1/foods/02047" in text


def test_links_within_the_page_lead_somewhere(text: str) -> None:
    page = Page(text)
    assert len(page.ids) == len(set(page.ids))
    assert {link[1:] for link in page.links if link.startswith("#")} <= set(page.ids)


def test_nothing_comes_from_another_host_or_stands_inline(client: FlaskClient, text: str) -> None:
    page = Page(text)
    assert page.inline == []
    local = [link for link in page.links if not link.startswith(("#", "data:,"))]
    assert all(link.startswith("/") and not link.startswith("//") for link in local)
    for link in local:
        with client.get(link) as response:
            assert response.status_code == 200
    with client.get("/static/docs.css") as style:
        assert b"http" not in style.data


def test_code_is_set_as_code_and_markup_is_not_let_through() -> None:
    assert worded("the `a<b` and <b>") == "the <code>a&lt;b</code> and &lt;b&gt;"


def test_every_endpoint_shows_a_body_and_an_answer(client: FlaskClient, text: str) -> None:
    """But for those whose answers are pages, metrics, or nothing."""
    untold = {"show_metrics", "show_description", "show_docs", "show_method", "take_back_measurement"}
    for methods in client.get("/openapi.json").json["paths"].values():
        for name, operation in methods.items():
            if name == "parameters":
                continue
            told = [
                content["example"]
                for status, answer in operation["responses"].items()
                for content in answer.get("content", {}).values()
                if status.startswith("2") and "example" in content
            ]
            assert bool(told) is (operation["operationId"] not in untold), operation["operationId"]
            bodies = operation.get("requestBody", {}).get("content", {}).values()
            assert all(body["example"] for body in bodies), operation["operationId"]
    assert text.count("Example, cut short") > 30


def test_a_command_names_the_version_that_it_changes(text: str) -> None:
    shown = unescape(text)
    assert shown.count("""-H 'If-Match: "save_""") == 6
    assert "ETag of the version that is changed" in shown


def test_examples_hold_what_the_description_says(client: FlaskClient) -> None:
    """After a change of what answers hold: `saltledger openapi --write`."""
    document = client.get("/openapi.json").json
    for methods in document["paths"].values():
        for operation in (each for name, each in methods.items() if name != "parameters"):
            for answer in operation["responses"].values():
                for content in answer.get("content", {}).values():
                    if isinstance(content.get("example"), dict):
                        validate(
                            content["example"], {**content["schema"], "components": document["components"]}
                        )
