"""POST /v1/baths, as JSON and as a picture."""

from __future__ import annotations

from xml.etree import ElementTree

import pytest
from flask.testing import FlaskClient
from saltledger.http.examples import BATH

from .problems import faults

SVG = "{http://www.w3.org/2000/svg}"


def test_a_bath_comes_nearer_to_rest_with_time(client: FlaskClient) -> None:
    answer = client.post("/v1/baths", json=BATH).get_json()
    means = [point["mean_percent"] for point in answer["curve"]]
    assert means == sorted(means)
    factor = answer["absorption_factor"]
    assert 0 < factor["low"] < factor["likely"] < factor["high"] < 1
    assert factor["likely"] < answer["equilibrium"]["absorption_factor"]


def test_the_class_of_food_is_called_class_in_both_ways(client: FlaskClient) -> None:
    other = {**BATH, "food": {**BATH["food"], "class": "vegetable"}}
    first, second = (client.post("/v1/baths", json=each).get_json() for each in (BATH, other))
    assert first["ready_h"] != second["ready_h"]
    unknown = {**BATH, "food": {**BATH["food"], "class": "stone"}}
    assert "wanted one of beef" in faults(client.post("/v1/baths", json=unknown))["/food/class"]


def test_what_a_shape_needs_is_asked_for(client: FlaskClient) -> None:
    brick = {**BATH, "food": {**BATH["food"], "shape": "brick"}}
    assert set(faults(client.post("/v1/baths", json=brick))) == {"/food/length_cm", "/food/width_cm"}


@pytest.mark.parametrize("accept", ["image/svg+xml", "image/*", "application/json;q=0.5, image/svg+xml"])
def test_a_picture_is_given_to_who_asks_for_one(client: FlaskClient, accept: str) -> None:
    response = client.post("/v1/baths", json=BATH, headers={"Accept": accept})
    assert response.mimetype == "image/svg+xml"
    picture = ElementTree.fromstring(response.data)
    assert picture.tag == f"{SVG}svg"
    # The content policy would block style that stands in the picture.
    assert not any("style" in each.attrib or each.tag == f"{SVG}style" for each in picture.iter())
