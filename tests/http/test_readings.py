"""POST /v1/readings, and recipes in prose wherever a recipe is taken."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from flask.testing import FlaskClient
from saltledger.http.examples import WRITTEN

from .kept import kept_app

LINKED: dict[str, Any] = {
    "@context": "https://schema.org",
    "@graph": [
        {"@type": "WebPage", "name": "page"},
        {
            "@type": ["Recipe"],
            "name": "Harbour chicken",
            "recipeYield": ["6", "6 servings"],
            "recipeIngredient": WRITTEN["ingredients"],
            "recipeInstructions": [
                {
                    "@type": "HowToSection",
                    "name": "All of it",
                    "itemListElement": [{"@type": "HowToStep", "text": text} for text in WRITTEN["method"]],
                }
            ],
            "author": {"@type": "Person", "name": "Tern Quay"},
        },
    ],
}


@pytest.fixture
def keeping(tmp_path: Path) -> Iterator[FlaskClient]:
    with kept_app("sqlite", tmp_path) as app:
        yield app.test_client()


def test_a_reading_is_a_body_for_a_calculation(client: FlaskClient) -> None:
    reading = client.post("/v1/readings", json=WRITTEN).get_json()
    assert [step["kind"] for step in reading["recipe"]["steps"]][:1] == ["brine"]
    by_steps = client.post("/v1/calculations", json=reading["recipe"]).get_json()
    in_prose = client.post("/v1/calculations", json=WRITTEN).get_json()
    read, stated = in_prose["sodium"]["per_serving_mg"], by_steps["sodium"]["per_serving_mg"]
    assert read["likely"] == stated["likely"]
    assert read["low"] < stated["low"] < stated["high"] < read["high"]
    assert in_prose["reading"]["steps"] == reading["steps"]


def test_json_ld_gives_the_same(client: FlaskClient) -> None:
    body = json.dumps(LINKED)
    linked = client.post("/v1/calculations", data=body, content_type="application/ld+json").get_json()
    plain = client.post("/v1/calculations", json=WRITTEN).get_json()
    assert linked["sodium"]["per_serving_mg"] == plain["sodium"]["per_serving_mg"]


def test_questions_come_with_what_hangs_on_them(client: FlaskClient) -> None:
    recipe = {
        "servings": 4,
        "ingredients": ["400 g spaghetti"],
        "method": ["Cook the spaghetti in plenty of salted water for 9 minutes; drain."],
    }
    (question,) = client.post("/v1/readings", json=recipe).get_json()["questions"]
    assert question["swing_mg_per_serving"] > 50
    answers = {question["id"]: "plain"}
    settled = client.post("/v1/calculations", json={**recipe, "answers": answers}).get_json()
    plain = next(c for c in question["choices"] if c["choice"] == "plain")
    assert settled["sodium"]["per_serving_mg"]["likely"] == pytest.approx(plain["sodium_mg_per_serving"])


@pytest.mark.parametrize(
    ("body", "pointer", "words"),
    [
        ({"@type": "Product"}, "/@type", "Product"),
        ({"servings": 2, "ingredients": [], "method": ["x"]}, "/ingredients", "at least 1"),
        ({"servings": "none", "ingredients": ["salt"], "method": ["x"]}, "/servings", "none"),
        ({"servings": 2, "ingredients": ["salt"], "method": ["x"], "steps": []}, "/steps", "no such field"),
    ],
)
def test_faults_are_named(client: FlaskClient, body: Any, pointer: str, words: str) -> None:
    response = client.post("/v1/readings", json=body)
    assert response.status_code == 422
    (fault,) = response.get_json()["errors"]
    assert fault["pointer"] == pointer
    assert words in fault["message"]


def test_an_answer_is_remembered_while_its_sentence_stands(keeping: FlaskClient) -> None:
    recipe = {
        "servings": 4,
        "ingredients": ["400 g spaghetti"],
        "method": ["Cook the spaghetti in plenty of salted water for 9 minutes; drain."],
    }
    first = keeping.put("/v1/recipes/pasta", json=recipe).get_json()
    (question,) = first["calculation"]["reading"]["questions"]
    answers = {question["id"]: "plain"}
    keeping.put("/v1/recipes/pasta", json={**recipe, "answers": answers})
    longer = {**recipe, "method": [*recipe["method"], "Serve hot."]}
    later = keeping.put("/v1/recipes/pasta", json=longer).get_json()
    assert later["recipe"]["answers"] == answers
    assert later["calculation"]["reading"]["questions"][0]["answered"]
    other = {**recipe, "method": ["Cook the spaghetti in a lot of salted water for 8 minutes; drain."]}
    changed = keeping.put("/v1/recipes/pasta", json=other).get_json()
    assert "answers" not in changed["recipe"]
    assert not changed["calculation"]["reading"]["questions"][0]["answered"]


def test_prose_is_taken_wherever_a_recipe_is(client: FlaskClient) -> None:
    target = {"recipe": WRITTEN, "target": {"sodium_mg_per_serving": 400}, "vary": "/servings"}
    assert client.post("/v1/targets", json=target).get_json()["reachable"]
    versions = [{"label": "prose", "recipe": WRITTEN}, {"label": "linked", "recipe": LINKED["@graph"][1]}]
    compared = client.post("/v1/comparisons", json={"versions": versions}).get_json()
    assert compared["differences"][0]["sodium_mg_per_serving"]["likely"] == 0
    body = json.dumps(WRITTEN) + "\n" + json.dumps([LINKED["@graph"][1]])
    answers = client.post("/v1/batches", data=body, content_type="application/x-ndjson").data.splitlines()
    assert all("reading" in json.loads(answer) for answer in answers)


def test_an_answer_about_a_line_is_kept_and_counts(keeping: FlaskClient) -> None:
    recipe = {
        "servings": 4,
        "ingredients": ["800 g diced chicken", "600 g potatoes", "soy sauce"],
        "method": ["Stew it all for an hour."],
    }
    (question,) = keeping.post("/v1/readings", json=recipe).get_json()["questions"]
    assert question["pointer"] == "/components/0/ingredients/2"
    much = question["choices"][-1]
    answers = {question["id"]: much["choice"]}
    wanted = pytest.approx(much["sodium_mg_per_serving"])
    settled = keeping.post("/v1/calculations", json={**recipe, "answers": answers}).get_json()
    assert settled["sodium"]["per_serving_mg"]["likely"] == wanted
    keeping.put("/v1/recipes/stew", json={**recipe, "answers": answers})
    later = keeping.put("/v1/recipes/stew", json={**recipe, "servings": 4.0, "title": "Stew"}).get_json()
    assert later["recipe"]["answers"] == answers
    assert later["calculation"]["sodium"]["per_serving_mg"]["likely"] == wanted
    refused = keeping.post("/v1/calculations", json={**recipe, "answers": {question["id"]: "lots"}})
    assert refused.get_json()["errors"][0]["pointer"] == f"/answers/{question['id']}"
