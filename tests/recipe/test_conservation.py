"""Nothing is made and nothing is lost: what came in is eaten or discarded, in every draw."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from saltledger.foods.dataset import bundled
from saltledger.recipe.calculation import calculate, cook
from saltledger.recipe.pool_rows import ROW, WEIGHT
from saltledger.recipe.request import PLACES, RecipeRequest

from .kitchens import NAMES, recipes

SETTINGS = settings(
    max_examples=100, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow]
)


def cooked(document: dict[str, Any]):
    return cook(RecipeRequest.from_document(document), bundled())


@SETTINGS
@given(recipes())
def test_all_that_came_in_ends_in_a_place(document: dict[str, Any]) -> None:
    pools = cooked(document).state.pools
    ended = sum(pools.amounts[place] for place in PLACES)
    np.testing.assert_allclose(ended, pools.brought, rtol=1e-9, atol=1e-9)
    for name in NAMES:
        assert np.abs(pools.amounts[name]).max() <= 1e-9 * (1 + np.abs(pools.brought).max())


@SETTINGS
@given(recipes())
def test_nothing_is_ever_less_than_nothing(document: dict[str, Any]) -> None:
    pools = cooked(document).state.pools
    for pool in pools.amounts.values():
        assert np.isfinite(pool).all()
        assert pool.min() >= -1e-9


@SETTINGS
@given(recipes())
def test_sodium_in_the_ledger_is_the_sodium_that_was_brought(document: dict[str, Any]) -> None:
    outcome = cooked(document)
    pools = outcome.state.pools
    arrived = {place: np.zeros_like(pools.brought[ROW["NA"]]) for place in (*PLACES, *NAMES)}
    for movement in pools.ledger:
        arrived[movement.target] = arrived[movement.target] + movement.sodium_mg
        arrived[movement.source] = arrived[movement.source] - movement.sodium_mg
    for place in PLACES:
        np.testing.assert_allclose(arrived[place], pools.amounts[place][ROW["NA"]], rtol=1e-9, atol=1e-6)
    assert outcome.eaten[WEIGHT].min() >= 0


@SETTINGS
@given(recipes())
def test_low_likely_and_high_run_in_order(document: dict[str, Any]) -> None:
    answer = calculate(RecipeRequest.from_document(document), bundled())
    for entry in answer["per_serving"]["nutrients"].values():
        assert 0 <= entry["low"] <= entry["amount"] <= entry["high"]
    sodium = answer["sodium"]
    fates, listed_mg = sodium["fates"], sodium["as_listed_per_serving_mg"] * document["servings"]
    assert fates["eaten_mg"] + fates["discarded_mg"] == pytest.approx(listed_mg, rel=1e-9, abs=1e-6)
    assert sum(entry["mg"] for entry in fates["places"]) == pytest.approx(listed_mg, rel=1e-9, abs=1e-6)
