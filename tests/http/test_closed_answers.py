"""Every field that an answer has is described: schemas that callers may read as open are closed here.

An answer that sends a field nobody described, or leaves one out, fails by its name.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from functools import cache
from typing import Any

import pytest
import yaml
from flask import Flask
from flask.testing import FlaskClient
from jsonschema import Draft202012Validator
from jsonschema.exceptions import ValidationError
from saltledger.config import Settings
from saltledger.evidence.golden import recipes
from saltledger.http import examples
from saltledger.http.description import as_yaml
from werkzeug.test import TestResponse

from .kept import BRINED, SOUP, soup

Look = Callable[..., TestResponse]
UNREAD = {
    "title": "Quay pie",
    "servings": 2,
    "ingredients": ["zzyzx dust", "salt to taste", "500 g potatoes"],
}
WISHES = {
    "dish_class": "soup",
    "audience": "child_4_8",
    "own_limits": [
        {"id": "ward", "sodium_mg": 600, "per": "serving"},
        {"id": "day", "label": "A day", "sodium_mg": 2000, "per": "day"},
    ],
}
"""What else a recipe may ask of its answer."""


def closed(schema: Any) -> Any:
    """A schema, and all within it, whose objects take no property that it does not name."""
    if isinstance(schema, list):
        return [closed(each) for each in schema]
    if not isinstance(schema, dict):
        return schema
    made = {name: closed(each) for name, each in schema.items()}
    if isinstance(made.get("properties"), dict) and not isinstance(made.get("additionalProperties"), dict):
        made["additionalProperties"] = False
    return made


@cache
def description() -> dict[str, Any]:
    made: dict[str, Any] = yaml.safe_load(as_yaml())
    return made


@cache
def components() -> Any:
    return closed(description()["components"])


def undescribed(method: str, path: str, response: TestResponse) -> list[str]:
    """What of a response its description does not know, each with its place."""
    described = description()["paths"][path][method.lower()]["responses"]
    told = described.get(str(response.status_code))
    if told is None:
        return [f"{method} {path}: nobody described {response.status_code}"]
    if response.status_code == 304:
        return []
    schema = told["content"][response.mimetype]["schema"]
    validator = Draft202012Validator({**closed(schema), "components": components()})
    faults = [leaf for error in validator.iter_errors(response.get_json()) for leaf in leaves(error)]
    return sorted({f"{'/'.join(map(str, leaf.absolute_path))}: {leaf.message[:200]}" for leaf in faults})


def leaves(error: ValidationError) -> Iterator[ValidationError]:
    if not error.context:
        yield error
    for each in error.context or ():
        yield from leaves(each)


@pytest.fixture(scope="module")
def app(tmp_path_factory: pytest.TempPathFactory) -> Flask:
    from saltledger.app import create_app  # noqa: PLC0415

    return create_app(Settings(database_url=f"sqlite:///{tmp_path_factory.mktemp('store')}/s.sqlite3"))


@pytest.fixture
def look(app: Flask) -> Look:
    """Ask, hold the answer to its closed description, and give it."""
    client: FlaskClient = app.test_client()

    def asked(method: str, path: str, plain: str = "", **more: Any) -> TestResponse:
        response = client.open(path, method=method, **more)
        assert response.status_code < 400, response.get_data(as_text=True)
        assert undescribed(method, plain or path.partition("?")[0], response) == []
        return response

    return asked


@pytest.mark.parametrize("golden", recipes(), ids=lambda golden: golden.id)
def test_the_answers_to_a_hundred_recipes(look: Look, golden: Any) -> None:
    look("POST", golden.path, json=golden.body)


@pytest.mark.parametrize("query", ["?label=fda", "?label=eu", "?explain=true", "?explain=NA,K&label=fda"])
@pytest.mark.parametrize("body", [examples.recipe_example(), UNREAD, SOUP | WISHES])
def test_answers_with_all_that_can_be_asked_for(look: Look, query: str, body: Any) -> None:
    look("POST", f"/v1/calculations{query}", json=body)


@pytest.mark.parametrize(
    ("path", "body"),
    [
        ("/v1/lines", examples.LINES),
        ("/v1/lines", {"lines": ["zzyzx dust", "2 or 3 onions", "1 cup flour plus 2 tbsp"]}),
        ("/v1/readings", examples.WRITTEN),
        ("/v1/comparisons", examples.COMPARISON),
        ("/v1/targets", examples.TARGET),
        ("/v1/targets", {**examples.TARGET, "target": {"sodium_mg_per_serving": 0}}),
        ("/v1/baths", examples.BATH),
    ],
)
def test_other_answers(look: Look, path: str, body: Any) -> None:
    look("POST", path, json=body)


@pytest.mark.parametrize("code", ["02047", "05006", "SL0001"])
def test_a_food_and_a_search_for_it(look: Look, code: str) -> None:
    look("GET", f"/v1/foods/{code}", "/v1/foods/{code}")
    look("GET", "/v1/foods?query=salt")


def test_reference_values_and_health(look: Look) -> None:
    look("GET", "/v1/reference-values")
    look("GET", "/v1/reference-values?audience=child_1_3")
    look("GET", "/health/live")
    look("GET", "/health/ready")


@pytest.mark.parametrize(
    ("path", "plain"),
    [
        ("/v1/foods/02047", "/v1/foods/{code}"),
        ("/v1/reference-values", ""),
        ("/openapi.json", ""),
        ("/docs", ""),
        ("/method", ""),
    ],
)
def test_what_a_caller_holds_is_not_sent_again_and_that_is_described(
    app: Flask, look: Look, path: str, plain: str
) -> None:
    held = app.test_client().get(path).headers["ETag"]
    assert look("GET", path, plain, headers={"If-None-Match": held}).status_code == 304


def test_the_life_of_a_saved_recipe(look: Look) -> None:
    at, saved = "/v1/recipes/soup", "/v1/recipes/{key}"
    look("PUT", "/v1/recipes/broth-too", saved, json=SOUP)
    look("PUT", at, saved, json=SOUP)
    first = look("PUT", at, saved, json=soup("1 tsp table salt"))
    etag = first.headers["ETag"]
    assert look("GET", at, saved, headers={"If-None-Match": etag}).status_code == 304
    look("GET", f"{at}?label=fda&explain=true", saved)
    look("GET", f"{at}/versions", f"{saved}/versions")
    look("GET", f"{at}/versions/1", f"{saved}/versions/{{number}}")
    look("GET", f"{at}/difference?from=1&to=2", f"{saved}/difference")
    look(
        "POST",
        f"{at}/overrules/preview",
        f"{saved}/overrules/preview",
        json={
            "reviewer": "Ines Ware",
            "overrules": [
                {"pointer": "/ingredients/2", "field": "grams", "value": 3, "reason": "-", "reach": "line"}
            ],
        },
    )
    overruled = look(
        "POST",
        f"{at}/overrules",
        f"{saved}/overrules",
        json=examples.OVERRULES,
        headers={"If-Match": etag},
    )
    look("GET", f"{at}/review", f"{saved}/review")
    held = {"If-Match": overruled.headers["ETag"]}
    look("POST", f"{at}/sign-offs", f"{saved}/sign-offs", json=examples.SIGN_OFF, headers=held)
    look("GET", f"{at}/review", f"{saved}/review")
    listed = look("GET", f"{at}/overrules", f"{saved}/overrules").get_json()["overrules"]
    look(
        "POST",
        f"{at}/overrules/{listed[0]['id']}/withdrawal",
        f"{saved}/overrules/{{number}}/withdrawal",
        json=examples.WITHDRAWAL,
        headers=held,
    )
    look("POST", f"{at}/recalculation", f"{saved}/recalculation", json={})
    look("POST", f"{at}/archive", f"{saved}/archive", json={})
    look("POST", f"{at}/restore", f"{saved}/restore", json={})
    look("POST", f"{at}/rename", f"{saved}/rename", json={"key": "broth"})
    look("GET", "/v1/recipes")
    look("GET", "/v1/events")


def test_measurements(look: Look) -> None:
    sent = {"recipe": BRINED, "what": "sodium_mg_per_100g", "amount": 700, "measured_by": "Dock Lab"}
    look("POST", "/v1/measurements", json=sent)
    look("GET", "/v1/measurements")


def test_a_line_of_a_batch_is_a_calculation_or_a_problem_with_its_line(app: Flask) -> None:
    body = "\n".join(json.dumps(each) for each in (SOUP, {"title": "no servings"}))
    response = app.test_client().post("/v1/batches", data=body, content_type="application/x-ndjson")
    good, bad = map(json.loads, response.get_data(as_text=True).splitlines())
    calculation = description()["paths"]["/v1/calculations"]["post"]["responses"]["200"]["content"]
    schema = closed(calculation["application/json"]["schema"])
    Draft202012Validator({**schema, "components": components()}).validate(good)
    assert set(bad) == {"line", "type", "title", "status", "detail", "errors"}


def test_a_new_field_would_fail_by_its_name(app: Flask) -> None:
    response = app.test_client().post("/v1/calculations", json=SOUP)
    document = response.get_json()
    document["sodium"]["claims"][0]["moon_phase"] = "waxing"
    response.set_data(json.dumps(document))
    (told,) = undescribed("POST", "/v1/calculations", response)
    assert re.match(r"sodium/claims/0: .*'moon_phase' was unexpected", told)
