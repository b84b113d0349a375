"""Scaling, batches and portions by weight, over HTTP and by what a recipe of that size gives itself."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from flask.testing import FlaskClient
from hypothesis import given
from hypothesis import strategies as st
from saltledger.foods.dataset import bundled
from saltledger.recipe.calculation import calculate
from saltledger.recipe.request import RecipeRequest
from saltledger.recipe.scaling import Wish, scaled

from ..http.kept import BRINED, SOUP, kept_app
from ..http.problems import faults


@pytest.fixture
def cms(tmp_path: Path) -> Iterator[FlaskClient]:
    with kept_app("sqlite", tmp_path) as app:
        yield app.test_client()


def answer(document: dict[str, Any]) -> dict[str, Any]:
    return calculate(RecipeRequest.from_document(document), bundled())


LEGS = answer(BRINED)


@given(st.floats(0.5, 5000))
def test_it_is_what_a_recipe_of_that_size_lists(servings: float) -> None:
    found = scaled(LEGS, Wish(servings=servings))
    assert found["factor"] == pytest.approx(servings / 6)
    for line, whole in zip(found["ingredients"], LEGS["ingredients"], strict=True):
        assert line["grams"] == pytest.approx(whole["grams"] * servings / 6)
    assert found["weight_g"] == pytest.approx(LEGS["per_serving"]["weight_g"] * servings)
    sodium = LEGS["per_serving"]["nutrients"]["NA"]
    assert found["portion"]["nutrients"]["NA"]["amount"] == sodium["amount"]


def test_ten_times_the_lines_give_the_lines_of_ten_times() -> None:
    tenfold = answer(
        {**SOUP, "servings": 40, "ingredients": ["8 kg potatoes", "10 litre water", "20 tsp table salt"]}
    )
    found = scaled(answer(SOUP), Wish(servings=40))
    for line, whole in zip(found["ingredients"], tenfold["ingredients"], strict=True):
        assert line["grams"] == pytest.approx(whole["grams"])
        assert line["unit"] == whole["unit"] or line["unit"] == "gram"
    assert found["weight_g"] == pytest.approx(40 * tenfold["per_serving"]["weight_g"])


@given(st.floats(50, 1000), st.integers(1, 900))
def test_portions_by_weight_hold_what_that_weight_holds(portion_g: float, servings: int) -> None:
    found = scaled(LEGS, Wish(servings=servings, portion_g=portion_g))
    assert found["weight_g"] == pytest.approx(portion_g * servings)
    hundred = LEGS["per_100g"]["nutrients"]["NA"]
    for name in ("low", "amount", "high"):
        assert found["portion"]["nutrients"]["NA"][name] == pytest.approx(hundred[name] * portion_g / 100)


def test_a_recipe_is_cut_into_portions() -> None:
    found = scaled(LEGS, Wish(portion_g=100))
    assert found["factor"] == 1
    assert found["servings"] == pytest.approx(LEGS["per_serving"]["weight_g"] * 6 / 100)


@given(st.floats(1, 2000), st.floats(2000, 80_000))
def test_batches_are_equal_and_fit(servings: float, batch_g: float) -> None:
    found = scaled(LEGS, Wish(servings=servings, batch_g=batch_g))
    batches = found["batches"]
    assert batches["weight_g"] <= batch_g * (1 + 1e-6)
    assert batches["weight_g"] * batches["count"] == pytest.approx(found["weight_g"])
    assert found["weight_g"] <= batch_g or batches["weight_g"] > batch_g / 2 * (1 - 1e-6)
    for line in found["ingredients"]:
        assert line["batch_grams"] * batches["count"] == pytest.approx(line["grams"])


def test_over_http(cms: FlaskClient) -> None:
    found = cms.post("/v1/calculations?servings=120&batch_g=60000", json=BRINED).json
    assert found["servings"] == 6
    assert found["scaled"]["factor"] == 20
    assert "local food codes" in found["scaled"]["notices"][0]
    cms.put("/v1/recipes/legs", json=BRINED)
    saved = cms.get("/v1/recipes/legs?servings=120&batch_g=60000&label=fda").json["calculation"]
    assert saved["scaled"] == found["scaled"]
    assert "label" in saved
    version = cms.get("/v1/recipes/legs/versions/1?portion_g=250").json["calculation"]
    assert version["scaled"]["portion"]["weight_g"] == 250


def test_what_cannot_be_is_refused_by_name(cms: FlaskClient) -> None:
    def found(query: str, document: Any = SOUP, **headers: str) -> dict[str, str]:
        return faults(cms.post(f"/v1/calculations?{query}", json=document, headers=headers))

    assert list(found("servings=0")) == ["/servings"]
    assert list(found("servings=-3")) == ["/servings"]
    assert list(found("servings=100000&batch_g=1")) == ["/batch_g"]
    assert "JSON" in found("servings=8", Accept="text/csv")["/servings"]
    nothing = {"servings": 1, "components": [{"id": "a", "ingredients": ["1 egg"], "eaten_fraction": 0}]}
    assert "cannot be weighed" in found("portion_g=100", nothing)["/portion_g"]
    assert "line" in cms.post("/v1/calculations?servings=8", json=nothing).json["scaled"]["ingredients"][0]
