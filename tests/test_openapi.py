"""The description is true: equal to the file, to the routes, and to real answers."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml
from flask import Flask
from flask.testing import FlaskClient
from jsonschema import Draft202012Validator
from openapi_spec_validator import validate
from saltledger.http import examples
from saltledger.http.description import as_yaml

FILE = Path(__file__).parents[1] / "openapi" / "openapi.yaml"
PAGES = ("/static/", "/review")
"""Addresses for browsers, which are no part of the API."""


@cache
def document() -> dict[str, Any]:
    made: dict[str, Any] = yaml.safe_load(as_yaml())
    return made


def operations() -> Iterator[tuple[str, str, dict[str, Any]]]:
    for path, methods in document()["paths"].items():
        for method, operation in methods.items():
            if method != "parameters":
                yield method, path, operation


def validator(schema: dict[str, Any]) -> Draft202012Validator:
    return Draft202012Validator({**schema, "components": document()["components"]})


def test_the_file_is_what_the_schemas_make() -> None:
    assert FILE.read_text(encoding="utf-8") == as_yaml(), "run `saltledger openapi --write`"


def test_it_is_valid_openapi() -> None:
    validate(document())


def test_every_route_is_described_and_the_reverse(app: Flask) -> None:
    routes = {
        (method.lower(), re.sub(r"<(?:\w+:)?(\w+)>", r"{\1}", rule.rule))
        for rule in app.url_map.iter_rules()
        for method in (rule.methods or set()) - {"HEAD", "OPTIONS"}
        if not rule.rule.startswith(PAGES)
    }
    assert routes == {(method, path) for method, path, _ in operations()}


def test_it_is_served_as_it_stands_in_the_file(client: FlaskClient) -> None:
    assert client.get("/openapi.json").get_json() == document()


def test_every_operation_has_a_name_of_its_own_and_words() -> None:
    names = [operation["operationId"] for _, _, operation in operations()]
    assert len(names) == len(set(names))
    assert all(operation["summary"] for _, _, operation in operations())


def test_every_field_of_a_request_is_explained() -> None:
    schemas = document()["components"]["schemas"]
    for name, schema in schemas.items():
        assert schema["description"], name
        if schema.get("additionalProperties") is False:
            for field, property in schema["properties"].items():
                assert property.get("description") or "$ref" in property, f"{name}.{field}"


@pytest.mark.parametrize(
    ("method", "path", "sent"),
    [
        ("post", "/v1/calculations", examples.recipe_example()),
        ("post", "/v1/calculations", examples.SHORT),
        ("post", "/v1/calculations", {"servings": 2, "ingredients": ["zzyzx dust", "salt to taste"]}),
        ("post", "/v1/lines", examples.LINES),
        ("post", "/v1/baths", examples.BATH),
        (
            "post",
            "/v1/baths",
            {
                **examples.BATH,
                "bath": {"water_g": 3000, "salt_g": 150, "nitrite_g": 0.6},
                "product_class": "immersion_cured",
            },
        ),
        ("post", "/v1/targets", examples.TARGET),
        ("post", "/v1/targets", {**examples.TARGET, "target": {"sodium_mg_per_serving": 0}}),
        ("post", "/v1/comparisons", examples.COMPARISON),
        ("get", "/v1/foods?query=table%20salt", None),
        ("get", "/v1/foods/02047", None),
        ("get", "/v1/reference-values", None),
        ("get", "/health/live", None),
        ("get", "/health/ready", None),
    ],
)
def test_real_answers_are_as_described(client: FlaskClient, method: str, path: str, sent: Any) -> None:
    response = client.open(path, method=method, json=sent)
    assert response.status_code == 200, response.get_data(as_text=True)
    plain = re.sub(r"/v1/foods/\d+", "/v1/foods/{code}", path.split("?", maxsplit=1)[0])
    operation = document()["paths"][plain][method]
    schema = operation["responses"]["200"]["content"]["application/json"]["schema"]
    validator(schema).validate(response.get_json())


@pytest.mark.parametrize(
    ("path", "body"), [("/v1/calculations", b"{"), ("/v1/calculations", b"{}"), ("/v1/none", b"")]
)
def test_real_problems_are_as_described(client: FlaskClient, path: str, body: bytes) -> None:
    response = client.post(path, data=body, content_type="application/json")
    schema = document()["components"]["responses"]["Problem"]["content"]["application/problem+json"]["schema"]
    validator(schema).validate(response.get_json())


def test_examples_in_the_description_fit_their_schemas() -> None:
    seen = 0
    for _, _, operation in operations():
        for content in operation.get("requestBody", {}).get("content", {}).values():
            if "example" in content:
                validator(content["schema"]).validate(content["example"])
                seen += 1
    assert seen >= 5
