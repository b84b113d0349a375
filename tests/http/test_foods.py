"""GET /v1/foods: search and show."""

from __future__ import annotations

import pytest
from flask.testing import FlaskClient

from .problems import problem


def test_a_search_gives_code_name_and_group_best_first(client: FlaskClient) -> None:
    hits = client.get("/v1/foods", query_string={"query": "salt, table"}).get_json()["foods"]
    assert hits[0] == {"code": "02047", "name": "Salt, table", "group": "Spices and Herbs"}


def test_the_limit_is_kept(client: FlaskClient) -> None:
    found = client.get("/v1/foods", query_string={"query": "beef", "limit": 3}).get_json()["foods"]
    assert len(found) == 3


@pytest.mark.parametrize("query", ["zzyzxqq", "🧂", '"', "NEAR(", "a" * 200, "ملح", "' OR 1=1 --"])
def test_any_words_are_searched_for_without_harm(client: FlaskClient, query: str) -> None:
    response = client.get("/v1/foods", query_string={"query": query})
    assert response.status_code == 200
    assert isinstance(response.get_json()["foods"], list)


def test_a_food_is_shown_with_amounts_and_measures(client: FlaskClient) -> None:
    food = client.get("/v1/foods/02047").get_json()
    assert food["name"] == "Salt, table"
    assert food["per_100g"]["NA"] == {"amount": 38758, "unit": "mg"}
    assert {"label", "grams"} <= set(food["household"][0])


@pytest.mark.parametrize("code", ["99999", "2047", "x" * 300, "%00", "..%2f..%2fetc"])
def test_an_unknown_code_is_not_found(client: FlaskClient, code: str) -> None:
    problem(client.get(f"/v1/foods/{code}"), 404)
