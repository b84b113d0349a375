"""POST /v1/targets and /v1/comparisons: asked the other way round, and side by side."""

from __future__ import annotations

from typing import Any

import pytest
from flask.testing import FlaskClient
from saltledger.http.examples import COMPARISON, SHORT, TARGET

from .problems import faults


def test_the_value_found_meets_the_target(client: FlaskClient) -> None:
    answer = client.post("/v1/targets", json=TARGET).get_json()
    assert answer["reachable"] is True
    assert answer["unit"] == "g"
    likely = answer["calculation"]["sodium"]["per_serving_mg"]["likely"]
    assert likely == pytest.approx(480, rel=1e-3)


def test_a_claim_is_solved_for(client: FlaskClient) -> None:
    answer = client.post("/v1/targets", json={**TARGET, "target": {"claim": "low_sodium"}}).get_json()
    assert answer["reachable"] is True
    assert answer["claim"]["met_at_likely"] is True
    assert answer["wanted_mg"] is None


def test_levers_come_ranked(client: FlaskClient) -> None:
    levers = client.post("/v1/targets", json=TARGET).get_json()["levers"]
    saved = [lever["saves_mg"] for lever in levers]
    assert saved == sorted(saved, reverse=True)
    assert "Halve '1 1/2 tsp fine salt'." in [lever["change"] for lever in levers]


def test_what_cannot_be_reached_says_why(client: FlaskClient) -> None:
    sent = {**TARGET, "target": {"sodium_mg_per_serving": 0}}
    answer = client.post("/v1/targets", json=sent).get_json()
    assert answer["reachable"] is False
    assert answer["floor_mg"] > 0
    (notice,) = answer["notices"]
    assert notice["message"].startswith("Not reachable: '")
    assert "ceiling_mg" not in answer


@pytest.mark.parametrize(
    ("target", "pointer"),
    [
        ({}, "/target"),
        ({"sodium_mg_per_serving": 480, "percent": 20}, "/target"),
        ({"percent": 20}, "/target"),
        ({"claim": "low_sodium", "percent": 20}, "/target"),
        ({"claim": "nobodys"}, "/target/claim"),
        ({"reference": "fda_daily_value"}, "/target"),
        ({"reference": "nobodys", "percent": 20}, "/target/reference"),
        ({"sodium_mg_per_serving": "480"}, "/target/sodium_mg_per_serving"),
    ],
)
def test_a_target_is_stated_in_one_way(client: FlaskClient, target: dict[str, Any], pointer: str) -> None:
    assert pointer in faults(client.post("/v1/targets", json={**TARGET, "target": target}))


@pytest.mark.parametrize("vary", ["", "/title", "/ingredients/99", "ingredients/0", "/ingredients/-1"])
def test_what_cannot_be_varied_is_refused(client: FlaskClient, vary: str) -> None:
    assert "/vary" in faults(client.post("/v1/targets", json={**TARGET, "vary": vary}))


def test_faults_of_a_recipe_inside_point_inside(client: FlaskClient) -> None:
    bad = {**SHORT, "ingredients": [{"food": "99999", "grams": 1}], "steps": []}
    target = client.post("/v1/targets", json={**TARGET, "recipe": bad, "vary": "/ingredients/0"})
    assert "/recipe/ingredients/0/food" in faults(target)
    versions = [{"label": "a", "recipe": SHORT}, {"label": "b", "recipe": bad}]
    comparison = client.post("/v1/comparisons", json={"versions": versions})
    assert "/versions/1/recipe/ingredients/0/food" in faults(comparison)


def test_differences_are_of_the_answers(client: FlaskClient) -> None:
    answer = client.post("/v1/comparisons", json=COMPARISON).get_json()
    first, other = (each["calculation"]["sodium"]["per_serving_mg"]["likely"] for each in answer["versions"])
    (difference,) = answer["differences"]
    assert (difference["from"], difference["to"]) == ("as it is", "half the salt")
    assert difference["sodium_mg_per_serving"]["likely"] == pytest.approx(other - first, rel=1e-3)


def test_one_version_or_eleven_are_refused(client: FlaskClient) -> None:
    version = COMPARISON["versions"][0]
    for count in (1, 11):
        response = client.post("/v1/comparisons", json={"versions": [version] * count})
        assert f"Found a list of {count}" in faults(response)["/versions"]


@pytest.mark.parametrize(
    "vary",
    ["/ingredients/00", "/ingredients/+0", "/ingredients/-0", "/ingredients/" + "9" * 5000, "/ingredients/٠"],
    ids=lambda vary: vary[:20],
)
def test_a_pointer_is_written_in_one_way_only(client: FlaskClient, vary: str) -> None:
    document = {"recipe": SHORT, "target": {"sodium_mg_per_serving": 100}, "vary": vary}
    response = client.post("/v1/targets", json=document)
    assert response.status_code == 422, response.get_data(as_text=True)
    assert {error["pointer"] for error in response.get_json()["errors"]} == {"/vary"}


def test_structured_data_can_stand_in_a_page(client: FlaskClient) -> None:
    document = {**SHORT, "title": "</script><script>alert(1)</script>"}
    response = client.post("/v1/calculations", json=document, headers={"Accept": "application/ld+json"})
    assert b"<" not in response.data
    assert response.get_json(force=True)["name"] == document["title"]
