"""POST /v1/calculations: the contract's answer, in every form, and the forms tell the same."""

from __future__ import annotations

import csv
import io
from typing import Any

import pytest
from flask.testing import FlaskClient
from saltledger.http.examples import SHORT, recipe_example

from .problems import faults


def calculated(client: FlaskClient, recipe: dict[str, Any], **options: Any) -> Any:
    response = client.post("/v1/calculations", json=recipe, **options)
    assert response.status_code == 200, response.get_data(as_text=True)
    return response


@pytest.fixture
def answer(client: FlaskClient) -> dict[str, Any]:
    document: dict[str, Any] = calculated(client, recipe_example()).get_json()
    return document


def test_salt_that_is_poured_away_is_not_eaten(answer: dict[str, Any]) -> None:
    sodium = answer["sodium"]
    eaten = sodium["per_serving_mg"]
    assert 0 < eaten["low"] < eaten["likely"] < eaten["high"]
    assert eaten["likely"] < sodium["as_listed_per_serving_mg"] / 5
    assert eaten["likely"] == pytest.approx(answer["per_serving"]["nutrients"]["NA"]["amount"])


def test_all_that_is_listed_is_eaten_or_discarded(answer: dict[str, Any]) -> None:
    fates = answer["sodium"]["fates"]
    listed = answer["sodium"]["as_listed_per_serving_mg"] * answer["servings"]
    assert fates["eaten_mg"] + fates["discarded_mg"] == pytest.approx(listed, rel=1e-5)
    assert fates["eaten_mg"] / answer["servings"] == pytest.approx(
        answer["sodium"]["per_serving_mg"]["likely"], rel=1e-5
    )


def test_pointers_of_notices_lead_into_the_request(client: FlaskClient) -> None:
    recipe = {"servings": 1, "components": [{"id": "a", "ingredients": ["1 tsp salt", "zzyzx dust"]}]}
    notices = calculated(client, recipe).get_json()["notices"]
    assert "/components/0/ingredients/1" in {notice["pointer"] for notice in notices}


@pytest.mark.parametrize("label", ["fda", "eu", "uk"])
def test_a_label_is_added_where_it_is_asked_for(client: FlaskClient, label: str) -> None:
    plain = calculated(client, SHORT).get_json()
    with_label = calculated(client, SHORT, query_string={"label": label}).get_json()
    assert "label" not in plain
    assert with_label["label"]["scheme"] == label
    assert {**with_label, "label": None} == {**plain, "label": None}


def test_an_unknown_label_is_refused(client: FlaskClient) -> None:
    response = client.post("/v1/calculations?label=mars", json=SHORT)
    assert faults(response)["/label"].startswith('Found the text "mars", wanted one of fda, eu, uk')


def test_the_spreadsheet_has_a_row_an_ingredient_and_the_same_sodium(
    client: FlaskClient, answer: dict[str, Any]
) -> None:
    response = calculated(client, recipe_example(), headers={"Accept": "text/csv"})
    assert response.content_type == "text/csv; charset=utf-8"
    rows = list(csv.DictReader(io.StringIO(response.get_data(as_text=True))))
    listed = [row["line"] for row in rows if row["row"] == "ingredient"]
    assert listed == [each["line"] for each in answer["ingredients"]]
    (serving,) = (row for row in rows if row["row"] == "eaten_per_serving")
    assert float(serving["NA (mg)"]) == pytest.approx(answer["sodium"]["per_serving_mg"]["likely"], rel=1e-3)


def test_the_spreadsheet_knows_the_callers_own_foods(client: FlaskClient) -> None:
    recipe = {
        "servings": 1,
        "ingredients": [{"food": "house-stock", "grams": 200}],
        "custom_foods": [{"code": "house-stock", "name": "House stock", "per_100g": {"NA": 300}}],
    }
    text = calculated(client, recipe, headers={"Accept": "text/csv"}).get_data(as_text=True)
    (row,) = (row for row in csv.DictReader(io.StringIO(text)) if row["row"] == "ingredient")
    assert float(row["NA (mg)"]) == 600


def test_structured_data_is_a_recipe_with_its_nutrition(client: FlaskClient) -> None:
    response = calculated(client, SHORT, headers={"Accept": "application/ld+json"})
    document = response.get_json(force=True)
    assert document["@type"] == "Recipe"
    assert document["recipeIngredient"] == SHORT["ingredients"]
    assert document["nutrition"]["sodiumContent"].endswith(" mg")


def test_a_fault_that_only_the_reading_finds_points_at_its_place(client: FlaskClient) -> None:
    recipe = {"servings": 1, "components": [{"id": "a", "ingredients": [{"food": "99999", "grams": 1}]}]}
    messages = faults(client.post("/v1/calculations", json=recipe))
    assert "99999" in messages["/components/0/ingredients/0/food"]
