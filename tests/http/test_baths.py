"""POST /v1/baths, as JSON and as a picture."""

from __future__ import annotations

from typing import Any
from xml.etree import ElementTree

import pytest
from flask.testing import FlaskClient
from saltledger.curing.curing_limits import limit_for, product_classes, schemes
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


def changed(food: dict[str, Any] | None = None, bath: dict[str, Any] | None = None, **more: Any) -> Any:
    """The example with other values; None takes a field out."""
    merged = {**BATH, "food": BATH["food"] | (food or {}), "bath": BATH["bath"] | (bath or {})} | more
    return {key: value for key, value in merged.items() if value is not None}


DRY = {"water_g": 0, "salt_g": 30, "curing_salt": "type_1", "curing_salt_g": 2.8}


@pytest.mark.parametrize(
    "asked",
    [
        changed({"shape": "short_cylinder", "length_cm": 30}),
        changed({"shape": "brick", "length_cm": 25, "width_cm": 10}),
        changed({"untaken_fraction": 0.2}),
        changed({"weight_after_g": 1480}),
        changed(pick_up_percent=6),
        changed(pick_up_percent=-3),
        changed(bath={"nitrate_g": 0.2, "nitrite_g": 0.3}),
        changed(bath=DRY, product_class="dry_cured"),
        changed(ready_share=0.5),
    ],
)
def test_everything_a_bath_may_say_changes_the_answer(client: FlaskClient, asked: dict[str, Any]) -> None:
    response = client.post("/v1/baths", json=asked)
    assert response.status_code == 200, response.get_json()
    plain = client.post("/v1/baths", json=BATH).get_json()
    assert response.get_json() != plain


def test_a_dry_cure_has_no_water(client: FlaskClient) -> None:
    answer = client.post("/v1/baths", json=changed(bath=DRY, product_class="dry_cured")).get_json()
    assert 0.9 < answer["equilibrium"]["absorption_factor"] < 1
    assert answer["nitrite"]["method"] == "dry"
    assert answer["nitrite"]["judged_ppm"] == pytest.approx(2.8 * 0.0625 / 1400 * 1e6)
    assert "/bath" in faults(client.post("/v1/baths", json=changed(bath={"water_g": 0, "salt_g": 0})))


def test_both_schemes_have_classes_of_their_own(client: FlaskClient) -> None:
    cured = {"nitrite_g": 0.6}
    for scheme in schemes():
        for product_class in product_classes(scheme):
            bath = (
                cured if limit_for(product_class, scheme=scheme).method != "dry" else cured | {"water_g": 0}
            )
            asked = changed(bath=bath, scheme=scheme, product_class=product_class)
            response = client.post("/v1/baths", json=asked)
            assert response.status_code == 200, response.get_json()
            nitrite = response.get_json()["nitrite"]
            assert (nitrite["scheme"], nitrite["product_class"]) == (scheme, product_class)
    other = changed(scheme="us", product_class="sterilised")
    assert "/product_class" in faults(client.post("/v1/baths", json=other))


@pytest.mark.parametrize("accept", ["image/svg+xml", "image/*", "application/json;q=0.5, image/svg+xml"])
def test_a_picture_is_given_to_who_asks_for_one(client: FlaskClient, accept: str) -> None:
    response = client.post("/v1/baths", json=BATH, headers={"Accept": accept})
    assert response.mimetype == "image/svg+xml"
    picture = ElementTree.fromstring(response.data)
    assert picture.tag == f"{SVG}svg"
    # The content policy would block style that stands in the picture.
    assert not any("style" in each.attrib or each.tag == f"{SVG}style" for each in picture.iter())
