"""Parts of an answer by their names: those alone, the same as in the whole, and notices in any case."""

from __future__ import annotations

import pytest
from flask.testing import FlaskClient
from saltledger.http.examples import SHORT, recipe_example
from saltledger.recipe.answer import ALWAYS, PARTS

from .problems import faults
from .test_closed_answers import undescribed

PATH = "/v1/calculations"


@pytest.mark.parametrize(
    "include", ["sodium", "sodium,allergens", " per_100g , sodium,sodium ", ",".join(PARTS[:4])]
)
def test_parts_are_those_of_the_whole_answer(client: FlaskClient, include: str) -> None:
    whole = client.post(PATH, json=recipe_example()).get_json()
    response = client.post(PATH, json=recipe_example(), query_string={"include": include})
    part = response.get_json()
    wanted = {name.strip() for name in include.split(",")}
    assert part == {name: value for name, value in whole.items() if name in (*ALWAYS, *wanted)}
    assert undescribed("POST", PATH, response) == []
    assert len(response.data) < 0.9 * len(client.post(PATH, json=recipe_example()).data)


def test_what_can_hurt_is_said_whatever_is_asked_for(client: FlaskClient) -> None:
    much = {"servings": 1, "ingredients": ["500 g potatoes", "400 g table salt"]}
    told = client.post(f"{PATH}?include=allergens", json=much).get_json()
    assert "stop" in {notice["severity"] for notice in told["notices"]}
    assert "sodium" not in told


def test_a_label_and_an_explanation_by_themselves(client: FlaskClient) -> None:
    asked = f"{PATH}?include=label,explanation&label=eu&explain=NA"
    told = client.post(asked, json=SHORT).get_json()
    assert set(told) == {*ALWAYS, "label", "explanation"} - {"portion_g"}
    assert told["label"] == client.post(f"{PATH}?label=eu", json=SHORT).get_json()["label"]


@pytest.mark.parametrize(
    ("query", "message"),
    [
        ("include=sodum", "did you mean sodium?"),
        ("include=", "nothing in it"),
        ("include=sodium,,energy", 'has no part ""'),
        ("include=label", "add label"),
        ("include=explanation&explain=false", "add explain"),
        ("include=sodium&servings=3", "unscaled"),
    ],
)
def test_what_is_refused_is_refused_in_words(client: FlaskClient, query: str, message: str) -> None:
    response = client.post(f"{PATH}?{query}", json=SHORT)
    found = faults(response)
    assert list(found) == ["/include"]
    assert message in found["/include"]


def test_other_forms_are_whole(client: FlaskClient) -> None:
    response = client.post(f"{PATH}?include=sodium", json=SHORT, headers={"Accept": "text/csv"})
    assert response.status_code == 422
